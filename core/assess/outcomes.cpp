// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/outcomes.h"

#include "core/assess/removal_work.h"
#include "core/beam/delivery.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {


/// What being out of focus makes of the hits: a spot so many times as large.
HitChange defocused(const Work& work, const BeamResult& beam, double offFocus_m) {
  Settings settings = work.settings();
  settings.focusOffset_m += offFocus_m;
  const double areas = std::pow(beam.spotDiameter_m / deliver(work.machine, settings).spotDiameter_m, 2);
  if (std::abs(areas - 1) < 1e-3) return {};
  const SpotProfile profile(work.machine.beamProfile);
  const double peakPerWatt = profile.peakPerWatt_1_m2(beam.spotDiameter_m / 2);
  const double pulse_J = work.pulsed() ? work.scan->emission.meanPower_W / work.scan->emission.rate_Hz : 0;
  return {areas, std::pow(areas, profile.exponent() / 2), pulse_J * peakPerWatt, work.scan->emission.onPower_W() * peakPerWatt};
}

/// Passes and parts of one until all but the least-dosed hundredth is clear.
double courseOf(const std::vector<Place>& places, const std::vector<PlaceRun>& runs) {
  std::vector<std::size_t> order(runs.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::sort(order, {}, [&](std::size_t i) { return runs[i].clearAfter; });
  double share = 0;
  for (const std::size_t i : order) {
    share += places[i].share;
    if (share >= clearShare - 1e-9) return runs[i].clearAfter;
  }
  return neverDone;
}

Outcome outcomeOf(const Work& work, const Assessment& first, const std::vector<Place>& places, const Drawn& at) {
  BareMetal metal = warmMetal(work);
  metal.absorptance = at.metalAbsorptance;
  PassRhythm rhythm = rhythmOf(work);
  rhythm.pace = at.pace;
  rhythm.change = defocused(work, first.beam, at.offFocus_m);
  const CoatedMetal part = coatedMetal(at.coat, metal);
  const std::vector<bool> kept = keptLayers(at.coat);
  std::vector<PlaceRun> runs;
  for (const Place& place : places) runs.push_back(runPlace(part, work.project.part.thickness_m.likely, kept, place, rhythm, work.stop));
  const PassesOutcome sum = summed(part, std::vector<std::string>(at.coat.size()), kept, places, runs, rhythm.passes);

  Outcome out;
  for (const PlaceRun& run : runs) out.work += run.work;
  out.passesNeeded = sum.removal.passesNeeded ? *sum.removal.passesNeeded : neverDone;
  out.course = courseOf(places, runs);
  out.cleared = sum.removal.clearedFraction.value_or(0);
  out.heatShare = sum.removal.heatIntoPartFraction.value_or(0);
  if (!at.coat.empty()) out.passShares = sum.removal.heatIntoPartByPass;
  out.etch_m = sum.etch_m * at.etchFactor;
  out.drawn = at;
  out.drawn.coat.clear();
  for (const LayerResult& layer : sum.removal.layers) {
    out.layerPasses.push_back(layer.passes ? *layer.passes : neverDone);
    out.layerRemoved_m.push_back(layer.removed_m);
  }
  for (std::size_t pass = 0; pass < first.removal.clearedAfter.size(); ++pass) {
    double depth = 0;
    for (const PlaceHistory& place : sum.removal.places) depth += place.share * place.depth_m[std::min(pass, place.depth_m.size() - 1)];
    out.depth_m.push_back(depth);
  }
  return out;
}

}  // namespace

std::vector<Place> fewer(const std::vector<Place>& places, std::size_t others) {
  constexpr double hundredth = 0.01;
  const std::size_t count = places.size(), last = std::max<std::size_t>(1, count / 100);
  std::vector<Place> few{places[last / 2]};
  if (few[0].share <= hundredth) {
    few.push_back(places[last]);
    for (Place& place : few) place.share = hundredth;
  }
  const auto first = static_cast<double>(last + few.size() - 1), left = static_cast<double>(count) - first;
  const double rest = few.size() > 1 ? 1 - 2 * hundredth : 1 - few[0].share;
  for (std::size_t i = 0; i < others; ++i) {
    few.push_back(places[static_cast<std::size_t>(first + left * (static_cast<double>(i) + 0.5) / static_cast<double>(others))]);
    few.back().share = rest / static_cast<double>(others);
  }
  return few;
}

std::vector<Outcome> outcomesOf(const Work& work, const Assessment& first, const std::vector<Place>& places,
                                const std::vector<Unknown>& unknowns, const Ensemble& ensemble) {
  std::vector<Outcome> outcomes(ensemble.size());
  const Drawn likely{work.coat, work.metal.absorptance.likely};
  work.crew.share(outcomes.size(), [&](std::size_t n) {
    throwIfStopped(work.stop);
    Drawn at = likely;
    for (std::size_t v = 0; v < unknowns.size(); ++v) unknowns[v].draw(at, ensemble.scores[v][n]);
    outcomes[n] = outcomeOf(work, first, places, at);
  });
  return outcomes;
}

}  // namespace bw
