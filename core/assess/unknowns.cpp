// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/unknowns.h"

#include "core/assess/hand_spread.h"
#include "core/removal/draws.h"

#include <limits>

namespace bw {

namespace {

constexpr double unbounded = std::numeric_limits<double>::infinity();

constexpr const char* gauge = "a thickness gauge at five places (ISO 2808)";
constexpr const char* patch = "a proof patch on a hidden spot: count the passes until this layer is gone";
constexpr const char* spots = "single spots of three energies on a hidden place: their widths tell (Liu)";

/// This layer and those below of the same stuff: they vary together. None where one above speaks for it.
std::vector<std::size_t> alike(const std::vector<LayerMaterial>& coat, std::size_t layer) {
  std::vector<std::size_t> same;
  for (std::size_t i = 0; i < coat.size(); ++i)
    if (isSameStuff(coat[i], coat[layer])) same.push_back(i);
  return same.front() == layer ? same : std::vector<std::size_t>();
}

void addThickness(std::vector<Unknown>& unknowns, const LayerMaterial& layer, std::size_t i) {
  const Range range = layer.thickness_m;
  if (range.isExact()) return;
  unknowns.push_back(
      {"thickness of \"" + layer.name + "\"", gauge, [=](Drawn& at, double z) { at.coat[i].thickness_m = Range::exact(drawn(range, z)); }});
}

void addLayer(std::vector<Unknown>& unknowns, const Work& work, std::size_t i) {
  const LayerMaterial& layer = work.coat[i];
  addThickness(unknowns, layer, i);
  const std::vector<std::size_t> same = alike(work.coat, i);
  if (same.empty()) return;
  const std::string name = " of \"" + layer.name + "\"";
  const auto vary = [&](const char* what, const char* how, Range LayerMaterial::*property, double most = unbounded) {
    const Range range = layer.*property;
    if (!range.isExact())
      unknowns.push_back({what + name, how, [=](Drawn& at, double z) {
                            for (const std::size_t one : same) at.coat[one].*property = Range::exact(std::min(most, drawn(range, z)));
                          }});
  };
  const auto varyFilm = [&](const char* what, std::optional<Range> LayerMaterial::*property) {
    const Range range = *(layer.*property);
    if (!range.isExact())
      unknowns.push_back({what + name, spots, [=](Drawn& at, double z) {
                            for (const std::size_t one : same) at.coat[one].*property = Range::exact(drawn(range, z));
                          }});
  };
  constexpr double mostShare = 0.98;
  if (layer.scattering_1_m && layer.absorption_1_m) {
    varyFilm("scattering", &LayerMaterial::scattering_1_m);
    varyFilm("absorption", &LayerMaterial::absorption_1_m);
  } else {
    vary("absorptance", spots, &LayerMaterial::absorptance, mostShare);
    vary("optical depth", spots, &LayerMaterial::opticalDepth_m);
  }
  vary("removal enthalpy", patch, &LayerMaterial::removalEnthalpy_J_m3);
  vary("removal temperature", patch, &LayerMaterial::removalTemperature_C);
  vary("ejection time", patch, &LayerMaterial::ejectionTime_s);
  vary("conductivity", patch, &LayerMaterial::conductivity_W_mK);
  vary("density", patch, &LayerMaterial::density_kg_m3);
  vary("specific heat", patch, &LayerMaterial::specificHeat_J_kgK);
  if (layer.behaviour == Behaviour::Softens) vary("residue", patch, &LayerMaterial::residueShare, mostShare);
  if (layer.behaviour == Behaviour::Scorches) vary("scorching", patch, &LayerMaterial::absorptanceAfterHeating, mostShare);
  vary("chance to flake", patch, &LayerMaterial::liftChance, mostShare);
}

/// What only the heat depends on.
void addHeat(std::vector<Unknown>& unknowns, const Work& work) {
  const auto vary = [&](const char* what, const char* how, Range range, double Drawn::*factor) {
    if (range.isExact() || !(range.likely > 0)) return;
    const Range relative = range * (1 / range.likely);
    unknowns.push_back({what, how, [=](Drawn& at, double z) { at.*factor = drawn(relative, z); }, false});
  };
  vary("thickness of the metal", "a caliper or an ultrasonic gauge at an edge", work.project.part.thickness_m, &Drawn::thickness);
  vary("conductivity of the metal", "its alloy", work.metal.conductivity_W_mK, &Drawn::conductivity);
  vary("specific heat of the metal", "its alloy", work.metal.specificHeat_J_kgK, &Drawn::heatCapacity);
  // Still air 5, a draught 25 W/m2K (from memory), glow on top: half to twice what the part states.
  vary("cooling by the air", "how fast a warmed part cools", {0.5, 1, 2}, &Drawn::cooling);
  // Real pulses are not square (physics of the model, section 1).
  if (work.pulsed()) vary("shape of the pulse", "the maker's pulse record", {0.75, 1, 1.2}, &Drawn::pulseShape);
}

}  // namespace

std::vector<Unknown> unknownsOf(const Work& work) {
  std::vector<Unknown> unknowns;
  for (std::size_t i = 0; i < work.coat.size(); ++i) addLayer(unknowns, work, i);
  const Range metal = work.metal.absorptance;
  if (!metal.isExact())
    unknowns.push_back({"absorptance of the bare metal", "the rise of the back face under a known stroke",
                        [=](Drawn& at, double z) { at.metalAbsorptance = std::min(0.98, drawn(metal, z)); }});
  const HandSpread hand = handSpread(work.plan.hand);
  unknowns.push_back({"travel of the hand", "the time of a stroke between two marks, or the pace bar", [=](Drawn& at, double z) {
                        at.pace = drawn({1 - hand.pace, 1, 1 + hand.pace}, z);
                      }});
  unknowns.push_back({"stand-off of the head", "a spacer or a wheel that keeps the distance",
                      [=](Drawn& at, double z) { at.offFocus_m = hand.standOff_m * z / scoreOfNineInTen; }});
  // The plume's shadow: etch is uncertain by a third to half as much again.
  unknowns.push_back({"etch under the plume", "a cross-section of a test piece",
                      [](Drawn& at, double z) {
                        at.etchFactor = drawn({1.0 / 3, 1, 1.5}, z);
                      },
                      false});
  addHeat(unknowns, work);
  return unknowns;
}

}  // namespace bw
