// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/machine_setup.h"

namespace bw {

/// What is plotted against what, in SI.
enum class FitKind {
  SpotByEnergy,      // diameter of a mark, m, against pulse energy, J
  SpotByLineEnergy,  // width of a line, m, against power over speed, J/m
  SpotByPower,       // width of a line, m, against power, W
  Caustic,           // diameter, m, against focus offset, m
  LitWidth,          // measured, m, against dialled, m
  LitHeight,
  Turnaround,  // time of a line beside length over speed, s, against its length, m
  Power,       // at the part, W, against dialled, W
  Ceiling,     // power, W, against repetition rate, Hz
};

struct ReadingPoint {
  double x = 0;
  Measured y;
};

/// One fit to be drawn: what was read, and the curve with its range. Without a curve the problem says why.
struct FitPicture {
  FitKind kind = FitKind::SpotByPower;
  std::optional<double> at;  // focus offset of marks in m, pulse duration of a ceiling in s
  std::vector<ReadingPoint> points;
  FittedCurve curve;
  std::string problem;
  std::vector<std::string> remarks;
};

/// Every fit behind the proposal, in its order. `proposal` must come from these measurements.
std::vector<FitPicture> picturesOf(const Machine& machine, const Measurements& measurements, const Proposal& proposal);

}  // namespace bw
