// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_sheet.h"

namespace bw {

namespace {

constexpr double stefanBoltzmann = 5.670374419e-8;  // W/m2K4, exact since 2019 (CODATA)
constexpr double absoluteZero_C = -273.15;

double fourth(double celsius) {
  const double kelvin = celsius - absoluteZero_C;
  return kelvin * kelvin * kelvin * kelvin;
}

}  // namespace

Plate plateAt(const PartSheet& sheet, double temperature_C) {
  const double warm = temperature_C - absoluteZero_C, air = sheet.ambient_C - absoluteZero_C;
  const double radiation = sheet.emissivity * stefanBoltzmann * (warm * warm + air * air) * (warm + air);
  return {sheet.thickness_m, sheet.metal.conductivityAt_W_mK(temperature_C), sheet.metal.heatCapacityAt_J_m3K(temperature_C),
          sheet.filmCoefficient_W_m2K + radiation};
}

SheetLaw::SheetLaw(const PartSheet& sheet, const MetalEnthalpy& metal) : m_metal(metal), m_thickness(sheet.thickness_m) {
  constexpr double hottest_K3 = 1e9;  // a thousand kelvin cubed
  const double perVolume = 2 / sheet.thickness_m, air = fourth(sheet.ambient_C), capacity = sheet.metal.heatCapacityAt_J_m3K(20);
  m_film_1_s = perVolume * (sheet.filmCoefficient_W_m2K + 4 * sheet.emissivity * stefanBoltzmann * hottest_K3) / capacity;
  const auto loss = [&](double temperature_C) {
    const double film = sheet.filmCoefficient_W_m2K * (temperature_C - sheet.ambient_C);
    return perVolume * (film + sheet.emissivity * stefanBoltzmann * (fourth(temperature_C) - air));
  };
  const auto& table = metal.table();
  for (std::size_t i = 0; i + 1 < table.size(); ++i) {
    const double low = metal.enthalpyOf(i), span = metal.enthalpyOf(i + 1) - low;
    Line line;
    line.perPotential = (table[i + 1].potential_W_m - table[i].potential_W_m) / span;
    line.potential = table[i].potential_W_m - line.perPotential * low;
    line.perLoss = (loss(table[i + 1].temperature_C) - loss(table[i].temperature_C)) / span;
    line.loss = loss(table[i].temperature_C) - line.perLoss * low;
    m_lines.push_back(line);
  }
}

double SheetLaw::fastest_1_s(const Point& cell_m) const {
  constexpr double shortestWave = 16.0 / 3;  // of the fourth-order Laplacian, over 1/cell^2
  const double edges = 1 + m_thickness / cell_m.x() + m_thickness / cell_m.y();
  return shortestWave * m_metal.fastest_m2_s() * cell_m.cwiseAbs2().cwiseInverse().sum() + m_film_1_s * edges;
}

}  // namespace bw
