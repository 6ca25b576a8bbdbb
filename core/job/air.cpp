// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/air.h"

#include "core/job/work.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace bw {
namespace {

/// Something a layer may hold, the words for it and what it does.
struct Component {
  const char* key;
  const char* name;
  const char* warning;
};

// Limits over eight hours are those of the United States (29 CFR 1910); local ones go before them.
constexpr Component components[] = {
    {"asbestos", "asbestos", "no work with a laser: licensed removal only"},
    {"pcb", "PCB", "heat turns it into dioxins and furans: no work with a laser, licensed removal only"},
    {"lead", "lead",
     "poisonous dust and fume, 50 µg/m³ over eight hours (29 CFR 1910.1025): capture at the head, respirator, wash "
     "before eating, blood tests"},
    {"chromate", "chromate",
     "hexavalent chromium causes cancer, 5 µg/m³ over eight hours (29 CFR 1910.1026): capture at the head, "
     "respirator"},
    {"cadmium", "cadmium", "poisonous fume, causes cancer, 5 µg/m³ over eight hours (29 CFR 1910.1027, from memory)"},
    {"isocyanate", "isocyanates", "set free from 200 °C, cause asthma: gas stage behind the dust filter, nobody sensitised in the room"},
    {"pvc", "PVC", "hydrogen chloride from 200 °C, which no dust filter holds: gas stage, and the fume rusts machines"},
    {"fluoropolymer", "fluoropolymer", "hydrogen fluoride, which no dust filter holds: gas stage; no smoking near it"},
    {"pah", "tar", "fume with polycyclic hydrocarbons; melts, runs and burns: scrape off the thick of it, extinguisher at hand"},
    {"zinc", "zinc", "zinc oxide fume gives metal fume fever, 5 mg/m³ over eight hours (29 CFR 1910.1000)"},
};

struct BehindWarning {
  Behind behind;
  const char* warning;
};

constexpr BehindWarning behinds[] = {
    {Behind::Fuel,
     "Fuel behind the face: no work before the tank is out, or emptied, cleaned and declared free of gas by a competent person."},
    {Behind::ClosedCavity, "Closed cavity behind the face: open and vent it first. A closed vessel never."},
    {Behind::Foam, "Foam behind the face: it smoulders unseen and its smoke is poisonous. Take it out, or fire watch until cold."},
    {Behind::Wood, "Wood behind the face: it chars unseen and may break out later. Fire watch until long after."},
    {Behind::Wax, "Wax behind the face: it runs from 60 to 90 °C and burns."},
    {Behind::Wiring, "Wiring behind the face: disconnect it and move it away."},
    {Behind::Adhesive, "Bonded joint behind the face: adhesives soften from 80 to 130 °C."},
    {Behind::Paint, "Paint on the back face: it yellows and blisters from 180 to 230 °C."},
    {Behind::Unknown, "Not known what lies behind the face: look before the beam is on."},
};

const char* dustWarning(MetalFamily family) {
  switch (family) {
    case MetalFamily::Iron:
      return "Iron and rust dust: hot particles set filters alight, use a spark trap. Never in one filter with aluminium or magnesium dust "
             "(thermite).";
    case MetalFamily::Aluminium:
      return "Aluminium dust burns and explodes, and gives off hydrogen when wet. Never in one filter with iron or rust dust (thermite).";
    case MetalFamily::Magnesium:
      return "FIRE: magnesium dust, chips and edges catch fire and water feeds the fire. Class D extinguisher at hand. Never in one filter "
             "with iron or rust dust (thermite).";
    case MetalFamily::Titanium:
      return "Titanium dust burns: keep it out of filters that hold other dust, sand at hand.";
    case MetalFamily::Copper:
      return "Copper fume: 0.1 mg/m³ over eight hours (29 CFR 1910.1000, from memory).";
    case MetalFamily::Unknown:
      break;
  }
  return "Metal not known: use a clean filter. Iron dust never in one filter with aluminium or magnesium dust (thermite).";
}

/// Names of the layers that hold, or may hold, a component; each name once.
std::string layersWith(const std::vector<CoatedArea>& areas, const std::string& component, Presence presence) {
  std::vector<std::string> names;
  for (const CoatedArea& area : areas) {
    for (const LayerMaterial& layer : area.coat) {
      const auto found = layer.components.find(component);
      if (found == layer.components.end() || found->second != presence) continue;
      if (std::ranges::find(names, layer.name) == names.end()) names.push_back(layer.name);
    }
  }
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

std::string capitalised(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

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

std::vector<std::string> hazards(const std::vector<CoatedArea>& areas, const Metal& metal, const Part& part) {
  std::vector<std::string> list;
  std::string toTest;
  for (const Component& component : components) {
    const std::string known = layersWith(areas, component.key, Presence::Yes);
    const std::string suspected = layersWith(areas, component.key, Presence::Unknown);
    if (!known.empty()) list.push_back(capitalised(component.name) + " (" + known + "): " + component.warning + ".");
    if (!suspected.empty()) toTest += (toTest.empty() ? "" : "; ") + std::string(component.name) + " in " + suspected;
  }
  if (!toTest.empty()) list.insert(list.begin(), "Test before the beam is on, until then take it to be there: " + toTest + ".");
  for (const BehindWarning& entry : behinds) {
    if (std::ranges::find(part.behind, entry.behind) != part.behind.end()) list.emplace_back(entry.warning);
  }
  list.emplace_back(dustWarning(metal.family));
  if (metal.platingMelts_C)
    list.emplace_back("Zinc plating: its fume gives metal fume fever, 5 mg/m³ over eight hours (29 CFR 1910.1000).");
  return list;
}

AirResult air(const std::vector<CoatedArea>& areas, const Metal& metal, const Part& part, std::optional<double> removedFraction,
              std::optional<double> beamTime_s) {
  AirResult result;
  if (removedFraction) result.removed_kg = coatMass_kg(areas) * *removedFraction;
  if (result.removed_kg && beamTime_s && *beamTime_s > 0) result.fume_kg_s = *result.removed_kg / *beamTime_s;
  result.hazards = hazards(areas, metal, part);
  if (result.fume_kg_s && *result.fume_kg_s > 0) result.hazards.push_back(dilutionSentence(*result.fume_kg_s));
  return result;
}

}  // namespace bw
