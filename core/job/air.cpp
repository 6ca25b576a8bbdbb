// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/air.h"

#include "core/job/hazards.h"
#include "core/job/work.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace bw {
namespace {

double twoDigits(double value) {
  const double unit = std::pow(10, std::floor(std::log10(value)) - 1);
  return std::round(value / unit) * unit;
}

std::string dilutionSentence(double fume_kg_s) {
  constexpr double respirable_kg_m3 = 5e-6;  // dust not otherwise regulated, respirable: 29 CFR 1910.1000 table Z-1, from memory
  constexpr double hour_s = 3600;
  char text[200];
  std::snprintf(text, sizeof text, "Thinning this fume with room air to 5 mg/m³ would take about %.0f m³/h: capture it at the head.",
                twoDigits(dilution_m3_s(fume_kg_s, respirable_kg_m3) * hour_s));
  return text;
}

}  // namespace

std::vector<CoatedArea> coatedAreas(const Project& project, const Step& step, const Library& shipped) {
  std::vector<CoatedArea> coated;
  for (const Area& area : areasOf(project.part, step)) {
    coated.push_back({area.area_m2 * area.count.value_or(1), resolveCoat(area.coat.value_or(project.coat), project.library, shipped)});
  }
  return coated;
}

double coatMass_kg(const std::vector<CoatedArea>& areas) {
  double mass_kg = 0;
  for (const CoatedArea& area : areas) {
    for (const LayerMaterial& layer : area.coat) {
      if (!layer.keep) mass_kg += area.area_m2 * layer.thickness_m.likely * layer.density_kg_m3.likely;
    }
  }
  return mass_kg;
}

double dilution_m3_s(double fume_kg_s, double limit_kg_m3) { return fume_kg_s / limit_kg_m3; }

AirResult air(const std::vector<CoatedArea>& areas, const Metal& metal, const Part& part, std::optional<double> removedFraction,
              std::optional<double> beamTime_s) {
  AirResult result;
  if (removedFraction) result.removed_kg = coatMass_kg(areas) * *removedFraction;
  if (result.removed_kg && beamTime_s && *beamTime_s > 0) result.fume_kg_s = *result.removed_kg / *beamTime_s;
  result.hazards = hazards(areas, metal, part);
  if (result.fume_kg_s && *result.fume_kg_s > 0) result.hazards.push_back({Harm::Lungs, dilutionSentence(*result.fume_kg_s)});
  return result;
}

}  // namespace bw
