// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_response.h"
#include "core/assess/removal_work.h"
#include "core/assess/unknowns.h"
#include "core/beam/delivery.h"
#include "core/job/work.h"
#include "core/removal/draws.h"
#include "core/text/text.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <future>
#include <numeric>

namespace bw {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr std::uint32_t seed = 20;
constexpr std::array<std::size_t, 9> sampleCounts{24, 32, 48, 72, 108, 160, 240, 360, 500};  // few, so that draws stay the same draws
constexpr std::size_t fewestTried = 4, enoughSamples = 160;
constexpr double mostWork = 1.2e7;  // over all samples, as in PlaceRun
constexpr double mostOverrun = 3;   // by the fewest samples, before they are given up

/// What one draw comes to.
struct Outcome {
  double passesNeeded = never;
  double course = never;  // passes and parts of one, for comparing
  double cleared = 0;
  double heatShare = 0;
  double strippingShare = 0;
  double etch_m = 0;
  Drawn drawn;
  std::vector<double> layerPasses;
  std::vector<double> layerRemoved_m;
  std::vector<double> depth_m;  // after each pass, mean over the cell
  double work = 0;              // as in PlaceRun
};

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
  return never;
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
  out.passesNeeded = sum.removal.passesNeeded ? *sum.removal.passesNeeded : never;
  out.course = courseOf(places, runs);
  out.cleared = sum.removal.clearedFraction.value_or(0);
  out.heatShare = sum.removal.heatIntoPartFraction.value_or(0);
  out.strippingShare = sum.strippingShare;
  out.etch_m = sum.etch_m * at.etchFactor;
  out.drawn = at;
  out.drawn.coat.clear();
  for (const LayerResult& layer : sum.removal.layers) {
    out.layerPasses.push_back(layer.passes ? *layer.passes : never);
    out.layerRemoved_m.push_back(layer.removed_m);
  }
  for (std::size_t pass = 0; pass < first.removal.clearedAfter.size(); ++pass) {
    double depth = 0;
    for (const PlaceHistory& place : sum.removal.places) depth += place.share * place.depth_m[std::min(pass, place.depth_m.size() - 1)];
    out.depth_m.push_back(depth);
  }
  return out;
}

/// A few of the places stand for all: the last hundredth to clear, the next, which decides when 99 % are clear, and `others` evenly of the
/// rest. Of fewer than a hundred places the last decides by itself.
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

using Scores = std::vector<std::vector<double>>;  // [unknown][sample]

std::vector<Outcome> sample(const Work& work, const Assessment& first, const std::vector<Place>& places, const std::vector<Unknown>& unknowns,
                            const Scores& scores) {
  std::vector<Outcome> outcomes(scores.front().size());
  const Drawn likely{work.coat, work.metal.absorptance.likely};
  const auto runFrom = [&](std::size_t begin) {
    for (std::size_t n = begin; n < outcomes.size(); n += 2) {
      throwIfStopped(work.stop);
      Drawn at = likely;
      for (std::size_t v = 0; v < unknowns.size(); ++v) unknowns[v].draw(at, scores[v][n]);
      outcomes[n] = outcomeOf(work, first, places, at);
    }
  };
  auto other = std::async(std::launch::async, runFrom, 1);
  runFrom(0);
  other.get();
  return outcomes;
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
  for (const Outcome& outcome : sample(work, first, places, unknowns, latinHypercube(unknowns.size(), fewestTried, seed)))
    tried += outcome.work / fewestTried;
  const double most = mostWork / std::max(1.0, tried);
  const auto above = std::ranges::find_if(sampleCounts, [most](std::size_t count) { return static_cast<double>(count) > most; });
  return above == sampleCounts.begin() ? 0 : *std::prev(above);
}

Spread spreadOf(std::vector<double> values) {
  std::ranges::sort(values);
  const auto at = [&](double share) { return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.5)]; };
  return {at(0.05), at(0.5), at(0.95)};
}

template <class Value>
Spread spreadOf(const std::vector<Outcome>& outcomes, Value value) {
  std::vector<double> values;
  for (const Outcome& outcome : outcomes) values.push_back(value(outcome));
  return spreadOf(std::move(values));
}

/// Ranks from 0, ties sharing their mean.
std::vector<double> ranksOf(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::sort(order, {}, [&](std::size_t i) { return values[i]; });
  std::vector<double> ranks(values.size());
  for (std::size_t begin = 0, end = 0; begin < order.size(); begin = end) {
    while (end < order.size() && values[order[end]] == values[order[begin]]) ++end;
    for (std::size_t i = begin; i < end; ++i) ranks[order[i]] = 0.5 * static_cast<double>(begin + end - 1);
  }
  return ranks;
}

/// Square of Spearman's rank correlation: of independent inputs, about the share of the outcome's variance.
double correlationSquared(const std::vector<double>& a, const std::vector<double>& b) {
  const double middle = 0.5 * static_cast<double>(a.size() - 1);
  double ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    ab += (a[i] - middle) * (b[i] - middle);
    aa += (a[i] - middle) * (a[i] - middle);
    bb += (b[i] - middle) * (b[i] - middle);
  }
  return aa > 0 && bb > 0 ? ab * ab / (aa * bb) : 0;
}

std::vector<Influence> influencesOf(const std::vector<Unknown>& unknowns, const Scores& scores, const std::vector<Outcome>& outcomes) {
  constexpr double nearLikely = 0.45;                                                  // a third of the draws lie so near
  const double leastShare = std::max(0.03, 7 / static_cast<double>(outcomes.size()));  // beyond 2.6 standard errors: no chance
  constexpr std::size_t most = 6;
  std::vector<double> course;
  for (const Outcome& outcome : outcomes) course.push_back(outcome.course);
  const std::vector<double> ranks = ranksOf(course);
  std::vector<Influence> influences;
  for (std::size_t v = 0; v < unknowns.size(); ++v) {
    const double share = correlationSquared(ranksOf(scores[v]), ranks);
    if (share < leastShare || !unknowns[v].movesPasses) continue;
    std::vector<Outcome> known;
    for (std::size_t n = 0; n < outcomes.size(); ++n)
      if (std::abs(scores[v][n]) < nearLikely) known.push_back(outcomes[n]);
    influences.push_back({unknowns[v].what, share, spreadOf(known, [](const Outcome& o) { return o.passesNeeded; }), unknowns[v].how});
  }
  std::ranges::sort(influences, std::greater(), &Influence::share);
  if (influences.size() > most) influences.resize(most);
  return influences;
}

/// What each draw makes of the temperatures.
void addHeat(const Work& work, const ThermalResult& thermal, const std::vector<Outcome>& outcomes, Ranges& ranges) {
  if (!thermal.front_C) return;
  const HeatResponse response(work, thermal);
  std::vector<HeatPeaks> peaks;
  for (const Outcome& outcome : outcomes) peaks.push_back(response.peaks(outcome.drawn, work.coat.empty() ? 0 : outcome.strippingShare));
  const auto spread = [&](auto value) {
    std::vector<double> values;
    for (const HeatPeaks& at : peaks) values.push_back(value(at));
    return spreadOf(std::move(values));
  };
  ranges.near_C = spread([](const HeatPeaks& at) { return at.near_C; });
  ranges.front_C = spread([](const HeatPeaks& at) { return at.front_C; });
  ranges.back_C = spread([](const HeatPeaks& at) { return at.back_C; });
  for (const LimitResult& limit : thermal.limits) ranges.limits_C.push_back(spread([&](const HeatPeaks& at) { return feltBy(limit, at); }));
  const double start = work.project.part.startTemperature_C;
  if (!thermal.worstMargin) return;
  ranges.worstMargin = spread([&](const HeatPeaks& at) {
    double worst = never;
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

void addJob(const Work& work, const std::vector<Outcome>& outcomes, Ranges& ranges) {
  const Settings& s = work.settings();
  std::vector<JobResult> needed, planned;
  for (const Outcome& outcome : outcomes) {
    needed.push_back(jobAt(work, outcome.drawn.pace, outcome.passesNeeded));
    planned.push_back(jobAt(work, outcome.drawn.pace, s.passes));
  }
  const auto spread = [](const std::vector<JobResult>& jobs, std::optional<double> JobResult::*value) {
    std::vector<double> values;
    for (const JobResult& job : jobs) values.push_back((job.*value).value_or(never));
    return spreadOf(std::move(values));
  };
  ranges.rate_m2_s =
      spreadOf(outcomes, [&](const Outcome& o) { return s.travelSpeed_m_s * o.drawn.pace * s.stepOver_m / std::max(1.0, o.passesNeeded); });
  ranges.beamTime_s = spread(needed, &JobResult::beamTime_s);
  ranges.totalTime_s = spread(needed, &JobResult::totalTime_s);
  ranges.plannedBeamTime_s = spread(planned, &JobResult::beamTime_s);
  ranges.plannedTotalTime_s = spread(planned, &JobResult::totalTime_s);
  if (planned.empty() || !planned.front().cost) return;
  ranges.cost = spread(needed, &JobResult::cost);
  ranges.plannedCost = spread(planned, &JobResult::cost);
}

/// A range holds the likely outcome, which is one of those that can be: the draws may lie all to one side of it, and few places stand for
/// all in them.
void hold(Spread& spread, double likely) {
  spread.low = std::min(spread.low, likely);
  spread.high = std::max(spread.high, likely);
}

void hold(std::optional<Spread>& spread, const std::optional<double>& likely) {
  if (spread && likely) hold(*spread, *likely);
}

double orNever(const std::optional<int>& passes) { return passes ? *passes : never; }

void holdRemoval(const RemovalResult& removal, Ranges& ranges) {
  hold(ranges.passesNeeded, orNever(removal.passesNeeded));
  hold(ranges.clearedFraction, removal.clearedFraction.value_or(ranges.clearedFraction.middle));
  hold(ranges.heatIntoPartFraction, removal.heatIntoPartFraction.value_or(ranges.heatIntoPartFraction.middle));
  hold(ranges.rate_m2_s, removal.rate_m2_s);
  for (std::size_t i = 0; i < std::min(ranges.layers.size(), removal.layers.size()); ++i) {
    hold(ranges.layers[i].passes, orNever(removal.layers[i].passes));
    hold(ranges.layers[i].removed_m, removal.layers[i].removed_m);
  }
}

void holdHeat(const ThermalResult& thermal, Ranges& ranges) {
  hold(ranges.near_C, thermal.near_C);
  hold(ranges.front_C, thermal.front_C);
  hold(ranges.back_C, thermal.back_C);
  hold(ranges.worstMargin, thermal.worstMargin);
  for (std::size_t i = 0; i < ranges.limits_C.size(); ++i) hold(ranges.limits_C[i], thermal.limits[i].predicted_C);
}

void holdJob(const JobResult& job, Ranges& ranges) {
  hold(ranges.plannedBeamTime_s, job.beamTime_s);
  hold(ranges.plannedTotalTime_s, job.totalTime_s);
  hold(ranges.plannedCost, job.cost);
  if (!job.needed) return;
  hold(ranges.beamTime_s, job.needed->beamTime_s);
  hold(ranges.totalTime_s, job.needed->totalTime_s);
  hold(ranges.cost, job.needed->cost);
}

double neverShare(const std::vector<Outcome>& outcomes, const std::function<double(const Outcome&)>& passes) {
  const auto stuck = std::ranges::count_if(outcomes, [&](const Outcome& o) { return std::isinf(passes(o)); });
  return static_cast<double>(stuck) / static_cast<double>(outcomes.size());
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
  const Scores scores = latinHypercube(unknowns.size(), samples, seed);
  const std::vector<Outcome> outcomes = sample(work, first, places, unknowns, scores);

  Ranges ranges;
  ranges.samples = static_cast<int>(samples);
  const auto passes = [](const Outcome& o) { return o.passesNeeded; };
  ranges.passesNeeded = spreadOf(outcomes, passes);
  ranges.neverShare = neverShare(outcomes, passes);
  ranges.clearedFraction = spreadOf(outcomes, [](const Outcome& o) { return o.cleared; });
  ranges.heatIntoPartFraction = spreadOf(outcomes, [](const Outcome& o) { return o.heatShare; });
  if (work.pulsed()) ranges.etch_m = spreadOf(outcomes, [](const Outcome& o) { return o.etch_m; });
  for (std::size_t i = 0; i < work.coat.size(); ++i) {
    const auto layerPasses = [i](const Outcome& o) { return o.layerPasses[i]; };
    ranges.layers.push_back({spreadOf(outcomes, layerPasses), spreadOf(outcomes, [i](const Outcome& o) { return o.layerRemoved_m[i]; }),
                             neverShare(outcomes, layerPasses)});
  }
  for (std::size_t pass = 0; pass < first.removal.clearedAfter.size(); ++pass)
    ranges.depth_m.push_back(spreadOf(outcomes, [pass](const Outcome& o) { return o.depth_m[pass]; }));
  addHeat(work, first.thermal, outcomes, ranges);
  addJob(work, outcomes, ranges);
  holdRemoval(first.removal, ranges);
  holdHeat(first.thermal, ranges);
  holdJob(first.job, ranges);
  hold(ranges.etch_m, first.finish.etch_m);
  ranges.influences = influencesOf(unknowns, scores, outcomes);
  return ranges;
}

std::vector<FindOutNext> measurements(const Ranges& ranges) {
  const auto isNarrower = [](const Spread& than, const Spread& spread) {
    return spread.high <= than.high && spread.low >= than.low && (spread.high < than.high || spread.low > than.low);
  };
  std::vector<FindOutNext> next;
  for (const Influence& influence : ranges.influences) {
    if (next.size() == 3) break;
    if (!isNarrower(ranges.passesNeeded, influence.passesIfKnown)) continue;
    next.push_back({"the " + influence.what, influence.how, passesText(ranges.passesNeeded) + " becomes " + passesText(influence.passesIfKnown)});
  }
  return next;
}

std::string passesText(int passes) { return passes == 1 ? "1 pass" : std::to_string(passes) + " passes"; }

std::string passesText(const Spread& passes) {
  if (std::isinf(passes.low)) return "no number of passes";
  const std::string low = passesText(static_cast<int>(passes.low));
  if (std::isinf(passes.high)) return low + " or more";
  if (passes.low == passes.high) return low;
  return text::whole(passes.low) + " to " + passesText(static_cast<int>(passes.high));
}

}  // namespace bw
