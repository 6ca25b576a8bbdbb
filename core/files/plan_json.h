// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How plans and trials stand in a file. See part_json.h.

#include "core/files/json_io.h"
#include "core/files/part_json.h"
#include "core/values/plan.h"
#include "core/values/setting_bounds.h"
#include "core/values/shop_bounds.h"

namespace bw {

inline const Words<Pattern> patterns{"a pattern",
                                     {{Pattern::Line, "line"},
                                      {Pattern::Sine, "sine"},
                                      {Pattern::Raster, "raster"},
                                      {Pattern::Crossed, "crossed"},
                                      {Pattern::Circles, "circles"},
                                      {Pattern::Spiral, "spiral"},
                                      {Pattern::TwoSine, "two-sine"}}};
inline const Words<SwathOrder> swathOrders{"an order of swaths",
                                          {{SwathOrder::SideBySide, "side-by-side"}, {SwathOrder::EverySecond, "every-second"}}};
inline const Words<HandState> handStates{"a state of the hand",
                                         {{HandState::Fresh, "fresh"},
                                          {HandState::Normal, "normal"},
                                          {HandState::Tired, "tired"},
                                          {HandState::Overhead, "overhead"}}};
inline const Words<Seen> sights{"what can be seen",
                                {{Seen::Cleared, "cleared"},
                                 {Seen::Patchy, "patchy"},
                                 {Seen::Not, "not"},
                                 {Seen::Residue, "residue"},
                                 {Seen::Tint, "tint"},
                                 {Seen::Stripes, "stripes"}}};

inline const Words<Filter> filterWords{"a filter",
                                       {{Filter::SparkTrap, "spark-trap"}, {Filter::FineDust, "fine-dust"}, {Filter::Gas, "gas"}}};

/// A setting with its bounds in the file's unit.
constexpr FileQuantity settingOf(const char* noun, const FileUnit& unit, const SettingBounds& bounds, Bound bound = Bound::From) {
  return {noun, unit, unit.fromSi(bounds.low), unit.fromSi(bounds.high), bound};
}

inline constexpr FileQuantity percentage = settingOf("a percentage", units::percent, bounds::share);
inline constexpr FileQuantity repetitionRate = settingOf("a repetition rate", units::kHz, bounds::repetitionRate_Hz);
inline constexpr FileQuantity setDuration{"a pulse duration", units::ns, 0, 1e9};
inline constexpr FileQuantity focusOffset = settingOf("a focus offset", units::mm, bounds::focusOffset_m);
inline constexpr FileQuantity frameWidth = settingOf("a width", units::mm, bounds::frameWidth_m, Bound::Above);
inline constexpr FileQuantity frameHeight = settingOf("a height", units::mm, bounds::frameHeight_m);
inline constexpr FileQuantity scanSpeed = settingOf("a scan speed", units::mm_s, bounds::scanSpeed_m_s);
inline constexpr FileQuantity lineSpacing = settingOf("a line spacing", units::mm, bounds::lineSpacing_m);
inline constexpr FileQuantity oscillationRate = settingOf("an oscillation rate", units::Hz, bounds::oscillationRate_Hz, Bound::Above);
inline constexpr FileQuantity edgeTrim = settingOf("an edge trim", units::mm, bounds::edgeTrim_m);
inline constexpr FileQuantity travelSpeed = settingOf("a travel speed", units::mm_s, bounds::travelSpeed_m_s);
inline constexpr FileQuantity travelAngle = settingOf("an angle", units::deg, bounds::travelAngle_rad);
inline constexpr FileQuantity stepOver = settingOf("a step-over", units::mm, bounds::stepOver_m);
inline constexpr Whole passCount{"a number of passes", bounds::fewestPasses, bounds::mostPlannedPasses};
inline constexpr FileQuantity speedWander = settingOf("a wander of the speed", units::percent, bounds::speedWander);
inline constexpr Whole seedNumber{"a seed", 0, 1000000};
inline constexpr FileQuantity pauseTime = settingOf("a pause", units::s, bounds::pause_s);
inline constexpr FileQuantity airFlow = settingOf("an air flow", units::m3_h, bounds::airFlow_m3_s);
inline constexpr FileQuantity anyValue{"a reading", units::none, -1e12, 1e12};
inline constexpr FileQuantity uncertainty{"an uncertainty", units::none, 0, 1e12};
inline constexpr FileQuantity patchSize{"a patch size", units::mm, 0, 100000, Bound::Above};

template <class Io>
void describe(Io& io, Settings& settings) {
  io.usual("power_percent", settings.powerFraction, percentage);
  io.usual("repetition_rate_kHz", settings.repetitionRate_Hz, repetitionRate);
  io.usual("pulse_duration_ns", settings.pulseDuration_s, setDuration);
  io.usual("focus_offset_mm", settings.focusOffset_m, focusOffset);
  io.usual("duty_percent", settings.dutyFraction, percentage);
  io.usual("pattern", settings.pattern, patterns);
  io.must("width_mm", settings.width_m, frameWidth);
  io.usual("height_mm", settings.height_m, frameHeight);
  io.usual("scan_speed_mm_s", settings.scanSpeed_m_s, scanSpeed);
  io.usual("line_spacing_mm", settings.lineSpacing_m, lineSpacing);
  io.may("oscillation_rate_Hz", settings.oscillationRate_Hz, oscillationRate);
  io.usual("one_way", settings.oneWay);
  io.usual("edge_trim_mm", settings.edgeTrim_m, edgeTrim);
  io.usual("beam_off_in_turns", settings.beamOffInTurns);
  io.usual("travel_speed_mm_s", settings.travelSpeed_m_s, travelSpeed);
  io.usual("travel_angle_deg", settings.travelAngle_rad, travelAngle);
  io.usual("step_over_mm", settings.stepOver_m, stepOver);
  io.usual("swath_order", settings.swathOrder, swathOrders);
  io.usual("passes", settings.passes, passCount);
  io.usual("pause_s", settings.pause_s, pauseTime);
  io.rest(settings.extras);
}

template <class Io>
void describe(Io& io, Step& step) {
  io.usual("name", step.name, shortText);
  io.must("machine", step.machine, idText);
  io.may("optic", step.optic, idText);
  io.may("areas", step.areas, nameText);
  io.must("settings", step.settings);
  io.may("until", step.until, shortText);
  io.may("before", step.before, shortText);
  io.rest(step.extras);
}

template <class Io>
void describe(Io& io, Hand& hand) {
  io.usual("state", hand.state, handStates);
  io.may("speed_wander_percent", hand.speedWander, speedWander);
  io.may("wander_seed", hand.wanderSeed, seedNumber);
  io.rest(hand.extras);
}

template <class Io>
void describe(Io& io, Extraction& extraction) {
  io.usual("on", extraction.on);
  io.may("flow_m3_h", extraction.flow_m3_s, airFlow);
  io.may("filters", extraction.filters, filterWords);
  io.rest(extraction.extras);
}

template <class Io>
void describe(Io& io, Plan& plan) {
  io.must("name", plan.name, nameText);
  io.may("steps", plan.steps);
  if (plan.steps.empty()) {
    io.must("machine", plan.machine, idText);
    io.must("settings", plan.settings);
  } else {
    io.may("machine", plan.machine, idText);
    io.may("settings", plan.settings);
  }
  io.may("hand", plan.hand);
  io.may("air_knife", plan.airKnife);
  io.may("extraction", plan.extraction);
  io.may("cool_to_C", plan.coolTo_C, partTemperature);
  io.rest(plan.extras);
}

template <class Io>
void describe(Io& io, Reading& reading) {
  io.must("kind", reading.kind, idText);
  io.must("value", reading.value, anyValue);
  io.may("uncertainty", reading.uncertainty, uncertainty);
  io.rest(reading.extras);
}

template <class Io>
void describe(Io& io, Trial& trial) {
  io.usual("date", trial.date, shortText);
  io.usual("where", trial.where, shortText);
  io.may("settings", trial.settings);
  io.may("patch_mm", trial.patch_m, patchSize);
  io.may("readings", trial.readings);
  io.may("seen", trial.seen, sights);
  io.may("note", trial.note);
  io.may("initials", trial.initials, shortText);
  io.rest(trial.extras);
}

}  // namespace bw
