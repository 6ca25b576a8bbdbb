// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column.h"

#include "tests/core/removal/steel.h"
#include "tests/support/catch.h"

#include <cmath>
#include <numbers>

using namespace bw;

// Heat in the fine column against closed forms: bare metal that takes up all the light, so that the light is a flux at its face.

namespace {

using std::numbers::pi;

BareMetal black(double conductivity_W_mK, double heatCapacity_J_m3K, double start_C = 20) {
  BareMetal metal = steel();
  metal.absorptance = 1;
  metal.conductivity_W_mK = conductivity_W_mK;
  metal.heatCapacity_J_m3K = heatCapacity_J_m3K;
  metal.start_C = start_C;
  return metal;
}

ColumnSettings finer(double cell_m, double growth) {
  ColumnSettings settings = ColumnSettings::fine();
  settings.grain.metalCell_m = cell_m;
  settings.grain.metalGrowth = growth;
  settings.error_K = 0.01;
  return settings;
}

/// Between the middles of cells; at the face, from the first two.
double riseAt_K(const Column& column, double depth_m) {
  const std::vector<ColumnCell>& cells = column.cells();
  double middle = cells[0].size_m / 2;
  std::size_t i = 0;
  for (; i + 2 < cells.size(); ++i) {
    const double next = middle + (cells[i].size_m + cells[i + 1].size_m) / 2;
    if (next > depth_m) break;
    middle = next;
  }
  const double apart = (cells[i].size_m + cells[i + 1].size_m) / 2;
  return column.rise_K(i) + (depth_m - middle) / apart * (column.rise_K(i + 1) - column.rise_K(i));
}

double erfcIntegral(double u) { return std::exp(-u * u) / std::sqrt(pi) - u * std::erfc(u); }

/// Metal of constant properties that melts, as iron does.
Metal melting(double conductivity_W_mK, double density_kg_m3, double specificHeat_J_kgK, double melting_C) {
  Metal metal;
  metal.family = MetalFamily::Iron;
  metal.absorptance.likely = 1;
  metal.conductivity_W_mK.likely = conductivity_W_mK;
  metal.density_kg_m3.likely = density_kg_m3;
  metal.specificHeat_J_kgK.likely = specificHeat_J_kgK;
  metal.melting_C.range.likely = melting_C;
  return metal;
}

}  // namespace

TEST_CASE("A thick metal under constant flux warms as a half-space", "[removal]") {
  // J. P. Holman, Heat Transfer, example 4-2: k 45, a 1.4e-5, 35 degrees, 0.32 MW/m2, 30 s: 79.3 degrees at 25 mm. Surface 199.4:
  // Carslaw and Jaeger, 2nd ed., section 2.9, evaluated.
  Column column({}, black(45, 45 / 1.4e-5, 35), 0.5, {}, finer(1e-4, 1.05));
  column.shine(3.2e5 * 30, 30);
  CHECK(35 + riseAt_K(column, 0.025) == Catch::Approx(79.3).margin(0.1));
  CHECK(35 + riseAt_K(column, 0) == Catch::Approx(199.4).margin(0.2));
}

TEST_CASE("The fine column's own cells resolve the flash of a pulse in metal", "[removal]") {
  // Carslaw and Jaeger, 2nd ed., section 2.9: 2 q sqrt(a t) / k ierfc(x / (2 sqrt(a t))).
  const BareMetal metal = black(50, 3.6e6);
  for (const double duration : {20e-9, 100e-9, 1e-6}) {
    Column column({}, metal, 2e-3, {}, ColumnSettings::fine());
    column.shine(1e10 * duration, duration);
    const double reach = 2 * std::sqrt(metal.diffusivity_m2_s() * duration);
    for (const double depth : {0.0, 0.5 * reach}) {
      INFO(duration << " s, " << depth << " m");
      CHECK(riseAt_K(column, depth) ==
            Catch::Approx(1e10 * reach / 50 * erfcIntegral(depth / reach)).epsilon(0.03));  // cells of a tenth of the reach
    }
  }
}

TEST_CASE("A sheet under constant flux warms as a slab insulated behind", "[removal]") {
  // Carslaw and Jaeger, 2nd ed., section 3.8, evaluated: 0.8 mm steel, k 53.334, rho c at 20 degrees, 1 MW/m2.
  struct Row {
    double time_s, front_K, back_K;
  };
  for (const Row& row : {Row{2e-3, 3.719, 0.0032}, {10e-3, 8.340, 1.401}, {100e-3, 41.21, 33.71}}) {
    Column column({}, black(53.334, 7850 * 439.80), 0.8e-3, {}, finer(10e-6, 1.0));
    column.shine(1e6 * row.time_s, row.time_s);
    INFO(row.time_s << " s");
    CHECK(riseAt_K(column, 0) == Catch::Approx(row.front_K).epsilon(0.003));
    CHECK(column.rise_K(column.cells().size() - 1) == Catch::Approx(row.back_K).epsilon(0.003).margin(0.002));
  }
}

TEST_CASE("A metal melts as fast as Neumann's solution says", "[removal]") {
  // Carslaw and Jaeger, 2nd ed., section 11.2, equal properties of solid and liquid: face held at Ts, melt front at 2 m sqrt(a t),
  //   exp(-m^2) / erf m - (Tm - T0) / (Ts - Tm) exp(-m^2) / erfc m = m L sqrt(pi) / (c (Ts - Tm)).
  const double k = 40, density = 7800, c = 700, start = 900, melt = 1500, face = 2200, latent = latentHeat_J_kg(MetalFamily::Iron);
  double low = 0.01, high = 3;
  for (int i = 0; i < 60; ++i) {
    const double m = 0.5 * (low + high), e = std::exp(-m * m);
    const double balance =
        e / std::erf(m) - (melt - start) / (face - melt) * e / std::erfc(m) - m * latent * std::sqrt(pi) / (c * (face - melt));
    (balance > 0 ? low : high) = m;
  }

  ColumnSettings settings = finer(5e-6, 1.0);
  settings.air = {1e9, 0, face};  // so close a contact that the face is as hot
  Column column({}, ColumnMetal(melting(k, density, c, melt), start), 4e-3, {}, settings);
  const double time = 20e-3, a = k / (density * c);
  column.rest(time);

  double front = 0;
  for (std::size_t i = 0; i < column.cells().size() && column.rise_K(i) > melt - start; ++i) front += column.cells()[i].size_m;
  CHECK(front == Catch::Approx(2 * low * std::sqrt(a * time)).margin(7.5e-6));  // one and a half cells
  const double taken = 2 * k * (face - melt) / std::erf(low) * std::sqrt(time / (pi * a));
  CHECK(-column.lost_J_m2() == Catch::Approx(taken).epsilon(0.01));  // half a cell for a front of half a millimetre
  CHECK(column.energy().intoPart == Catch::Approx(-column.lost_J_m2()).epsilon(1e-9));
}

TEST_CASE("A bare sheet comes to the temperature at which it radiates and convects what it takes up", "[removal]") {
  ColumnSettings settings = ColumnSettings::fine();
  settings.air = {15, 0.8, 20};
  Column column({}, black(50, 3.6e6), 1e-3, {}, settings);
  for (int i = 0; i < 60; ++i) column.shine(5000 * 60, 60);
  const double hot_C = 20 + column.rise_K(0), hot_K = hot_C + 273.15;
  CHECK(15 * (hot_C - 20) + 0.8 * 5.670374e-8 * (std::pow(hot_K, 4) - std::pow(293.15, 4)) == Catch::Approx(5000).epsilon(1e-3));
  CHECK(column.energy().absorbed == Catch::Approx(column.energy().intoPart + column.lost_J_m2()).epsilon(1e-6));
}

TEST_CASE("A metal holds its curves' heat and the latent heat of melting", "[removal]") {
  Metal carbon = melting(53.334, 7850, 439.8, 1500);
  carbon.conductivityCurve = carbon.specificHeatCurve = ThermalCurve::CarbonSteel;
  const ColumnMetal metal(carbon, 20);
  // EN 1993-1-2 3.4.1.2, integrated from 20 degrees: 264.75 kJ/kg to 500.
  CHECK(metal.at(7850 * 264.75e3).rise_K == Catch::Approx(480).margin(0.2));
  CHECK(metal.at(7850 * 264.75e3).conductivity_W_mK == Catch::Approx(37.35).epsilon(1e-3));
  const double solid = 7850 * (335.74e3 + 0), molten = metal.at(solid).rise_K;
  CHECK(molten == Catch::Approx(580).margin(0.3));
  // NASA TM-4513: 247.2 kJ/kg at constant temperature.
  double begins = 0, ends = 0;
  for (double h = 0; h < 20e9; h += 1e6) {
    if (begins == 0 && metal.at(h).rise_K >= 1479.9) begins = h;
    if (ends == 0 && metal.at(h).rise_K > 1480.1) ends = h;
  }
  CHECK((ends - begins) / 7850 == Catch::Approx(247.2e3).epsilon(0.02));
  CHECK(ColumnMetal(steel()).at(3.6e8).rise_K == Catch::Approx(100));
  CHECK(latentHeat_J_kg(MetalFamily::Unknown) == 0);
  CHECK(metal.at(-1e6).rise_K < 0);  // colder than at the start: goes on straight
}
