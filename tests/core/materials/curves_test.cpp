// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/curves.h"

#include "core/files/library_file.h"
#include "tests/support/catch.h"

#include <vector>

using namespace bw;

namespace {

struct Row {
  ThermalCurve curve;
  double temperature_C;
  double value;
};

constexpr auto steel = ThermalCurve::CarbonSteel;
constexpr auto stainless = ThermalCurve::StainlessSteel;
constexpr auto aluminium6 = ThermalCurve::Aluminium3xxx6xxx;
constexpr auto aluminium5 = ThermalCurve::Aluminium5xxx7xxx;
constexpr auto constant = ThermalCurve::Constant;

// The curves' own values at 20 degrees, so that nothing is scaled.
double ownConductivity(ThermalCurve curve) {
  return curve == steel ? 53.334 : curve == stainless ? 14.854 : curve == aluminium6 ? 191.4 : curve == aluminium5 ? 142.0 : 1.0;
}
double ownSpecificHeat(ThermalCurve curve) {
  return curve == steel ? 439.80176 : curve == stainless ? 455.484672 : curve == constant ? 1.0 : 911.2;
}

}  // namespace

TEST_CASE("Conductivity follows EN 1993-1-2 and EN 1999-1-2", "[materials]") {
  // EN 1993-1-2:2005 3.4.1.3 and annex C, EN 1999-1-2:2007 3.3, evaluated by hand at these temperatures.
  const std::vector<Row> rows = {
      {steel, 20, 53.334},     {steel, 100, 50.67},     {steel, 400, 40.68},     {steel, 700, 30.69},     {steel, 800, 27.3},
      {steel, 1000, 27.3},     {stainless, 20, 14.854}, {stainless, 200, 17.14}, {stainless, 600, 22.22}, {stainless, 1000, 27.3},
      {aluminium6, 20, 191.4}, {aluminium6, 200, 204},  {aluminium6, 400, 218},  {aluminium5, 20, 142},   {aluminium5, 400, 180},
  };
  for (const Row& row : rows) {
    INFO(row.temperature_C << " C");
    CHECK(conductivity_W_mK(row.curve, ownConductivity(row.curve), row.temperature_C) == Catch::Approx(row.value).epsilon(1e-4));
  }
}

TEST_CASE("Specific heat follows EN 1993-1-2 and EN 1999-1-2", "[materials]") {
  // EN 1993-1-2:2005 3.4.1.2 and annex C, EN 1999-1-2:2007 3.3, evaluated by hand at these temperatures.
  const std::vector<Row> rows = {
      {steel, 20, 439.80},      {steel, 100, 487.62},   {steel, 300, 564.74},    {steel, 500, 666.5},
      {steel, 600, 760.22},     {steel, 700, 1008.2},   {steel, 735, 5000},      {steel, 800, 803.26},
      {steel, 1000, 650},       {stainless, 20, 455.5}, {stainless, 200, 495.4}, {stainless, 400, 524.0},
      {stainless, 1000, 573.0}, {aluminium6, 200, 985}, {aluminium5, 200, 985},  {aluminium5, 400, 1067},
  };
  for (const Row& row : rows) {
    INFO(row.temperature_C << " C");
    CHECK(specificHeat_J_kgK(row.curve, ownSpecificHeat(row.curve), row.temperature_C) == Catch::Approx(row.value).epsilon(1e-4));
  }
}

TEST_CASE("The heat capacity of steel meets itself at 735 degrees", "[materials]") {
  // A transcription with 1820 for 17820 would jump from 5000 to 1000 here.
  CHECK(specificHeat_J_kgK(steel, 439.80176, 734.999) == Catch::Approx(specificHeat_J_kgK(steel, 439.80176, 735.001)).epsilon(1e-3));
}

TEST_CASE("Enthalpy of steel is the integral of its specific heat", "[materials]") {
  // EN 1993-1-2:2005 3.4.1.2 integrated from 20 degrees in closed form, kJ/kg.
  const std::vector<std::pair<double, double>> published = {{20, 0},       {100, 37.207}, {200, 88.191}, {300, 142.92},
                                                            {400, 201.34}, {500, 264.75}, {600, 335.74}};
  for (const auto& [temperature_C, enthalpy_kJ_kg] : published) {
    CHECK(enthalpy_J_kg(steel, 439.80176, temperature_C) / 1000 == Catch::Approx(enthalpy_kJ_kg).epsilon(1e-4).margin(1e-9));
  }
  // Beyond the published values, through the peak, and for every curve: against the trapezium rule.
  for (const ThermalCurve curve : {steel, stainless, aluminium6, constant}) {
    const double own = ownSpecificHeat(curve);
    double sum = 0;
    constexpr double step_C = 0.05;
    for (int i = 0; i < 26000; ++i) {
      const double from_C = 20 + i * step_C;
      sum += step_C / 2 * (specificHeat_J_kgK(curve, own, from_C) + specificHeat_J_kgK(curve, own, from_C + step_C));
    }
    CHECK(enthalpy_J_kg(curve, own, 20 + 26000 * step_C) == Catch::Approx(sum).epsilon(1e-5));  // the rule's own error at the peak
  }
  CHECK(enthalpy_J_kg(steel, 440, -10) == Catch::Approx(-30 * 440.0));
}

TEST_CASE("A curve passes through the metal's own value at 20 degrees and keeps its shape", "[materials]") {
  CHECK(conductivity_W_mK(steel, 45, 20) == Catch::Approx(45));
  CHECK(conductivity_W_mK(steel, 45, 600) == Catch::Approx(45 * 34.02 / 53.334));
  CHECK(conductivity_W_mK(constant, 50, 700) == 50);
  CHECK(specificHeat_J_kgK(constant, 500, 700) == 500);
  // Outside the range of validity the end's value holds.
  CHECK(conductivity_W_mK(steel, 53.334, -40) == Catch::Approx(53.334));
  CHECK(conductivity_W_mK(aluminium6, 191.4, 650) == Catch::Approx(225));
}

TEST_CASE("The shipped metals start from the values of their standards", "[materials]") {
  for (const char* id : {"mild-steel", "galvanised-steel", "stainless-steel", "aluminium-sheet", "aluminium-6xxx"}) {
    const Substrate* metal = findSubstrate(shippedLibrary(), id);
    REQUIRE(metal);
    INFO(id);
    CHECK(metal->conductivity_W_mK.range.likely == Catch::Approx(ownConductivity(metal->curve)).epsilon(1e-3));
    CHECK(metal->specificHeat_J_kgK.range.likely == Catch::Approx(ownSpecificHeat(metal->curve)).epsilon(1e-3));
  }
}
