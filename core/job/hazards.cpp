// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/hazards.h"

#include "core/job/eyes.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <iterator>
#include <string_view>
#include <utility>

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
  Harm harm;
  const char* warning;
};

constexpr BehindWarning behinds[] = {
    {Behind::Fuel, Harm::Fire,
     "Fuel behind the face: no work before the tank is out, or emptied, cleaned and declared free of gas by a competent person."},
    {Behind::ClosedCavity, Harm::Fire, "Closed cavity behind the face: open and vent it first. A closed vessel never."},
    {Behind::Foam, Harm::Fire,
     "Foam behind the face: it smoulders unseen and its smoke is poisonous. Take it out, or fire watch until cold."},
    {Behind::Wood, Harm::Fire, "Wood behind the face: it chars unseen and may break out later. Fire watch until long after."},
    {Behind::Wax, Harm::Fire, "Wax behind the face: it runs from 60 to 90 °C and burns."},
    {Behind::Wiring, Harm::Fire, "Wiring behind the face: disconnect it and move it away."},
    {Behind::Adhesive, Harm::Part, "Bonded joint behind the face: adhesives soften from 80 to 130 °C."},
    {Behind::Paint, Harm::Part, "Paint on the back face: it yellows and blisters from 180 to 230 °C."},
    {Behind::Unknown, Harm::Fire, "Not known what lies behind the face: look before the beam is on."},
};

Hazard dustHazard(MetalFamily family) {
  switch (family) {
    case MetalFamily::Iron:
      return {
          Harm::Filter,
          "Iron and rust dust: hot particles set filters alight, use a spark trap. Never in one filter with aluminium or magnesium dust "
          "(thermite)."};
    case MetalFamily::Aluminium:
      return {Harm::Filter,
              "Aluminium dust burns and explodes, and gives off hydrogen when wet. Never in one filter with iron or rust dust (thermite)."};
    case MetalFamily::Magnesium:
      return {
          Harm::Fire,
          "FIRE: magnesium dust, chips and edges catch fire and water feeds the fire. Class D extinguisher at hand. Never in one filter "
          "with iron or rust dust (thermite)."};
    case MetalFamily::Titanium:
      return {Harm::Filter, "Titanium dust burns: keep it out of filters that hold other dust, sand at hand."};
    case MetalFamily::Copper:
      return {Harm::Filter, "Copper fume: 0.1 mg/m³ over eight hours (29 CFR 1910.1000, from memory)."};
    case MetalFamily::Unknown:
      break;
  }
  return {Harm::Filter, "Metal not known: use a clean filter. Iron dust never in one filter with aluminium or magnesium dust (thermite)."};
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

constexpr const char* testPrefix = "test-";

std::string testId(const Component& component, const std::string& layers) {
  return testPrefix + std::string(component.key) + ": " + layers;
}

bool stopsWork(const Component& component) {
  return std::string_view(component.key) == "asbestos" || std::string_view(component.key) == "pcb";
}

bool liesBehind(const Part& part, Behind behind) { return std::ranges::find(part.behind, behind) != part.behind.end(); }

const char* warningOf(Behind behind) { return std::ranges::find(behinds, behind, &BehindWarning::behind)->warning; }

void addStops(const std::vector<CoatedArea>& areas, const Part& part, std::vector<Precaution>& list) {
  if (liesBehind(part, Behind::Fuel)) list.push_back({"fuel-behind", "fuel behind the metal", warningOf(Behind::Fuel), true});
  if (liesBehind(part, Behind::ClosedCavity))
    list.push_back({"closed-cavity-behind", "closed cavity behind the metal", warningOf(Behind::ClosedCavity), true});
  for (const Component& component : components) {
    const std::string layers = layersWith(areas, component.key, Presence::Yes);
    if (!stopsWork(component) || layers.empty()) continue;
    list.push_back({component.key + (": " + layers), component.name + (" in " + layers), capitalised(component.warning) + ".", true});
  }
}

void addTests(const std::vector<CoatedArea>& areas, std::vector<Precaution>& list) {
  for (const Component& component : components) {
    const std::string layers = layersWith(areas, component.key, Presence::Unknown);
    if (layers.empty()) continue;
    list.push_back({testId(component, layers), "test for " + std::string(component.name) + ": " + layers,
                    "Test the coat, or ask who painted it. Until then take it to be there.", false, component.key});
  }
}

/// What a test has settled is gone from the coat's questions, but stays to be read.
void addTested(const std::vector<Clearance>& given, std::vector<Precaution>& list) {
  for (const Clearance& clearance : given) {
    if (std::ranges::find(list, clearance.item, &Precaution::id) != list.end()) continue;
    for (const Component& component : components) {
      const std::string prefix = testId(component, "");
      if (!clearance.item.starts_with(prefix)) continue;
      list.push_back({clearance.item, "test for " + std::string(component.name) + ": " + clearance.item.substr(prefix.size()), "", false,
                      component.key});
    }
  }
}

void addEyewear(const Project& project, const Plan& plan, std::vector<Precaution>& list) {
  for (const Step& step : stepsOf(plan)) {
    const Machine* machine = findMachine(project, step.machine);
    if (!machine) continue;
    const EyesResult risk = eyes(*machine, step.settings);
    char beam[100];
    std::snprintf(beam, sizeof beam, "%.0f nm", machine->wavelength_m * 1e9);
    char density[100] = "";
    if (risk.opticalDensity) std::snprintf(density, sizeof density, "density %.0f or more at ", std::ceil(*risk.opticalDensity));
    const std::string what = std::string("eyewear for everyone in the room: ") + density + beam;
    if (std::ranges::find(list, what, &Precaution::what) != list.end()) continue;
    list.push_back({"eyewear: " + std::string(density) + beam, what,
                    "Doors and windows are closed to the beam, nobody without eyewear comes in. The laser safety officer decides."});
  }
}

void addFireWatch(const Part& part, std::vector<Precaution>& list) {
  std::string behind;
  for (const auto& [what, name] : {std::pair(Behind::Foam, "foam"), {Behind::Wood, "wood"}, {Behind::Wax, "wax"}}) {
    if (liesBehind(part, what)) behind += (behind.empty() ? ": " : ", ") + std::string(name) + " behind the metal";
  }
  list.push_back({"fire-watch" + behind, "fire watch and extinguisher" + behind,
                  "Somebody watches while the beam is on and long after, with an extinguisher at hand; nothing that burns is near."});
}

}  // namespace

std::vector<Hazard> hazards(const std::vector<CoatedArea>& areas, const Metal& metal, const Part& part) {
  std::vector<Hazard> list;
  for (const BehindWarning& entry : behinds) {
    if (liesBehind(part, entry.behind)) list.push_back({entry.harm, entry.warning});
  }
  list.push_back(dustHazard(metal.family));
  for (const Component& component : components) {
    const std::string known = layersWith(areas, component.key, Presence::Yes);
    const std::string suspected = layersWith(areas, component.key, Presence::Unknown);
    if (!known.empty()) list.push_back({Harm::Lungs, capitalised(component.name) + " (" + known + "): " + component.warning + "."});
    if (!suspected.empty())
      list.push_back({Harm::Lungs,
                      capitalised(component.name) + " in " + suspected + ": test before the beam is on, until then take it to be there."});
  }
  if (metal.platingMelts_C)
    list.push_back({Harm::Lungs, "Zinc plating: its fume gives metal fume fever, 5 mg/m³ over eight hours (29 CFR 1910.1000)."});
  std::ranges::stable_sort(list, {}, &Hazard::harm);
  return list;
}

std::vector<Precaution> precautions(const Project& project, const Plan& plan, const Library& shipped) {
  const std::vector<CoatedArea> areas = coatedAreas(project, {}, shipped);
  const Part& part = project.part;
  std::vector<Precaution> list;
  addStops(areas, part, list);
  addTests(areas, list);
  addTested(project.beforeBeam, list);
  if (part.behind.empty() || liesBehind(part, Behind::Unknown))
    list.push_back({"behind-unknown", "what lies behind the metal", "Look before the beam is on."});
  if (!(plan.extraction && plan.extraction->on))
    list.push_back({"extraction", "extraction at the head", "None is planned: catch the fume where it is made."});
  addEyewear(project, plan, list);
  addFireWatch(part, list);
  for (Precaution& one : list) {
    const auto given = std::ranges::find(project.beforeBeam, one.id, &Clearance::item);
    if (given != project.beforeBeam.end()) one.cleared = *given;
  }
  return list;
}

std::vector<Precaution> openStops(const std::vector<Precaution>& all) {
  std::vector<Precaution> open;
  std::ranges::copy_if(all, std::back_inserter(open), [](const Precaution& one) { return one.stops && !one.cleared; });
  return open;
}

std::size_t openCount(const std::vector<Precaution>& all) {
  return static_cast<std::size_t>(std::ranges::count_if(all, [](const Precaution& one) { return !one.cleared; }));
}

Coat withTested(Coat coat, const std::string& component, Presence found, const Library& own, const Library& shipped) {
  for (Layer& layer : coat) {
    const auto known = resolveLayer(layer, own, shipped).components;
    const auto asked = known.find(component);
    if (asked != known.end() && asked->second == Presence::Unknown) layer.components[component] = found;
  }
  return coat;
}

Coat withoutTest(Coat coat, const std::string& component) {
  for (Layer& layer : coat) layer.components.erase(component);
  return coat;
}

}  // namespace bw
