// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/extras.h"
#include "core/values/range.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// The path the head draws inside its scan frame; rules in scan/frame.h.
enum class Pattern { Line, Sine, Raster, Crossed, Circles, Spiral, TwoSine };

/// In which order the hand lays a pass's swaths: each beside the last, or first every second one and then those between.
enum class SwathOrder { SideBySide, EverySecond };

/// Everything the operator dials for one step. Axes: scan lines run along x, stacked along y.
struct Settings {
  double powerFraction = 1;  // of the rated power, 0..1
  double repetitionRate_Hz = 0;
  double pulseDuration_s = 0;
  double focusOffset_m = 0;
  double dutyFraction = 1;
  Pattern pattern = Pattern::Raster;
  double width_m = 0;   // length of a scan line
  double height_m = 0;  // stack of lines
  double scanSpeed_m_s = 0;
  double lineSpacing_m = 0;
  std::optional<double> oscillationRate_Hz;  // sine and two-sine
  bool oneWay = false;
  double edgeTrim_m = 0;  // beam off within this distance of a line's ends
  bool beamOffInTurns = false;
  double travelSpeed_m_s = 0;
  double travelAngle_rad = 1.5707963267948966;  // from +x; a quarter turn: across the lines
  double stepOver_m = 0;                        // between swaths, across the travel
  SwathOrder swathOrder = SwathOrder::SideBySide;
  int passes = 1;
  double pause_s = 0;  // after each pass
  Extras extras;
  bool operator==(const Settings&) const = default;
};

/// One machine and its settings over some areas.
struct Step {
  std::string name;
  std::string machine;
  std::optional<std::string> optic;
  std::vector<std::string> areas;  // empty: all
  Settings settings;
  std::optional<std::string> until;   // name of the layer this step ends at
  std::optional<std::string> before;  // what is done by hand first
  Extras extras;
  bool operator==(const Step&) const = default;
};

enum class HandState { Fresh, Normal, Tired, Overhead };

struct Hand {
  HandState state = HandState::Normal;
  std::optional<double> speedWander;  // relative standard deviation of the travel speed; see scan/wander.h
  std::optional<int> wanderSeed;
  Extras extras;
  bool operator==(const Hand&) const = default;
};

/// A stage of an extraction's filters.
enum class Filter { SparkTrap, FineDust, Gas };

struct Extraction {
  bool on = false;
  std::optional<double> flow_m3_s;
  std::vector<Filter> filters;  // empty: not known
  Extras extras;
  bool operator==(const Extraction&) const = default;
};

/// How a part shall be stripped. Without `steps` it is one step over all areas with `machine` and `settings`.
struct Plan {
  std::string name;
  std::string machine;
  Settings settings;
  std::vector<Step> steps;
  std::optional<Hand> hand;
  std::optional<bool> airKnife;
  std::optional<Extraction> extraction;
  std::optional<double> coolTo_C;
  Extras extras;
  bool operator==(const Plan&) const = default;
};

/// What was measured on a proof patch; `kind` names its unit, e.g. "thickness_before_um".
struct Reading {
  std::string kind;
  double value = 0;
  std::optional<double> uncertainty;
  Extras extras;
  bool operator==(const Reading&) const = default;
};

enum class Seen { Cleared, Patchy, Not, Residue, Tint, Stripes };

/// A proof patch that was really done.
struct Trial {
  std::string date;  // ISO 8601
  std::string where;
  Settings settings;
  std::vector<double> patch_m;
  std::vector<Reading> readings;
  std::vector<Seen> seen;
  std::string note;
  std::string initials;
  Extras extras;
  bool operator==(const Trial&) const = default;
};

}  // namespace bw
