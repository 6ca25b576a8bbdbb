// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/start_project.h"

#include "core/start/first_guess.h"
#include "core/start/typical_machines.h"

#include <algorithm>

namespace bw {
namespace {

// Body, tank and bracket sheet, from memory: from thin panels to plate.
constexpr Range anyThickness_m = {0.0007, 0.0012, 0.004};
// One layer among several, of paints laid on by hand or gun; from memory.
constexpr Range oneOfSeveral_m = {15e-6, 40e-6, 120e-6};
// How far one layer may be from an equal share of the total; estimate.
constexpr double leastShare = 0.5;
constexpr double greatestShare = 1.6;

std::string coatingOf(CoatKind kind) {
  switch (kind) {
    case CoatKind::Powder: return "unknown-powder";
    case CoatKind::Rust: return "unknown-rust";
    default: return "unknown";
  }
}

/// The layers without their thickness. Colours that were seen name them; "several" without colours is two.
Coat namedLayers(const StartAnswers& answers) {
  Coat coat;
  const bool paint = answers.coat != CoatKind::Powder && answers.coat != CoatKind::Rust;
  for (const ChipColour& seen : answers.colours) {
    Layer layer;
    layer.name = seen.word;
    layer.coating = paint ? seen.coating : coatingOf(answers.coat);
    layer.colour = seen.colour;
    coat.push_back(std::move(layer));
    if (answers.coat != CoatKind::Several && answers.coat != CoatKind::Unknown) break;
  }
  const std::size_t least = answers.coat == CoatKind::Several ? 2 : 1;
  while (coat.size() < least) {
    Layer layer;
    layer.name = coat.empty() ? "coat" : "coat below";
    layer.coating = coatingOf(answers.coat);
    coat.push_back(std::move(layer));
  }
  return coat;
}

/// The entry of the library that stands for all the metals it may be.
std::string unknownMetal(Magnet magnet) {
  switch (magnet) {
    case Magnet::Sticks:
      return "unknown-steel";
    case Magnet::DoesNotStick:
      return "unknown-nonmagnetic";
    case Magnet::NotTried:
      break;
  }
  return "unknown-metal";
}

Range typicalThickness(const std::string& coating, const Library& shipped) {
  const Coating* found = findCoating(shipped, coating);
  return found ? found->typicalThickness_m.range : oneOfSeveral_m;
}

Coat makeCoat(const StartAnswers& answers, const Library& shipped) {
  Coat coat = namedLayers(answers);
  const auto count = static_cast<double>(coat.size());
  for (Layer& layer : coat) {
    layer.knownFrom = KnownFrom::Unknown;
    if (answers.coatTotal_m && coat.size() == 1) {
      layer.thickness_m = *answers.coatTotal_m;
      layer.knownFrom = KnownFrom::Guess;
    } else if (answers.coatTotal_m) {
      const Range& total = *answers.coatTotal_m;
      layer.thickness_m = {leastShare * total.low / count, total.likely / count, greatestShare * total.high / count};
    } else {
      layer.thickness_m = coat.size() > 1 ? oneOfSeveral_m : typicalThickness(layer.coating, shipped);
    }
  }
  return coat;
}

}  // namespace

std::vector<ChipColour> chipColours() {
  return {{"white", "#efede4", "unknown-pale"}, {"cream", "#e6dab6", "unknown-pale"},      {"yellow", "#d8b13c", "unknown-pale"},
          {"grey", "#9a9fa2", "unknown"},       {"red", "#a3342c", "unknown-dark"},        {"red-brown", "#8a4a3a", "unknown-dark"},
          {"green", "#3f5f48", "unknown-dark"}, {"blue", "#33557d", "unknown-dark"},       {"black", "#2b2b2d", "unknown-dark"},
          {"clear", "#d9dfda", "unknown"},      {"another colour", "#8f7f86", "unknown"}};
}

Project startProject(const StartAnswers& answers, const Library& shipped) {
  Project project;
  project.name = "My part";
  Part& part = project.part;
  part.substrate = answers.substrate.empty() ? unknownMetal(answers.magnet) : answers.substrate;
  part.knownFrom["substrate"] = answers.substrate.empty() ? KnownFrom::Unknown : KnownFrom::Guess;
  part.thickness_m = answers.thickness_m.value_or(anyThickness_m);
  part.knownFrom["thickness_mm"] = answers.thickness_m ? KnownFrom::Guess : KnownFrom::Unknown;
  part.coatTotal_m = answers.coatTotal_m;
  part.behind = answers.behind.empty() ? std::vector{Behind::Unknown} : answers.behind;
  Area area;
  area.name = "whole face";
  area.area_m2 = part.size_m[0] * part.size_m[1];
  part.areas.push_back(std::move(area));
  project.coat = makeCoat(answers, shipped);
  if (answers.keepsZinc) {
    Layer zinc;
    zinc.name = "zinc";
    zinc.coating = "zinc-galvanising";
    zinc.thickness_m = typicalThickness(zinc.coating, shipped);
    zinc.knownFrom = KnownFrom::Typical;
    zinc.keep = true;
    project.coat.push_back(std::move(zinc));
  }
  const Machine machine = answers.machine.value_or(typicalMachines().at(1));
  project.machines = {machine};
  if (answers.machine && answers.machineOrigin) project.machineOrigins = {*answers.machineOrigin};
  Plan plan;
  plan.name = "first guess";
  plan.machine = machine.id;
  plan.settings = firstGuess(machine);
  project.plans = {plan};
  return project;
}

}  // namespace bw
