// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/removal_work.h"

#include "core/assess/machine_limits.h"
#include "core/assess/verdict_rows.h"
#include "core/heat/limits.h"
#include "core/job/hazards.h"
#include "core/job/room.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

using namespace text;

constexpr Thresholds warpLimits{0.5, 1e300};  // a screening: near limit is the most the model's word alone can say
// Bounds of the light-etch finish (physics of the model, section 4; invented working values).
constexpr double mostEtch_m = 10e-6;
constexpr double mostMeltDepth_m = 5e-6;

/// "130 to 158 °C", "2 to 9 µm"; one value where both ends read alike.
std::string rangeText(const Spread& spread, std::string (*text)(double)) {
  const std::string low = text(spread.low), high = text(spread.high);
  if (low == high) return low;
  const auto unit = [](const std::string& value) {  // nothing for "3 h 7 min"
    return std::ranges::count(value, ' ') == 1 ? value.substr(value.rfind(' ')) : std::string();
  };
  return (!unit(low).empty() && unit(low) == unit(high) ? low.substr(0, low.rfind(' ')) : low) + " to " + high;
}

/// What the draws say of the passes: "Comes off in 2 to 9 passes in 9 of 10 such jobs." The likely number has been said before.
std::string spreadText(const Ranges& ranges) {
  const Spread& passes = ranges.passesNeeded;
  const std::string never = "in " + percent(ranges.neverShare) + " of such jobs it never clears.";
  if (std::isinf(passes.low)) return " As drawn, " + never;
  if (std::isinf(passes.high)) return " Comes off in " + passesText(passes) + "; " + never;
  std::string said = " Comes off in " + passesText(passes) + " in 9 of 10 such jobs";
  return said + (ranges.neverShare > 0.005 ? "; " + never : ".");
}

/// So wide that only a patch can tell.
bool isWide(const Ranges& ranges) {
  return ranges.neverShare > 0.05 || ranges.passesNeeded.high > std::max(2.0, 2.5 * ranges.passesNeeded.low);
}

const LayerResult* lostKeptLayer(const RemovalResult& removal) {
  for (const LayerResult& layer : removal.layers) {
    if (layer.lost) return &layer;
  }
  return nullptr;
}

const LayerResult* stalled(const RemovalResult& removal) {
  const auto found = std::ranges::find_if(removal.layers, [](const LayerResult& layer) { return !layer.stallReason.empty(); });
  return found == removal.layers.end() ? nullptr : &*found;
}

bool standsStill(const Work& work) { return !(work.settings().travelSpeed_m_s > 0); }

bool isUntested(const Precaution& one) { return !one.component.empty() && !one.stops && !one.cleared; }

/// Scraper and blast raise the same dust.
std::string otherWay(const Work& work, const Assessment& assessment, bool planFails) {
  const std::string text = otherWayText(assessment.job, work.project.currency, planFails);
  const bool untested = std::ranges::any_of(assessment.precautions, isUntested);
  return text.empty() || !untested ? text : text + " The coat has to be tested first for that, too.";
}

VerdictRow removalRow(const Work& work, const Assessment& assessment) {
  VerdictRow row{"removal", "Comes off?", Status::NotKnown, "", ""};
  const RemovalResult& removal = assessment.removal;
  const int planned = work.settings().passes;
  const bool guessed = std::ranges::any_of(work.coat, [](const LayerMaterial& layer) { return layer.unknown; });
  if (!removal.computed && standsStill(work)) {
    row.status = Status::Fails;
    row.message = "The hand stands still: only what lies under one frame is treated.";
    row.remedy = "Set a travel speed above 0.";
  } else if (!removal.computed) {
    row.message = "Not known: there is no steady dose to reckon with.";
    row.remedy = "Prove on a patch.";
  } else if (const LayerResult* lost = lostKeptLayer(removal)) {
    row.status = Status::Fails;
    row.message = "The layer \"" + lost->name + "\" should stay, but " + percent(lost->removed_m / lost->thickness_m) + " of it goes.";
    row.message += otherWay(work, assessment, true);
    row.remedy = "A wider spot and more patience, or another way; else \"" + lost->name + "\" is lost.";
  } else if (!removal.passesNeeded) {
    row.status = Status::Fails;
    const LayerResult* layer = stalled(removal);
    row.message =
        layer ? "\"" + layer->name + "\" never clears: " + layer->stallReason + "." : std::string("It is not clear after 50 passes.");
    row.remedy = "More energy per pulse, a slower travel, or another way.";
    row.message += otherWay(work, assessment, true);
  } else if (*removal.passesNeeded > planned) {
    row.status = Status::Fails;
    row.message = "Needs " + passesText(*removal.passesNeeded) + "; " + passesText(planned) +
                  (planned == 1 ? " planned leaves " : " planned leave ") + percent(1 - removal.clearedFraction.value_or(0)) +
                  " of the surface coated." + leftText(work, assessment);
    const bool useless = !whyNot(work, assessment).empty();
    row.remedy = useless ? "Another way than this beam." : "Plan " + passesText(*removal.passesNeeded) + ".";
  } else if (*removal.passesNeeded == 0) {
    row.status = Status::Meets;
    row.message = "There is nothing to take off.";
  } else {
    const bool mayTakeMore = assessment.ranges && assessment.ranges->passesNeeded.high > planned;
    row.status = guessed || mayTakeMore ? Status::Near : Status::Meets;
    row.message = "Clear after " + passesText(*removal.passesNeeded) + " of " + std::to_string(planned) + ".";
  }
  if (work.coat.empty()) return row;
  if (assessment.ranges) row.message += spreadText(*assessment.ranges);
  if (guessed)
    row.message += " What the coat is, is a guess: prove on a patch.";
  else if (assessment.ranges && removal.passesNeeded && isWide(*assessment.ranges))
    row.message += " That is too wide to plan on: prove on a patch.";
  return row;
}

/// "heat tint after 0.8 s, back face after 3 s": what a hand that stands still reaches, soonest first.
std::string reachedText(std::vector<LimitResult> limits) {
  std::erase_if(limits, [](const LimitResult& limit) { return limit.warnOnly || !limit.stillHand_s; });
  std::ranges::stable_sort(limits, {}, [](const LimitResult& limit) { return *limit.stillHand_s; });
  std::string said;
  for (const LimitResult& limit : limits)
    said += (said.empty() ? "" : ", ") + limit.name + " (" + temperature(limit.limit_C) + ") after " + duration(*limit.stillHand_s);
  return said;
}

std::string whyNoHeat(const Work& work) {
  return standsStill(work) ? "Not known: the hand stands still." : "Not known: heat was not computed.";
}

/// A hand that never moves on.
VerdictRow standingRow(const ThermalResult& thermal) {
  VerdictRow row{"temperature", "Cool enough?", Status::Near, "", "Set a travel speed above 0."};
  const std::string reached = reachedText(thermal.limits), followed = duration(thermal.stillHand->time_s.back());
  if (reached.empty()) {
    row.message = "The hand stands still: no limit is reached within " + followed + ".";
    return row;
  }
  row.status = Status::Fails;
  row.message = "The hand stands still and reaches: " + reached + ".";
  return row;
}

std::string reachedTemperature(const ThermalResult& thermal, double temperature_C) {
  return thermal.boils(temperature_C) ? "boils (" + temperature(thermal.boiling_C) + ")" : temperature(temperature_C);
}

/// What becomes of metal that is molten for longer than an instant; empty where it is not.
std::string moltenText(const Work& work, const ThermalResult& thermal) {
  const double melting = work.metal.melting_C.range.likely;
  if (thermal.back_C.value_or(0) >= melting) return "The beam holes the metal: where it is hottest it is molten right through";
  if (thermal.front_C.value_or(0) >= melting) return "The metal runs or sags: where it is hottest its face is molten for longer than 10 ms";
  return "";
}

VerdictRow temperatureRow(const Work& work, const Assessment& assessment) {
  VerdictRow row{"temperature", "Cool enough?", Status::NotKnown, "Not known: heat was not computed.", ""};
  const ThermalResult& thermal = assessment.thermal;
  for (const LimitResult& limit : thermal.limits) {
    if (limit.margin) continue;
    row.message = "The limit \"" + limit.name + "\" of " + temperature(limit.limit_C) + " is not above the start: nothing can meet it.";
    row.remedy = "Correct the limit.";
    return row;
  }
  if (standsStill(work) && thermal.stillHand) return standingRow(thermal);
  const LimitResult* worst = tellingLimit(thermal.limits);
  if (!worst && thermal.front_C) {
    row.message =
        "No limit to judge by: the front reaches " + temperature(*thermal.front_C) + ", the back " + temperature(*thermal.back_C) + ".";
    row.remedy = "Set a limit, or say what lies behind the metal.";
  }
  if (!worst) return row;
  row.status = statusOf(*worst);
  const std::string molten = moltenText(work, thermal);
  row.message = (molten.empty() ? "" : molten + ". ") + "Tightest: " + worst->name + ", " +
                reachedTemperature(thermal, worst->predicted_C) + " of " + temperature(worst->limit_C) + " (" + worst->source + ")";
  if (worst->predictedRange_C) row.message += "; " + rangeText(*worst->predictedRange_C, temperature) + " in 9 of 10 such jobs";
  if (worst->reached_s) row.message += "; met after " + duration(*worst->reached_s);
  row.message += ".";
  if (worst->stillHand_s && *worst->stillHand_s > 0)
    row.message += " A hand that stops where it is hottest has " + duration(*worst->stillHand_s) + ".";
  if (row.status != Status::Meets) row.remedy = "Wait between passes, a faster travel, or less power.";
  return row;
}

/// Which of the three terms is the largest.
std::string flatnessCause(const FlatnessTerms& terms) {
  const std::string place = ": a place " + length(terms.width_m) + " wide stands " + whole(terms.localRise_K) + " K above the sheet around it";
  if (terms.index() == terms.bow) return ": the skin yields so deep that it may bow the sheet";
  return place + (terms.index() == terms.yield ? " and may yield" : " and may pop out of plane");
}

VerdictRow flatnessRow(const Work& work, const Assessment& assessment) {
  VerdictRow row{"flatness", "Stays flat?", Status::NotKnown, whyNoHeat(work), ""};
  if (!assessment.thermal.warpIndex) return row;
  const double index = *assessment.thermal.warpIndex;
  row.status = warpLimits.judge(index);
  row.message = "Screening index " + number(index) + flatnessCause(*assessment.thermal.flatness) +
                " (trouble is possible from 1; not checked against real distortions).";
  if (row.status != Status::Meets) row.remedy = "Less heat at a time: faster travel, waiting, swaths apart from each other.";
  return row;
}

VerdictRow finishRow(const Work& work, const Assessment& assessment) {
  VerdictRow row{"finish", "Finish?", Status::NotKnown, whyNoHeat(work), ""};
  const FinishResult& finish = assessment.finish;
  const Finish wanted = work.project.part.finish;
  if (wanted == Finish::Any) return {"finish", "Finish?", Status::Meets, "Any finish will do.", ""};
  if (!finish.melts) return row;
  if (!*finish.melts) {
    row.status = Status::Meets;
    row.message = "The metal does not melt: " + temperature(*assessment.thermal.flash_C) +
                  (work.pulsed() ? " at most, within a pulse." : " at most.");
    return row;
  }
  row.remedy = "Less energy per pulse, a wider spot (focus offset), or fewer passes once bare.";
  if (wanted == Finish::Untouched) {
    row.status = Status::Fails;
    row.message = "The bare metal melts for an instant under each pulse; it was to stay untouched.";
    if (const std::string why = whyNot(work, assessment); !why.empty()) {
      row.message = why + otherWay(work, assessment, true);
      row.remedy = "Another way than this beam.";
    }
    return row;
  }
  if (!work.pulsed()) {
    row.status = Status::Fails;
    row.message = "The continuous beam melts the bare metal: " + reachedTemperature(assessment.thermal, *assessment.thermal.flash_C) + ".";
    row.remedy = "Faster scan, a wider spot, or less power.";
    return row;
  }
  if (!finish.meltDepth_m || !finish.etch_m) return row;
  const double worst = std::max(*finish.meltDepth_m / mostMeltDepth_m, *finish.etch_m / mostEtch_m);
  row.status = worst > 1 ? Status::Fails : worst > 1 - nearMargin ? Status::Near : Status::Meets;
  row.message = "Melts " + length(*finish.meltDepth_m) + " deep (5 µm allowed) and loses " + length(*finish.etch_m) +
                " at most (10 µm allowed, " +
                (assessment.ranges && assessment.ranges->etch_m ? rangeText(*assessment.ranges->etch_m, length) + " in 9 of 10 such jobs)."
                                                                : std::string("known to between a third and 1.5 times)."));
  if (row.status == Status::Meets) row.remedy.clear();
  return row;
}

VerdictRow machineRow(const Work& work) {
  VerdictRow row{"machine", "Machine able?", Status::Meets, "All settings are within what the machine states.", ""};
  const auto findings = machineFindings(work.project, work.machine, work.settings());
  if (findings.empty()) return row;
  row.message.clear();
  for (const MachineFinding& finding : findings) {
    row.status = worseOf(row.status, finding.status);
    row.message += (row.message.empty() ? "" : " ") + finding.message;
  }
  if (row.status != Status::Fails) return row;
  const bool settings = !(withinMachine(work.machine, work.settings()) == work.settings());
  row.remedy = settings ? "Bring the settings within the machine's limits." : "Mend the shop's conditions, or take another machine.";
  return row;
}

VerdictRow timeRow(const Work& work, const Assessment& assessment) {
  VerdictRow row{"time", "Time?", Status::NotKnown, "Not known without a travel and the number of passes.", ""};
  const JobResult& job = assessment.job;
  if (!job.totalTime_s) return row;
  const RemovalResult& removal = assessment.removal;
  row.status = removal.computed && removal.passesNeeded ? Status::Meets : Status::NotKnown;
  row.message = (row.status == Status::Meets ? "About " : "As planned, which does not clear it: about ") + duration(*job.totalTime_s) +
                " in all for " + number(job.area_m2 * 1e4) + " cm²";
  if (job.secondsPerA4) row.message += ", " + duration(*job.secondsPerA4) + " per A4 sheet";
  if (!assessment.ranges || !assessment.ranges->totalTime_s || std::isinf(assessment.ranges->totalTime_s->low))
    row.message += assessment.ranges ? "." : " (single estimate, spread not computed).";
  else if (std::isinf(assessment.ranges->totalTime_s->high))
    row.message += ". With the passes it needs " + duration(assessment.ranges->totalTime_s->low) + " or more.";
  else
    row.message += ". With the passes it needs " + rangeText(*assessment.ranges->totalTime_s, duration) + " in 9 of 10 such jobs.";
  if (row.status == Status::Meets) row.message += otherWay(work, assessment, false);
  return row;
}

/// "fuel behind the metal, closed cavity behind the metal".
std::string namesOf(const std::vector<Precaution>& precautions) {
  std::string names;
  for (const Precaution& one : precautions) names += (names.empty() ? "" : ", ") + one.what;
  return names;
}

std::string eyesText(const Work& work, const EyesResult& eyes) {
  if (!eyes.hazardDistance_m) return "";
  std::string said = " Eyes are at risk up to " + length(*eyes.hazardDistance_m) +
                     " in the beam's or a mirror's direction; everyone in the room needs eyewear";
  if (eyes.opticalDensity)
    said += " of optical density " + whole(*eyes.opticalDensity) + " or more at " + number(work.machine.wavelength_m * 1e9, 4) + " nm";
  return said + ".";
}

/// Near limit is the best there is: no prediction says that nobody is hurt.
VerdictRow safetyRow(const Work& work, const Assessment& assessment) {
  VerdictRow row{"safety", "Air and eyes?", Status::Near, "", ""};
  const auto& all = assessment.precautions;
  if (const auto stops = openStops(all); !stops.empty()) {
    row.status = Status::Fails;
    row.message = "Do not start: " + namesOf(stops) + ". " + stops.front().todo;
    row.remedy = "Settle it before anything else.";
  } else if (const std::size_t open = openCount(all); open > 0) {
    if (std::ranges::any_of(all, isUntested)) row.status = Status::NotKnown;
    row.message = "Before the beam is on: " + std::to_string(open) + " open, first the " +
                  std::ranges::find_if(all, [](const Precaution& one) { return !one.cleared; })->what + ".";
    if (!(work.plan.extraction && work.plan.extraction->on)) row.remedy = "Plan extraction.";
  } else {
    row.message = "All that was to be settled before the beam is on has a name to it.";
  }
  row.message += eyesText(work, assessment.eyes) + " The laser safety officer decides.";
  return row;
}

void suggestMeasurements(const Work& work, Assessment& assessment) {
  auto& next = assessment.findOutNext;
  if (assessment.ranges) next = measurements(*assessment.ranges);
  const auto unknown = std::ranges::find_if(work.coat, [](const LayerMaterial& layer) { return layer.unknown; });
  const bool gauged = std::ranges::any_of(work.project.coat, [](const Layer& layer) { return layer.knownFrom == KnownFrom::Gauge; });
  if (!assessment.ranges && unknown != work.coat.end())
    next.push_back({"what \"" + unknown->name + "\" is",
                    "read the total thickness with a gauge, then strip a proof patch and count the passes", "passes and time"});
  else if (!assessment.ranges && !gauged && !work.coat.empty())
    next.push_back({"the coat's total thickness", "a thickness gauge at five places (ISO 2808)", "passes and time"});
  if (work.project.part.behind.empty())
    next.push_back({"what lies behind the metal", "look, or ask the owner", "the limit of the back face"});
  if (next.empty() && !work.coat.empty()) {
    next.push_back({"how many passes clear this coat", "strip a proof patch on scrap or a hidden spot and count them",
                    "whether the model holds for this coat at all"});
  }
}

}  // namespace

namespace {

/// What was entered of the room goes before what the coat and the beam call for.
void addRoom(const std::vector<RoomFinding>& findings, VerdictRow& row) {
  if (row.status == Status::Fails) return;  // what stops the work stands alone
  std::string said;
  for (const RoomFinding& finding : findings) {
    if (severity(finding.status) > severity(row.status) || row.remedy.empty()) row.remedy = finding.remedy;
    row.status = worseOf(row.status, finding.status);
    said += finding.message + " ";
  }
  row.message = said + row.message;
}

}  // namespace

void judge(const Work& work, Assessment& assessment) {
  assessment.verdict = {removalRow(work, assessment),  evennessRow(assessment),     temperatureRow(work, assessment),
                        flatnessRow(work, assessment), finishRow(work, assessment), machineRow(work),
                        timeRow(work, assessment),     safetyRow(work, assessment)};
  addRoom(roomFindings(work.project, work.plan, work.coat, work.metal, assessment.eyes), assessment.verdict.back());
  suggestMeasurements(work, assessment);
}

namespace {

/// What comes off, as far as the sentence of the answer line goes.
std::string answerOnRemoval(const RemovalResult& removal, int planned) {
  if (!removal.computed) return "Whether it comes off is not known";
  if (const LayerResult* lost = lostKeptLayer(removal)) return "\"" + lost->name + "\" should stay, but goes";
  if (!removal.passesNeeded) {
    const LayerResult* layer = stalled(removal);
    if (!layer) return "Does not come off in 50 passes";
    return layer->reachableShare > 0.5 ? "Leaves stripes of \"" + layer->name + "\"" : "Does not come off: \"" + layer->name + "\" stalls";
  }
  if (*removal.passesNeeded == 0) return "Nothing to take off";
  const std::string needed = passesText(*removal.passesNeeded);
  return *removal.passesNeeded > planned ? "Needs " + needed + ", planned are " + std::to_string(planned) : "Comes off in " + needed;
}

/// The same with its ranges, where they say more: "Comes off in 4 to 7 passes, 65 to 125 min".
std::string answerInRanges(const Ranges& ranges) {
  std::string answer = (ranges.neverShare > 0.5 ? "Hardly comes off, in " : "Comes off in ") + passesText(ranges.passesNeeded);
  const bool known = ranges.totalTime_s && !std::isinf(ranges.totalTime_s->high);
  if (known) answer += ", " + rangeText(*ranges.totalTime_s, duration);
  return answer;
}

}  // namespace

std::string answerLine(const Work& work, const Assessment& assessment) {
  if (const auto stops = openStops(assessment.precautions); !stops.empty()) return "Do not start: " + namesOf(stops);
  const int planned = work.settings().passes;
  const RemovalResult& removal = assessment.removal;
  const bool ranged = assessment.ranges && removal.passesNeeded.value_or(0) > 0 && !lostKeptLayer(removal);
  std::string answer = ranged ? answerInRanges(*assessment.ranges) : answerOnRemoval(removal, planned);
  if (const std::string why = whyNot(work, assessment); !why.empty()) answer = why.substr(0, why.size() - 1);
  if (assessment.job.totalTime_s) answer += "; " + duration(*assessment.job.totalTime_s) + " for the " + passesText(planned) + " planned";
  if (assessment.job.cost)
    answer += ", price " + number(*assessment.job.cost) + (work.project.currency.empty() ? "" : " " + work.project.currency);
  if (assessment.thermal.stillHand && standsStill(work)) {
    const std::string reached = reachedText(assessment.thermal.limits);
    return "The hand stands still" + (reached.empty() ? "" : ": " + reached.substr(0, reached.find(", "))) + "; prove on a patch first";
  }
  const std::string molten = moltenText(work, assessment.thermal);
  if (!molten.empty()) {
    answer += "; " + molten.substr(0, molten.find(':'));
  } else if (const LimitResult* worst = tellingLimit(assessment.thermal.limits)) {
    const auto& range = worst->predictedRange_C;
    const std::string predicted =
        range ? whole(range->low) + " to " + whole(std::max(range->high, worst->predicted_C)) : whole(worst->predicted_C);
    const bool boils = assessment.thermal.boils(worst->predicted_C);
    answer += "; " + worst->name + (boils ? ": the metal boils, limit " : " " + predicted + " of ") + temperature(worst->limit_C);
  }
  return answer + "; prove on a patch first";
}

}  // namespace bw
