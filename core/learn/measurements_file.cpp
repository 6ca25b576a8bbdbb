// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/measurements_file.h"

#include "core/files/machine_json.h"
#include "core/files/plan_json.h"

namespace bw {

namespace {

constexpr FileUnit ms{"ms", 1, 1e3};

// Zero and less are refused where the values are worked out, with the reading's number; here only what cannot be a number of that kind.
constexpr FileQuantity markWidth{"a width", units::um, 0, 1e5};
constexpr FileQuantity lengthError{"an uncertainty", units::um, 0, 1e5, Bound::Above};
constexpr FileQuantity sizeError{"an uncertainty", units::mm, 0, 1e4, Bound::Above};
constexpr FileQuantity timeError{"an uncertainty", ms, 0, 1e7, Bound::Above};
constexpr FileQuantity powerError{"an uncertainty", units::W, 0, 1e5, Bound::Above};
constexpr FileQuantity offset{"a focus offset", units::mm, -1e4, 1e4};
constexpr FileQuantity size{"a size", units::mm, 0, 1e4, Bound::Above};
constexpr FileQuantity frameTime{"a time", ms, 0, 1e7, Bound::Above};
constexpr FileQuantity lineRate{"a number of lines", units::none, 0, 1e6, Bound::Above};
constexpr FileQuantity dialled{"a setting", units::percent, 0, 100, Bound::Above};
constexpr FileQuantity meterShare{"an uncertainty", units::percent, 0, 99};
constexpr FileQuantity usedRate{"a rate", units::kHz, 0, 1e5, Bound::Above};
constexpr Whole lineNumber{"a number of lines", 1, 1000000};

}  // namespace

static void describe(Reader& io, Mark& mark) {
  io.may("pulse_energy_mJ", mark.pulseEnergy_J, pulseEnergy);
  io.may("power_W", mark.power_W, power);
  io.may("speed_mm_s", mark.speed_m_s, headSpeed);
  io.must("width_um", mark.width_m.value, markWidth);
  io.may("uncertainty_um", mark.width_m.uncertainty, lengthError);
  io.nothingElse();
}

static void describe(Reader& io, MarkSeries& series) {
  io.may("focus_offset_mm", series.focusOffset_m, offset);
  io.may("readings", series.marks);
  io.nothingElse();
}

static void describe(Reader& io, Plane& plane) {
  io.must("focus_offset_mm", plane.position_m, offset);
  io.must("diameter_um", plane.diameter_m.value, spot);
  io.may("uncertainty_um", plane.diameter_m.uncertainty, lengthError);
  io.nothingElse();
}

static void describe(Reader& io, Dialled& reading) {
  io.must("dialled_mm", reading.dialled, size);
  io.must("measured_mm", reading.measured.value, size);
  io.may("uncertainty_mm", reading.measured.uncertainty, sizeError);
  io.nothingElse();
}

static void describe(Reader& io, FrameTime& frame) {
  io.must("width_mm", frame.width_m, size);
  io.must("scan_speed_mm_s", frame.scanSpeed_m_s, headSpeed);
  io.may("lines_per_s", frame.linesPerSecond, lineRate);
  if (frame.linesPerSecond) {
    io.may("one_way", frame.oneWay);
  } else {
    io.must("lines", frame.lines.emplace(), lineNumber);
    io.must("frame_time_ms", frame.frameTime_s.emplace(), frameTime);
    io.may("uncertainty_ms", frame.uncertainty_s, timeError);
    io.may("one_way", frame.oneWay);
  }
  io.nothingElse();
}

static void describe(Reader& io, PowerReading& reading) {
  io.must("dialled_percent", reading.dialledShare, dialled);
  io.must("measured_W", reading.atPart_W.value, power);
  io.may("uncertainty_W", reading.atPart_W.uncertainty, powerError);
  io.may("before_optics_W", reading.beforeOptics_W, power);
  io.nothingElse();
}

static void describe(Reader& io, RateReading& reading) {
  io.must("repetition_rate_kHz", reading.repetitionRate_Hz, usedRate);
  io.must("measured_W", reading.power_W.value, power);
  io.may("uncertainty_W", reading.power_W.uncertainty, powerError);
  io.nothingElse();
}

static void describe(Reader& io, RateSeries& series) {
  io.may("pulse_duration_ns", series.pulseDuration_s, pulseDuration);
  io.may("readings", series.readings);
  io.nothingElse();
}

static void describe(Reader& io, MeasuredMachine& file) {
  if (!io.header("barewright-measurements", 1)) return;
  Measurements& measured = file.measurements;
  io.must("machine", file.machine);
  io.may("marks", measured.marks);
  io.may("diameters", measured.diameters);
  io.may("widths", measured.widths);
  io.may("heights", measured.heights);
  io.may("frame_times", measured.frameTimes);
  io.may("powers", measured.powers);
  io.may("rates", measured.rates);
  io.may("meter_uncertainty_percent", measured.meterUncertainty, meterShare);
  io.may("checked_on", measured.checkedOn, shortText);
  io.nothingElse();
}

MeasuredMachine readMeasurements(std::string_view text) {
  Problems problems;
  MeasuredMachine file;
  const Json json = parseJson(text, problems);
  if (problems.empty()) readJson(json, "$", file, problems);
  if (!problems.empty()) throw FileError(summary(problems.list()));
  return file;
}

}  // namespace bw
