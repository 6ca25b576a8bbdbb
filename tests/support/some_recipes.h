// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/files/library_file.h"
#include "core/library/recipe.h"
#include "core/start/typical_machines.h"

#include <random>
#include <string>

namespace bw::test {

/// Invented recipes of a narrow-gauge railway's workshop, the same for the same number: metals, coats of one to five layers, machines,
/// names and notes in the trade's words.
class SomeRecipes {
 public:
  static Recipe number(unsigned n) { return SomeRecipes(n).recipe(n); }

  /// A trial that was dated and signed.
  static Proof proofOf(const RecipeVersion& version) {
    Proof proof;
    proof.date = "2026-03-14";
    proof.initials = "mk";
    proof.modelVersion = "4";
    proof.machines = version.machines;
    Trial& trial = proof.trials.emplace_back();
    trial.date = "2026-03-13";
    trial.initials = "mk";
    trial.where = "behind the door hinge";
    trial.settings = version.plan.settings;
    trial.seen = {Seen::Cleared};
    trial.readings = {{"thickness_before_um", 140, 8, {}}, {"back_C", 92, 4, {}}};
    return proof;
  }

 private:
  explicit SomeRecipes(unsigned seed) : m_random(seed * 2654435761U + 1) {}

  std::size_t below(std::size_t count) { return m_random() % count; }
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(m_random()) / static_cast<double>(std::mt19937::max());
  }
  template <std::size_t n>
  std::string one(const char* const (&words)[n]) {
    return words[below(n)];
  }

  Recipe recipe(unsigned n) {
    static const char* const parts[] = {"side panel",  "door",          "bracket",     "tank lid",     "lamp bezel",   "bogie frame",
                                        "axle guard",  "footstep",      "buffer beam", "roof vent",    "luggage rack", "hand rail",
                                        "brake lever", "smokebox door", "cab sheet",   "running plate"};
    static const char* const vehicles[] = {"carriage", "brake van", "tender", "wagon", "railcar", "engine", "trolley"};
    static const char* const notes[] = {"clears evenly",       "wait between passes",    "edges need a second pass",
                                        "pale layers stall",   "residue wipes off warm", "keep the hand moving",
                                        "far side stays cool", "stripes at the seams",   "proved on the hidden flange"};
    Recipe recipe;
    RecipeVersion& version = recipe.version;
    version.name = one(vehicles) + " " + one(parts) + " " + std::to_string(n);
    version.note = one(notes) + "; " + one(notes);
    version.savedBy = n % 3 == 0 ? "mk" : "hs";
    const Library& shipped = shippedLibrary();
    const Substrate& metal = shipped.substrates[below(shipped.substrates.size())];
    version.materials.substrates = {metal};
    version.part.substrate = metal.id;
    version.part.thickness_m = Range::exact(std::round(between(0.8, 8) * 10) / 10 * 1e-3);
    version.part.finish = static_cast<Finish>(below(3));
    Area& area = version.part.areas.emplace_back();
    area.name = "open face";
    area.area_m2 = 0.2;
    for (std::size_t layers = 1 + below(5); layers > 0; --layers) addLayer(version);
    addPlan(version);
    version.predicted.modelVersion = "4";
    version.predicted.numbers["thermal.back_C"] = {70, std::round(between(80, 140)), 160};
    version.predicted.numbers["job.total_time_s"] = {900, std::round(between(1000, 4000)), 5000};
    if (n % 4 == 0) {
      version.proof = proofOf(version);
      recipe.state = RecipeState::Proven;
    }
    if (n % 11 == 5) {
      recipe.state = RecipeState::Withdrawn;
      recipe.reason = "not with this beam: the pale layer stalls";
    }
    return recipe;
  }

  void addLayer(RecipeVersion& version) {
    const Library& shipped = shippedLibrary();
    const Coating& coating = shipped.coatings[below(shipped.coatings.size())];
    Layer layer;
    layer.name = "layer " + std::to_string(version.coat.size() + 1);
    layer.coating = coating.id;
    const double likely_um = std::round(between(15, 120));
    layer.thickness_m = {likely_um * 0.8e-6, likely_um * 1e-6, likely_um * 1.3e-6};
    version.coat.push_back(layer);
    if (!findCoating(version.materials, coating.id)) version.materials.coatings.push_back(coating);
  }

  void addPlan(RecipeVersion& version) {
    static const std::vector<Machine> machines = typicalMachines();
    const Machine& machine = machines[below(machines.size())];
    version.machines = {machine};
    version.plan.name = "as proven";
    version.plan.machine = machine.id;
    Settings& settings = version.plan.settings;
    settings.powerFraction = std::round(between(40, 100)) / 100;
    settings.repetitionRate_Hz = std::round(between(20, 400)) * 1e3;
    settings.pulseDuration_s = 90e-9;
    settings.width_m = 0.03;
    settings.height_m = 0.015;
    settings.scanSpeed_m_s = std::round(between(2, 12) * 10) / 10;
    settings.lineSpacing_m = 8e-5;
    settings.travelSpeed_m_s = 0.008;
    settings.stepOver_m = 0.028;
    settings.passes = static_cast<int>(1 + below(4));
  }

  std::mt19937 m_random;
};

}  // namespace bw::test
