// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_response.h"
#include "core/assess/hold_likely.h"
#include "core/assess/outcomes.h"
#include "core/assess/removal_work.h"
#include "core/job/work.h"
#include "core/removal/draws.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace bw {

namespace {

constexpr std::uint32_t seed = 20;
constexpr std::array<std::size_t, 9> sampleCounts{24, 32, 48, 72, 108, 160, 240, 360, 500};  // few, so that draws stay the same draws
constexpr std::size_t fewestTried = 4, enoughSamples = 160;
constexpr double mostWork = 2e7;    // over all samples, as in PlaceRun
constexpr double mostOverrun = 3;   // by the fewest samples, before they are given up

/// An ensemble and what each of its draws comes to.
struct Drawings {
  Ensemble ensemble;
  std::vector<Outcome> outcomes;

  template <class Value>
  std::vector<double> values(const Value& value) const {
    std::vector<double> values;
    for (const Outcome& outcome : outcomes) values.push_back(value(outcome));
    return values;
  }
  template <class Value>
  Spread spread(const Value& value) const {
    return spreadOf(values(value), ensemble.weights);
  }
  /// By weight, of the draws for which it never ends.
  template <class Value>
  double neverShare(const Value& passes) const {
    double stuck = 0, all = 0;
    for (std::size_t n = 0; n < outcomes.size(); ++n) {
      all += ensemble.weights[n];
      if (std::isinf(passes(outcomes[n]))) stuck += ensemble.weights[n];
    }
    return stuck / all;
  }
};

Drawings drawingsOf(const Work& work, const Assessment& first, const std::vector<Place>& places, const std::vector<Unknown>& unknowns,
                    std::size_t draws) {
  std::vector<std::string> ids;
  for (const Unknown& unknown : unknowns) ids.push_back(unknown.what);
  Ensemble prior = priorOf(std::move(ids), draws, seed);
  std::vector<Outcome> outcomes = outcomesOf(work, first, places, unknowns, prior);
  return {std::move(prior), std::move(outcomes)};
}

/// What the fewest draws at the fewest places would take, if each took what the likely outcome did.
double fewestDrawsWork(const Assessment& first) {
  constexpr double somePlaces = 8;
  double work = 0;
  for (const PlaceHistory& place : first.removal.places) work += place.work;
  return work * somePlaces / static_cast<double>(first.places->size()) * static_cast<double>(sampleCounts.front());
}

/// How many samples may be drawn, by what a first few take; 0: not even the fewest.
std::size_t samplesFor(const Work& work, const Assessment& first, const std::vector<Place>& places, const std::vector<Unknown>& unknowns) {
  double tried = 0;
  for (const Outcome& outcome : drawingsOf(work, first, places, unknowns, fewestTried).outcomes) tried += outcome.work / fewestTried;
  const double most = mostWork / std::max(1.0, tried);
  const auto above = std::ranges::find_if(sampleCounts, [most](std::size_t count) { return static_cast<double>(count) > most; });
  return above == sampleCounts.begin() ? 0 : *std::prev(above);
}

/// How many passes it takes if this one were known: of the draws near its likely value.
Spread passesIfKnown(const Drawings& drawings, const std::vector<double>& scores) {
  constexpr double nearLikely = 0.45;  // a third of the draws lie so near
  std::vector<double> passes, weights;
  for (std::size_t n = 0; n < scores.size(); ++n) {
    if (std::abs(scores[n]) >= nearLikely) continue;
    passes.push_back(drawings.outcomes[n].passesNeeded);
    weights.push_back(drawings.ensemble.weights[n]);
  }
  return spreadOf(passes, weights);
}

std::vector<Influence> influencesOf(const std::vector<Unknown>& unknowns, const Drawings& drawings) {
  const Ensemble& ensemble = drawings.ensemble;
  const double leastShare = std::max(0.03, 7 / effectiveSize(ensemble.weights));  // beyond 2.6 standard errors: no chance
  constexpr std::size_t most = 6;
  const std::vector<double> course = drawings.values([](const Outcome& o) { return o.course; });
  std::vector<Influence> influences;
  for (std::size_t v = 0; v < unknowns.size(); ++v) {
    const double share = rankCorrelationSquared(ensemble.scores[v], course, ensemble.weights);
    if (share < leastShare || !unknowns[v].movesPasses) continue;
    influences.push_back({unknowns[v].what, share, passesIfKnown(drawings, ensemble.scores[v]), unknowns[v].how});
  }
  std::ranges::sort(influences, std::greater(), &Influence::share);
  if (influences.size() > most) influences.resize(most);
  return influences;
}

/// What each draw makes of the temperatures.
void addHeat(const Work& work, const Assessment& first, const Drawings& drawings, Ranges& ranges) {
  const ThermalResult& thermal = first.thermal;
  if (!thermal.front_C) return;
  const HeatResponse response(work, first);
  std::vector<HeatPeaks> peaks;
  for (const Outcome& outcome : drawings.outcomes) peaks.push_back(response.peaks(outcome.drawn, outcome.passShares));
  const auto spread = [&](auto value) {
    std::vector<double> values;
    for (const HeatPeaks& at : peaks) values.push_back(value(at));
    return spreadOf(values, drawings.ensemble.weights);
  };
  ranges.near_C = spread([](const HeatPeaks& at) { return at.near_C; });
  ranges.front_C = spread([](const HeatPeaks& at) { return at.front_C; });
  ranges.back_C = spread([](const HeatPeaks& at) { return at.back_C; });
  for (const LimitResult& limit : thermal.limits) ranges.limits_C.push_back(spread([&](const HeatPeaks& at) { return feltBy(limit, at); }));
  const double start = work.project.part.startTemperature_C;
  if (!thermal.worstMargin) return;
  ranges.worstMargin = spread([&](const HeatPeaks& at) {
    double worst = neverDone;
    for (const LimitResult& limit : thermal.limits)
      if (!limit.warnOnly && limit.limit_C > start) worst = std::min(worst, (limit.limit_C - feltBy(limit, at)) / (limit.limit_C - start));
    return worst;
  });
}

/// What so many passes take at a draw's pace; a number that is infinite has no end.
JobResult jobAt(const Work& work, double pace, double passes) {
  if (std::isinf(passes)) return {};
  Step step = work.step;
  step.settings.travelSpeed_m_s *= pace;
  return job(work.project, step, work.machine, std::max(1, static_cast<int>(passes)));
}

void addJob(const Work& work, const Drawings& drawings, Ranges& ranges) {
  const Settings& s = work.settings();
  std::vector<JobResult> needed, planned;
  for (const Outcome& outcome : drawings.outcomes) {
    needed.push_back(jobAt(work, outcome.drawn.pace, outcome.passesNeeded));
    planned.push_back(jobAt(work, outcome.drawn.pace, s.passes));
  }
  const auto spread = [&](const std::vector<JobResult>& jobs, std::optional<double> JobResult::*value) {
    std::vector<double> values;
    for (const JobResult& job : jobs) values.push_back((job.*value).value_or(neverDone));
    return spreadOf(values, drawings.ensemble.weights);
  };
  ranges.rate_m2_s =
      drawings.spread([&](const Outcome& o) { return s.travelSpeed_m_s * o.drawn.pace * s.stepOver_m / std::max(1.0, o.passesNeeded); });
  ranges.beamTime_s = spread(needed, &JobResult::beamTime_s);
  ranges.totalTime_s = spread(needed, &JobResult::totalTime_s);
  ranges.plannedBeamTime_s = spread(planned, &JobResult::beamTime_s);
  ranges.plannedTotalTime_s = spread(planned, &JobResult::totalTime_s);
  if (planned.empty() || !planned.front().cost) return;
  ranges.cost = spread(needed, &JobResult::cost);
  ranges.plannedCost = spread(planned, &JobResult::cost);
}

}  // namespace

std::optional<Ranges> rangesOf(const Work& work, const Assessment& first) {
  const std::size_t some = first.places->size() - 2;
  if (fewestDrawsWork(first) > mostOverrun * mostWork) return std::nullopt;
  const std::vector<Unknown> unknowns = unknownsOf(work);
  std::vector<Place> places;
  std::size_t samples = 0;
  for (const std::size_t others :
       {std::size_t{12}, std::size_t{6}, std::size_t{4}}) {  // rather fewer places than so few draws that the unlikely is not among them
    if (others > some) continue;
    places = fewer(*first.places, others);
    if (work.pulsed()) dropFaintHits(places);
    samples = samplesFor(work, first, places, unknowns);
    if (samples >= enoughSamples) break;
  }
  samples = std::max(samples, sampleCounts.front());
  const Drawings drawings = drawingsOf(work, first, places, unknowns, samples);

  Ranges ranges;
  ranges.samples = static_cast<int>(samples);
  const auto passes = [](const Outcome& o) { return o.passesNeeded; };
  ranges.passesNeeded = drawings.spread(passes);
  ranges.neverShare = drawings.neverShare(passes);
  ranges.clearedFraction = drawings.spread([](const Outcome& o) { return o.cleared; });
  ranges.heatIntoPartFraction = drawings.spread([](const Outcome& o) { return o.heatShare; });
  if (work.pulsed()) ranges.etch_m = drawings.spread([](const Outcome& o) { return o.etch_m; });
  for (std::size_t i = 0; i < work.coat.size(); ++i) {
    const auto layerPasses = [i](const Outcome& o) { return o.layerPasses[i]; };
    ranges.layers.push_back({drawings.spread(layerPasses), drawings.spread([i](const Outcome& o) { return o.layerRemoved_m[i]; }),
                             drawings.neverShare(layerPasses)});
  }
  for (std::size_t pass = 0; pass < first.removal.clearedAfter.size(); ++pass)
    ranges.depth_m.push_back(drawings.spread([pass](const Outcome& o) { return o.depth_m[pass]; }));
  addHeat(work, first, drawings, ranges);
  addJob(work, drawings, ranges);
  holdLikely(first, ranges);
  ranges.influences = influencesOf(unknowns, drawings);
  return ranges;
}

}  // namespace bw
