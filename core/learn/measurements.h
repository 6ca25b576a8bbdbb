// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/caustic_fit.h"
#include "core/learn/delivered_power.h"
#include "core/learn/energy_ceiling.h"
#include "core/learn/proportion.h"
#include "core/learn/spot_fit.h"
#include "core/learn/turnaround.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// Marks made at one focus offset.
struct MarkSeries {
  double focusOffset_m = 0;
  std::vector<Mark> marks;
};

/// A frame of back-and-forth lines as it was timed: its time and its lines, or the lines in a second.
struct FrameTime {
  double width_m = 0;
  double scanSpeed_m_s = 0;
  std::optional<int> lines;
  std::optional<double> frameTime_s;
  std::optional<double> uncertainty_s;  // of the frame's time
  std::optional<double> linesPerSecond;
  bool oneWay = false;
};

/// Mean power against repetition rate at one pulse duration.
struct RateSeries {
  std::optional<double> pulseDuration_s;
  std::vector<RateReading> readings;
};

/// Everything an operator measured on one machine. Whatever is empty was not measured.
struct Measurements {
  std::vector<MarkSeries> marks;
  std::vector<Plane> diameters;  // 1/e2 diameters known otherwise; positions are focus offsets
  std::vector<Dialled> widths;
  std::vector<Dialled> heights;
  std::vector<FrameTime> frameTimes;
  std::vector<PowerReading> powers;
  std::vector<RateSeries> rates;
  double meterUncertainty = 0;           // of the power meter, share of the reading
  std::optional<std::string> checkedOn;  // when, ISO 8601
};

}  // namespace bw
