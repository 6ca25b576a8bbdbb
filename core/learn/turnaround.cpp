// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/turnaround.h"

#include "core/learn/entries.h"
#include "core/learn/fit.h"
#include "core/learn/quantiles.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr const char* notSteady =
    "the times do not follow length over speed: the turnaround changes with the speed, or the speed is not kept; several widths at one "
    "speed "
    "tell which";

double speed_m_s(const LineTime& line) { return line.speed_m_s; }

double drawing_s(const LineTime& line) { return line.length_m / line.speed_m_s; }

std::vector<double> valuesOf(const std::vector<LineTime>& lines, double (*of)(const LineTime&)) {
  std::vector<double> values;
  for (const LineTime& line : lines) values.push_back(of(line));
  return values;
}

std::string entered(const std::vector<LineTime>& lines) {
  if (lines.empty()) return "no frame time was entered";
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string wrong = firstOf({notAbove0(i, lines[i].length_m, "width"), notAbove0(i, lines[i].speed_m_s, "scan speed"),
                                       badReading(i, lines[i].time_s, "time of a line")});
    if (!wrong.empty()) return wrong;
  }
  if (lines.size() == 1 && !lines.front().time_s.uncertainty) {
    return "one frame time does not tell how sure it is: time more frames, or state the uncertainty";
  }
  return "";
}

double left_s(const LineTime& line) { return line.time_s.value - drawing_s(line); }

/// What is left beside length/speed against `of`, the latter in units of its greatest; only where it changes by more than chance does in
/// one of a hundred sets: taken more easily, the choice itself would spoil the range of the mean.
std::optional<Fit> trend(const std::vector<LineTime>& lines, double (*of)(const LineTime&)) {
  const std::vector<double> along = valuesOf(lines, of);
  if (lines.size() < 3 || differing(along) < 2) return std::nullopt;
  const double greatest = std::ranges::max(along);
  Eigen::MatrixXd x(lines.size(), 2);
  std::vector<Measured> left;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    x.row(static_cast<Eigen::Index>(i)) << 1, along[i] / greatest;
    left.push_back({left_s(lines[i]), lines[i].time_s.uncertainty});
  }
  Fit fit = fitLinear(x, left);
  const double wider = largestT(static_cast<int>(lines.size()) - 2, 100) / fit.reach;
  const double rounding = 1e-9 * std::ranges::max(valuesOf(lines, drawing_s));
  if (!(std::abs(fit.values[1]) > wider * fit.half(Eigen::Vector2d(0, 1)) + rounding)) return std::nullopt;
  return fit;
}

Range leftBesideDrawing(const std::vector<LineTime>& lines, std::vector<std::string>& remarks) {
  std::vector<Measured> left;
  for (const LineTime& line : lines) left.push_back({left_s(line), line.time_s.uncertainty});
  return meanOf(left, remarks);
}

std::string keepTimePhysical(Range& time, std::vector<std::string>& remarks) {
  if (time.high <= 0)
    return "the lines took less time than their length over the dialled speed: the head is faster than dialled, or lines were miscounted";
  if (time.low < 0) remarks.push_back("a turnaround below 0 is impossible; the range is cut there");
  time = {std::max(0.0, time.low), std::max(0.0, time.likely), time.high};
  return "";
}

}  // namespace

Learnt<TurnaroundFit> fitTurnaround(const std::vector<LineTime>& lines) {
  Learnt<TurnaroundFit> learnt;
  learnt.problem = entered(lines);
  if (!learnt.problem.empty()) return learnt;
  TurnaroundFit found;
  const bool oneSpeed = differing(valuesOf(lines, speed_m_s)) == 1;
  const std::optional<Fit> off = trend(lines, oneSpeed ? drawing_s : speed_m_s);
  const double greatest = std::ranges::max(valuesOf(lines, drawing_s));
  if (off && oneSpeed && off->range(1).low > -greatest) {
    const Range more = off->range(1);
    found.turnaround_s = off->range(0);
    found.speedShare = Range{greatest / (greatest + more.high), greatest / (greatest + more.likely), greatest / (greatest + more.low)};
    learnt.remarks = remarksOn(*off);
    learnt.remarks.push_back("the head moves at " + text::percent(found.speedShare->likely) + " of the dialled speed (" +
                             text::percent(found.speedShare->low) + " to " + text::percent(found.speedShare->high) + ")");
  } else {
    found.turnaround_s = leftBesideDrawing(lines, learnt.remarks);
    if (off) learnt.remarks.push_back(notSteady);
  }
  if (lines.size() < 4) learnt.remarks.push_back(readings(lines.size()) + ": more of them narrow the range and show a bad one");
  learnt.problem = keepTimePhysical(found.turnaround_s, learnt.remarks);
  if (learnt.problem.empty()) learnt.value = found;
  return learnt;
}

}  // namespace bw
