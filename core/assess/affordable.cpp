// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/affordable.h"

#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw::affordable {

namespace {

/// Near enough to tell what a frame costs without building it.
struct Estimate {
  double lines = 0;
  double period_s = 0;
};

Estimate estimateOf(const Settings& s, double turnaround_s) {
  if (isRound(s.pattern)) {
    const double rings = s.width_m / 2 / s.lineSpacing_m;
    return {rings, rings * (std::numbers::pi * s.width_m / 2 / s.scanSpeed_m_s + turnaround_s)};
  }
  const double lines = s.height_m / s.lineSpacing_m + 1, across = s.width_m / s.lineSpacing_m + 1;
  if (s.pattern == Pattern::TwoSine) return {lines, lines / std::max(1e-9, s.oscillationRate_Hz.value_or(0))};
  const double back = s.oneWay ? 2 : 1;
  Estimate estimate{lines, back * lines * (s.width_m / s.scanSpeed_m_s + turnaround_s)};
  if (s.pattern != Pattern::Crossed) return estimate;
  return {lines + across, estimate.period_s + back * across * (s.height_m / s.scanSpeed_m_s + turnaround_s)};
}

bool does(const Work& work, double spotDiameter_m, double spacing_m) {
  Settings s = work.settings();
  s.lineSpacing_m = spacing_m;
  const Estimate frame = estimateOf(s, work.machine.scan.turnaround_s);
  const bool curves = isRound(s.pattern) || s.pattern == Pattern::TwoSine;
  const double onCurves = curves ? frame.period_s : frame.lines * work.machine.scan.turnaround_s;
  const double rows = frame.lines + (work.pulsed() ? onCurves * s.repetitionRate_Hz : onCurves * topScanSpeed_m_s(s) * 16 / spotDiameter_m);
  const RepeatCell cell{s.stepOver_m, s.travelSpeed_m_s * frame.period_s};
  return stretchCount(s) <= mostStretches && rows <= mostRows && cellCount(cell, longestStep_m(s, spotDiameter_m)) <= mostCells;
}

}  // namespace

double longestStep_m(const Settings& s, double spotDiameter_m) {
  return hasHeight(s.pattern) || isRound(s.pattern) ? std::min(spotDiameter_m / 8, s.lineSpacing_m / 4) : spotDiameter_m / 8;
}

double leastSpacing_m(const Work& work, double spotDiameter_m) {
  double low = work.settings().lineSpacing_m, high = std::max(low, work.settings().width_m);
  for (int i = 0; i < 40; ++i) {
    const double middle = std::sqrt(low * high);
    (does(work, spotDiameter_m, middle) ? high : low) = middle;
  }
  return high * 1.05;
}

std::string atMost(double value) {
  if (!(value > 0)) return "0";
  const double unit = std::pow(10.0, std::floor(std::log10(value)) - 1);
  return text::number(std::floor(value / unit * (1 + 1e-9)) * unit);
}

}  // namespace bw::affordable
