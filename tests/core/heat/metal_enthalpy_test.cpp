// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/metal_enthalpy.h"

#include "tests/support/catch.h"

using namespace bw;

namespace {

const MetalHeat steelHeat{ThermalCurve::CarbonSteel, ThermalCurve::CarbonSteel, 53.334, 439.80, 7850};

}  // namespace

TEST_CASE("Steel holds the heat that EN 1993-1-2 says", "[heat]") {
  struct Row {
    double temperature_C, enthalpy_kJ_kg;
  };
  // The integral of the standard's specific heat from 20 degrees, 3.4.1.2, in high-precision arithmetic.
  const MetalEnthalpy table(steelHeat);
  for (const Row& row : {Row{100, 37.207}, Row{200, 88.191}, Row{300, 142.92}, Row{400, 201.34}, Row{500, 264.75}, Row{600, 335.74}}) {
    CHECK(table.enthalpy_J_m3(row.temperature_C) / 7850e3 == Catch::Approx(row.enthalpy_kJ_kg).epsilon(1e-4));
    CHECK(table.temperature_C(row.enthalpy_kJ_kg * 7850e3) == Catch::Approx(row.temperature_C).margin(0.05));
  }
}

TEST_CASE("There and back between temperature and enthalpy", "[heat]") {
  const MetalHeat stainless{ThermalCurve::StainlessSteel, ThermalCurve::StainlessSteel, 14.854, 455.5, 7900};
  const MetalHeat aluminium{ThermalCurve::Aluminium3xxx6xxx, ThermalCurve::Aluminium3xxx6xxx, 191.4, 911.2, 2700};
  const MetalHeat plain{ThermalCurve::Constant, ThermalCurve::Constant, 50, 480, 7850};
  for (const MetalHeat& metal : {steelHeat, stainless, aluminium, plain}) {
    const MetalEnthalpy table(metal);
    for (const double t : {-200.0, -40.0, 0.0, 20.0, 150.0, 731.0, 734.9, 735.0, 736.0, 900.0, 1500.0, 2999.5, 6000.0}) {
      INFO(t << " degrees");
      CHECK(table.temperature_C(table.enthalpy_J_m3(t)) == Catch::Approx(t).margin(0.15));
    }
    CHECK(table.enthalpy_J_m3(20) == 0);
    CHECK(table.potential_W_m(0) == Catch::Approx(0).margin(0.03 * metal.conductivity_W_mK));
  }
}

TEST_CASE("Kirchhoff's potential is the integral of the conductivity", "[heat]") {
  // EN 1993-1-2 3.4.1.3: 54 - 0.0333 theta, so from 20 to 500 degrees 54 x 480 - 0.0333 (500^2 - 20^2)/2.
  const MetalEnthalpy table(steelHeat);
  CHECK(table.potential_W_m(table.enthalpy_J_m3(500)) == Catch::Approx(54 * 480 - 0.0333 * (500.0 * 500 - 400) / 2).epsilon(1e-3));
  CHECK(table.fastest_m2_s() == Catch::Approx(53.334 / (7850 * 439.8)).epsilon(0.01));  // cold
}
