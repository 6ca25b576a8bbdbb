// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/removal_work.h"
#include "core/assess/stage_memo.h"

#include "core/assess/hand_spread.h"
#include "core/job/work.h"
#include "core/removal/threshold.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr int fewestPlaces = 16, mostPlaces = 400;
constexpr double placedHits = 8e4;  // in one pass, over all places
constexpr int columnClasses = 12;  // a column costs a hundred ledgers
constexpr double mostHits = 3e4;   // on one place in one pass

RepeatCell cellOf(const Work& work) { return {work.settings().stepOver_m, work.settings().travelSpeed_m_s * work.scan->frame->period_s()}; }

double strokeTime(const Work& work) {
  const auto size = work.project.part.size_m;
  return std::max(size[0], size[1]) / work.settings().travelSpeed_m_s;
}

/// One tour of all areas.
double passTime(const Work& work) {
  const Settings& s = work.settings();
  const double area = areaOf_m2(areasOf(work.project.part, work.step));
  return std::max(area / (s.travelSpeed_m_s * s.stepOver_m), strokeTime(work)) + s.pause_s;
}

/// How far the lines of a frame lie apart along the travel, on the part; 0 where they do not lie across it.
double linePitch(const Work& work) {
  const Settings& s = work.settings();
  const double advance = cellOf(work).along_m;
  if (!hasHeight(s.pattern) || swings(s.pattern)) return 0;
  const double pitch = s.lineSpacing_m / std::max(1e-3, std::abs(std::sin(s.travelAngle_rad))) + advance / lineCount(s);
  return pitch < advance ? pitch : 0;
}

void fillThresholds(const Work& work, RemovalResult& removal) {
  for (std::size_t i = 0; i < removal.layers.size(); ++i) {
    const CoatLayer layer = coatLayer(work.coat[i], work.project.part.startTemperature_C);
    removal.layers[i].thresholdFluence_J_m2 = thresholdFluence_J_m2(layer.leavesAt_J_m3(), layer.opticalDepth_m, layer.absorptance,
                                                                    layer.diffusivity_m2_s, work.settings().pulseDuration_s);
  }
}

/// Why a layer never clears, judged from its own numbers.
std::string stallReason(const LayerResult& layer, const LayerMaterial& material, bool onMetal, std::optional<double> peakFluence_J_m2) {
  if (layer.reachableShare > 0.5) {
    return text::percent(1 - layer.reachableShare) + " of the surface gets too little, between lines, frames or swaths: " +
           "bring the lines closer, travel slower, or overlap the swaths more";
  }
  const bool thin = onMetal && layer.removed_m > 0 && layer.thickness_m - layer.removed_m < material.opticalDepth_m.likely;
  if (thin) return "a last film over cold metal lets the light and the heat through before it is hot enough to leave";
  if (material.behaviour == Behaviour::Softens && layer.removed_m > 0)
    return "it softens: melt runs back and stays as residue, about " + text::percent(material.residueShare.likely) + " of it in each pass";
  if (!peakFluence_J_m2 || !layer.thresholdFluence_J_m2)
    return "the beam goes over it too quickly: what it takes up leaks into the metal before it is hot enough to leave";
  const double threshold = *layer.thresholdFluence_J_m2;
  const CoatLayer film = coatLayer(material, 0);
  if (film.absorptance < 0.35) {
    return "it is pale: it takes up about " + text::percent(film.absorptance) + " of the light and spreads it over " +
           text::length(film.opticalDepth_m) + ", so a pulse of " + text::fluence(*peakFluence_J_m2) + " stays below the " +
           text::fluence(threshold) + " it needs";
  }
  if (*peakFluence_J_m2 < threshold)
    return "a pulse of " + text::fluence(*peakFluence_J_m2) + " stays below the " + text::fluence(threshold) + " it needs";
  return "what it takes up in one passage leaks away before the next";
}

void explainStalls(const Work& work, const Assessment& assessment, RemovalResult& removal) {
  for (std::size_t i = 0; i < removal.layers.size(); ++i) {
    LayerResult& layer = removal.layers[i];
    if (layer.passes || layer.kept) continue;
    layer.stallReason = stallReason(layer, work.coat[i], i + 1 == work.coat.size(), assessment.beam.peakFluence_J_m2);
    return;  // what lies beneath was not reached
  }
}

/// How many pulses, or pieces of a continuous beam, of one pass come within a spot's diameter of a place.
double hitsExpected(const Work& work) {
  const double reach = work.scan->beam.spotDiameter_m;
  return dabCount(*work.scan->frame, *work.scan->travel, work.scan->emission, reach / 2) * 4 * reach * reach /
         (cellOf(work).across_m * cellOf(work).along_m);
}

/// As many as may be followed quickly: where light falls on a place thousands of times in a pass, places are much alike. Of a
/// column's places only a few classes are followed.
int placeCount(const Work& work, double hits) {
  if (!work.pulsed()) return mostPlaces / 4;
  const int count = static_cast<int>(placedHits / std::max(1.0, hits));
  return std::clamp(count > 50 ? count / 50 * 50 : count, fewestPlaces, mostPlaces);
}

}  // namespace

PassRhythm rhythmOf(const Work& work) {
  return {work.pulsed() ? work.settings().pulseDuration_s : 0, passTime(work), work.settings().passes};
}

BareMetal warmMetal(const Work& work) {
  BareMetal metal = bareMetal(work.metal, work.metal.absorptance.likely, std::min(work.nearBare_C, work.metal.melting_C.range.likely - 1));
  metal.start_C = work.project.part.startTemperature_C;
  return metal;
}

HitFinder hitsOf(const Work& work) {
  const HitTiming timing{work.scan->frame->period_s(), strokeTime(work), work.pulsed() ? 0 : work.scan->emission.onPower_W()};
  return {work.scan->strikes, cellOf(work), SpotProfile(work.machine.beamProfile), work.scan->beam.spotDiameter_m / 2, timing};
}

std::shared_ptr<const std::vector<Place>> placesFound(const Work& work) {
  if (work.scan->strikes.empty() || hitsExpected(work) > mostHits) return nullptr;
  const PassesByChance chance{handSpread(work.plan.hand).wander, linePitch(work), std::min(work.settings().passes, drawsUntilAgain)};
  const auto make = [&] {
    const int count = placeCount(work, hitsExpected(work));
    std::vector<Place> places = placesByChance(hitsOf(work), count, chance, work.stop, work.crew);
    if (work.pulsed())
      dropFaintHits(places);
    else
      places = classesOf(places, columnClasses);
    return std::make_shared<const std::vector<Place>>(std::move(places));
  };
  return work.memo ? work.memo->places.get({work.scan, strokeTime(work), chance}, make) : make();
}

namespace {

std::shared_ptr<const RemovalFound> removalFound(const Work& work, const std::shared_ptr<const std::vector<Place>>& places) {
  const RemovalInputs inputs{places, work.coat, warmMetal(work), work.project.part.thickness_m.likely, rhythmOf(work)};
  const auto make = [&] {
    std::vector<Place> sorted = *places;
    RemovalFound found{runPasses(inputs.coat, inputs.metal, inputs.thickness_m, sorted, inputs.rhythm, work.stop, work.crew), nullptr};
    found.places = std::make_shared<const std::vector<Place>>(std::move(sorted));
    return std::make_shared<const RemovalFound>(std::move(found));
  };
  return work.memo ? work.memo->removal.get(inputs, make) : make();
}

}  // namespace

void assessRemoval(Work& work, Assessment& assessment) {
  if (!assessment.map || work.scan->strikes.empty()) return;
  if (hitsExpected(work) > mostHits) {
    assessment.notes.push_back("removal: one pass strikes each place about " + text::number(hitsExpected(work)) + " times, more than the " +
                               text::number(mostHits) + " this version follows; a faster travel or a larger step-over would do");
    return;
  }
  const auto found = removalFound(work, work.places ? work.places : placesFound(work));
  PassesOutcome outcome = found->outcome;
  assessment.places = found->places;

  if (work.pulsed())
    fillThresholds(work, outcome.removal);
  else
    assessment.notes.push_back("removal by a continuous beam: a coarse column at " + std::to_string(columnClasses) +
                               " places; heat that spreads sideways is left out");
  explainStalls(work, assessment, outcome.removal);
  const Settings& s = work.settings();
  if (outcome.removal.passesNeeded)
    outcome.removal.rate_m2_s = s.travelSpeed_m_s * s.stepOver_m / std::max(1, *outcome.removal.passesNeeded);
  work.strippingKnown = !work.coat.empty();
  if (work.pulsed()) assessment.finish.etch_m = outcome.etch_m;
  assessment.removal = std::move(outcome.removal);
}

}  // namespace bw
