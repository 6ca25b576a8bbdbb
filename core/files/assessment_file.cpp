// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/assessment_file.h"

#include "core/files/json_io.h"
#include "core/files/units.h"
#include "core/job/hazards.h"

namespace bw {
namespace {

constexpr FileUnit J_cm2{"J/cm²", 1e4, 1};
constexpr FileUnit W_cm2{"W/cm²", 1e4, 1};
constexpr FileUnit cm2_s{"cm²/s", 1, 1e4};
constexpr FileUnit ms{"ms", 1, 1e3};
constexpr FileUnit kWh{"kWh", 3.6e6, 1};
constexpr FileUnit gram{"g", 1, 1e3};
constexpr FileUnit gram_min{"g/min", 1, 6e4};

Json number(double value, const FileUnit& unit = {}) { return jsonNumber(unit.fromSi(value)); }

Json number(const std::optional<double>& value, const FileUnit& unit = {}) { return value ? number(*value, unit) : Json(nullptr); }

template <class T>
Json orNull(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

template <class T, class Write>
Json list(const std::vector<T>& values, const Write& write) {
  Json json = Json::array();
  for (const T& value : values) json.push_back(write(value));
  return json;
}

Json beamJson(const BeamResult& beam) {
  return {{"pulse_energy_mJ", number(beam.pulseEnergy_J, units::mJ)},
          {"mean_power_W", number(beam.meanPower_W)},
          {"peak_power_W", number(beam.peakPower_W)},
          {"spot_diameter_um", number(beam.spotDiameter_m, units::um)},
          {"rayleigh_range_mm", number(beam.rayleighRange_m, units::mm)},
          {"peak_fluence_J_cm2", number(beam.peakFluence_J_m2, J_cm2)},
          {"peak_irradiance_W_cm2", number(beam.peakIrradiance_W_m2, W_cm2)}};
}

Json overlapJson(const OverlapResult& overlap) {
  return {{"pulse_step_um", number(overlap.pulseStep_m, units::um)},
          {"pulse_overlap", number(overlap.pulseOverlap)},
          {"line_spacing_um", number(overlap.lineSpacing_m, units::um)},
          {"line_overlap", number(overlap.lineOverlap)},
          {"pulses_per_spot", number(overlap.pulsesPerSpot)},
          {"frame_period_ms", number(overlap.framePeriod_s, ms)},
          {"lit_fraction", number(overlap.litFraction)}};
}

Json stripeJson(const std::optional<Stripe>& stripe) {
  if (!stripe) return nullptr;
  return {{"period_mm", number(stripe->period_m, units::mm)}, {"contrast", number(stripe->contrast)}, {"cause", stripe->cause}};
}

Json spreadJson(const Spread& spread, const FileUnit& unit = {}) {
  return Json::array({number(spread.low, unit), number(spread.middle, unit), number(spread.high, unit)});
}

/// What chance makes of evenness: swaths that do not start in step.
void addDoseRanges(const OutOfStep& chance, Json& ranges) {
  ranges["dose.cv"] = spreadJson(chance.cv);
  ranges["dose.missed_fraction"] = spreadJson(chance.missedFraction);
  ranges["dose.min_J_cm2"] = spreadJson(chance.min_J_m2, J_cm2);
  ranges["dose.ripple_along"] = spreadJson(chance.rippleAlong);
}

void addRanges(const Ranges& found, Json& ranges) {
  ranges["removal.passes_needed"] = spreadJson(found.passesNeeded);
  ranges["removal.cleared_fraction"] = spreadJson(found.clearedFraction);
  ranges["removal.heat_into_part_fraction"] = spreadJson(found.heatIntoPartFraction);
  const auto add = [&](const char* key, const std::optional<Spread>& spread, const FileUnit& unit = units::none) {
    if (spread) ranges[key] = spreadJson(*spread, unit);
  };
  add("removal.rate_cm2_s", found.rate_m2_s, cm2_s);
  add("thermal.front_C", found.front_C);
  add("thermal.back_C", found.back_C);
  add("thermal.near_C", found.near_C);
  add("thermal.worst_margin", found.worstMargin);
  add("finish.etch_um", found.etch_m, units::um);
  add("job.beam_time_s", found.beamTime_s);
  add("job.total_time_s", found.totalTime_s);
  add("job.cost", found.cost);
  add("job.beam_time_needed_s", found.beamTime_s);
  add("job.total_time_needed_s", found.totalTime_s);
  add("job.cost_needed", found.cost);
  add("job.beam_time_planned_s", found.plannedBeamTime_s);
  add("job.total_time_planned_s", found.plannedTotalTime_s);
  add("job.cost_planned", found.plannedCost);
}

/// What 5, 50 and 95 % stay below; null where the coat never clears.
Json rangesJson(const Assessment& assessment) {
  Json ranges = Json::object();
  if (assessment.dose && assessment.dose->outOfStep) addDoseRanges(*assessment.dose->outOfStep, ranges);
  if (assessment.ranges) addRanges(*assessment.ranges, ranges);
  return ranges;
}

Json influenceJson(const Influence& influence) {
  return {{"what", influence.what},
          {"how", influence.how},
          {"share", number(influence.share)},
          {"passes_if_known", spreadJson(influence.passesIfKnown)}};
}

Json samplingJson(const std::optional<Ranges>& ranges) {
  if (!ranges) return nullptr;
  return {{"samples", ranges->samples},
          {"never_clears_share", number(ranges->neverShare)},
          {"influences", list(ranges->influences, influenceJson)}};
}

Json tiltedJson(const TiltedDose& dose) {
  return {{"area", dose.area},
          {"tilt_deg", number(dose.tilt_rad, units::deg)},
          {"peak_share", number(dose.peakShare)},
          {"cv", number(dose.cv)},
          {"ripple", number(dose.ripple)},
          {"ripple_along", number(dose.rippleAlong)},
          {"missed_fraction", number(dose.missedFraction)}};
}

/// With a still hand there is no steady state: every key is null.
Json doseJson(const std::optional<DoseResult>& given) {
  const DoseResult dose = given.value_or(DoseResult{});
  const auto known = [&](double value, const FileUnit& unit) { return given ? number(value, unit) : Json(nullptr); };
  return {{"mean_J_cm2", known(dose.mean_J_m2, J_cm2)},
          {"min_J_cm2", known(dose.min_J_m2, J_cm2)},
          {"max_J_cm2", known(dose.max_J_m2, J_cm2)},
          {"p05_J_cm2", known(dose.p05_J_m2, J_cm2)},
          {"p95_J_cm2", known(dose.p95_J_m2, J_cm2)},
          {"cv", known(dose.cv, units::none)},
          {"edge_ratio", number(dose.edgeRatio)},
          {"ripple", known(dose.ripple, units::none)},
          {"ripple_along", known(dose.rippleAlong, units::none)},
          {"missed_fraction", known(dose.missedFraction, units::none)},
          {"stripe_across", stripeJson(dose.stripeAcross)},
          {"stripe_along", stripeJson(dose.stripeAlong)},
          {"alternating_cv", dose.outOfStep ? number(dose.outOfStep->alternatingCv) : Json(nullptr)},
          {"tilted", list(dose.tilted, tiltedJson)}};
}

Json layerJson(const LayerResult& layer) {
  return {{"name", layer.name},
          {"thickness_um", number(layer.thickness_m, units::um)},
          {"removed_um", number(layer.removed_m, units::um)},
          {"threshold_fluence_J_cm2", number(layer.thresholdFluence_J_m2, J_cm2)},
          {"passes", orNull(layer.passes)},
          {"reachable_share", number(layer.reachableShare)},
          {"kept", layer.kept},
          {"lost", layer.lost},
          {"clears_up_to_deg", number(layer.clearsUpTo_rad, units::deg)},
          {"stall_reason", layer.stallReason.empty() ? Json(nullptr) : Json(layer.stallReason)}};
}

Json stillHandJson(const std::optional<StillHand>& still) {
  if (!still) return nullptr;
  return {{"first_clear_s", number(still->first_s)}, {"clear_s", number(still->most_s)}};
}

Json removalJson(const RemovalResult& removal) {
  return {{"computed", removal.computed},
          {"passes_needed", orNull(removal.passesNeeded)},
          {"cleared_fraction", number(removal.clearedFraction)},
          {"cleared_after_pass", list(removal.clearedAfter, [](double share) { return number(share); })},
          {"still_hand", stillHandJson(removal.stillHand)},
          {"layers", list(removal.layers, layerJson)},
          {"rate_cm2_s", number(removal.rate_m2_s, cm2_s)},
          {"heat_into_part_fraction", number(removal.heatIntoPartFraction)},
          {"heat_into_part_by_pass", list(removal.heatIntoPartByPass, [](double share) { return number(share); })}};
}

Json limitJson(const LimitResult& limit) {
  return {{"name", limit.name},
          {"where", limit.where},
          {"predicted_C", number(limit.predicted_C)},
          {"limit_C", number(limit.limit_C)},
          {"margin", number(limit.margin)},
          {"source", limit.source},
          {"warn_only", limit.warnOnly},
          {"limit_up_to_C", number(limit.limitUpTo_C)},
          {"reached_s", number(limit.reached_s)},
          {"still_hand_s", number(limit.stillHand_s)},
          {"predicted_range_C", limit.predictedRange_C ? spreadJson(*limit.predictedRange_C) : Json(nullptr)}};
}

Json flatnessJson(const std::optional<FlatnessTerms>& terms) {
  if (!terms) return nullptr;
  return {{"yield", number(terms->yield)},
          {"oil_can", number(terms->oilCan)},
          {"bow", number(terms->bow)},
          {"local_rise_K", number(terms->localRise_K)},
          {"width_mm", number(terms->width_m, units::mm)}};
}

Json hottestJson(const HeatTrace& trace) {
  if (trace.time_s.empty()) return nullptr;
  return {{"x_mm", number(trace.x_m, units::mm)}, {"y_mm", number(trace.y_m, units::mm)}};
}

Json thermalJson(const ThermalResult& thermal) {
  const auto told = [&](const std::optional<double>& temperature_C) {
    return thermal.boils(temperature_C) ? Json(nullptr) : number(temperature_C);
  };
  return {{"flash_C", told(thermal.flash_C)},
          {"near_C", told(thermal.near_C)},
          {"front_C", told(thermal.front_C)},
          {"back_C", told(thermal.back_C)},
          {"front_stripping_C", told(thermal.frontStripping_C)},
          {"front_bare_C", told(thermal.frontBare_C)},
          {"back_stripping_C", told(thermal.backStripping_C)},
          {"back_bare_C", told(thermal.backBare_C)},
          {"near_bare_C", told(thermal.nearBare_C)},
          {"boiling_C", std::isfinite(thermal.boiling_C) ? number(thermal.boiling_C) : Json(nullptr)},
          {"flash_excess_J_cm2", number(thermal.flashExcess_J_m2, J_cm2)},
          {"tint_equivalent_C", number(thermal.tintEquivalent_C)},
          {"hottest", hottestJson(thermal.trace)},
          {"hottest_back", hottestJson(thermal.backTrace)},
          {"flatness", flatnessJson(thermal.flatness)},
          {"limits", list(thermal.limits, limitJson)},
          {"warp_index", number(thermal.warpIndex)},
          {"worst_margin", number(thermal.worstMargin)}};
}

Json finishJson(const FinishResult& finish) {
  return {{"melt_fluence_J_cm2", number(finish.meltFluence_J_m2, J_cm2)},
          {"melts", orNull(finish.melts)},
          {"melt_depth_um", number(finish.meltDepth_m, units::um)},
          {"etch_um", number(finish.etch_m, units::um)}};
}

Json costItemJson(const CostItem& item) { return {{"name", item.name}, {"amount", number(item.amount)}}; }

Json otherWayJson(const OtherWay& way) {
  return {{"name", way.name},         {"work_s", number(way.work_s)}, {"wait_s", number(way.wait_s)},
          {"cost", number(way.cost)}, {"drawback", way.drawback},     {"source", "common practice, no source"}};
}

/// The keys without "planned" or "needed" are of the passes planned; their ranges, by the same keys, of the passes needed.
Json jobJson(const JobResult& job) {
  const auto needed = [&](auto value) { return job.needed ? number(value(*job.needed)) : Json(nullptr); };
  return {{"area_cm2", number(job.area_m2, units::cm2)},
          {"beam_time_s", number(job.beamTime_s)},
          {"total_time_s", number(job.totalTime_s)},
          {"energy_kWh", number(job.energy_J, kWh)},
          {"cost", number(job.cost)},
          {"cost_items", list(job.costItems, costItemJson)},
          {"beam_time_planned_s", number(job.beamTime_s)},
          {"total_time_planned_s", number(job.totalTime_s)},
          {"cost_planned", number(job.cost)},
          {"beam_time_needed_s", needed([](const JobNeeds& needs) { return needs.beamTime_s; })},
          {"total_time_needed_s", needed([](const JobNeeds& needs) { return needs.totalTime_s; })},
          {"cost_needed", needed([](const JobNeeds& needs) { return needs.cost; })},
          {"minutes_per_A4", number(job.secondsPerA4, units::minutes)},
          {"other_ways", list(job.otherWays, otherWayJson)}};
}

Json airJson(const AirResult& air) {
  return {{"removed_g", number(air.removed_kg, gram)},
          {"fume_g_min", number(air.fume_kg_s, gram_min)},
          {"hazards", list(air.hazards, [](const Hazard& hazard) { return hazard.text; })}};
}

Json precautionJson(const Precaution& one) {
  return {{"id", one.id},
          {"what", one.what},
          {"todo", one.todo},
          {"stops", one.stops},
          {"settled_by", one.cleared ? Json(one.cleared->by) : Json(nullptr)},
          {"settled_on", one.cleared ? Json(one.cleared->date) : Json(nullptr)},
          {"note", one.cleared ? Json(one.cleared->note) : Json(nullptr)}};
}

Json precautionsJson(const std::vector<Precaution>& all) {
  return {{"open", openCount(all)}, {"open_stops", openStops(all).size()}, {"items", list(all, precautionJson)}};
}

Json eyesJson(const EyesResult& eyes) {
  return {{"hazard_distance_m", number(eyes.hazardDistance_m)},
          {"diffuse_distance_m", number(eyes.diffuseDistance_m)},
          {"optical_density", number(eyes.opticalDensity)}};
}

const char* statusWord(Status status) {
  switch (status) {
    case Status::Meets: return "meets";
    case Status::Near: return "near";
    case Status::Fails: return "fails";
    case Status::NotKnown: break;
  }
  return "unknown";
}

Json verdictJson(const VerdictRow& row) {
  return {{"check", row.check},
          {"question", row.question},
          {"status", statusWord(row.status)},
          {"message", row.message},
          {"remedy", row.remedy.empty() ? Json(nullptr) : Json(row.remedy)}};
}

Json findOutJson(const FindOutNext& next) { return {{"what", next.what}, {"how", next.how}, {"narrows", next.narrows}}; }

Json workingJson(const Working& working) {
  return {{"key", working.key},
          {"name", working.name},
          {"formula", working.formula},
          {"values", Json(working.values)},
          {"source", working.source}};
}

}  // namespace

std::string writeAssessment(const Assessment& assessment) {
  return jsonText({{"plan", assessment.plan},
                   {"machine", assessment.machine},
                   {"answer", assessment.answer},
                   {"beam", beamJson(assessment.beam)},
                   {"overlap", overlapJson(assessment.overlap)},
                   {"dose", doseJson(assessment.dose)},
                   {"removal", removalJson(assessment.removal)},
                   {"thermal", thermalJson(assessment.thermal)},
                   {"finish", finishJson(assessment.finish)},
                   {"job", jobJson(assessment.job)},
                   {"air", airJson(assessment.air)},
                   {"eyes", eyesJson(assessment.eyes)},
                   {"before_beam", precautionsJson(assessment.precautions)},
                   {"ranges", rangesJson(assessment)},
                   {"sampling", samplingJson(assessment.ranges)},
                   {"verdict", list(assessment.verdict, verdictJson)},
                   {"find_out_next", list(assessment.findOutNext, findOutJson)},
                   {"workings", list(assessment.workings, workingJson)},
                   {"model", {{"version", modelVersion}, {"notes", Json(assessment.notes)}}}});
}

}  // namespace bw
