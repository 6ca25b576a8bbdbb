// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/proportion.h"

#include "core/learn/entries.h"
#include "core/learn/fit.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

std::size_t settingsIn(const std::vector<Dialled>& given) {
  std::vector<double> settings;
  for (const Dialled& reading : given) settings.push_back(reading.dialled);
  return differing(settings);
}

std::vector<Measured> measuredOf(const std::vector<Dialled>& given) {
  std::vector<Measured> measured;
  for (const Dialled& reading : given) measured.push_back(reading.measured);
  return measured;
}

std::string entered(const std::vector<Dialled>& given, double full, const char* noun) {
  if (given.empty()) return std::string("no ") + noun + " was entered";
  for (std::size_t i = 0; i < given.size(); ++i) {
    const std::string wrong = firstOf({notAbove0(i, given[i].dialled, "setting"), badReading(i, given[i].measured, noun)});
    if (!wrong.empty()) return wrong;
  }
  if (!notAbove0(0, full, "setting").empty()) return "the full setting is no number above 0";
  if (given.size() == 1 && !allStated(measuredOf(given))) {
    return "one reading does not tell how sure it is: read again, or state its uncertainty";
  }
  return "";
}

/// Dialled values in units of `full`, which keeps the columns of the fit alike.
Fit lineOf(const std::vector<Dialled>& given, double full) {
  Eigen::MatrixXd x(given.size(), 2);
  for (std::size_t i = 0; i < given.size(); ++i) x.row(static_cast<Eigen::Index>(i)) << 1, given[i].dialled / full;
  return fitLinear(x, measuredOf(given));
}

constexpr int curveSteps = 24;

double curveEnd(const std::vector<Dialled>& given, double full) {
  return std::max(full, std::ranges::max(given, {}, &Dialled::dialled).dialled);
}

FittedCurve curveOf(const Fit& line, double full, double end) {
  FittedCurve curve;
  for (int i = 0; i <= curveSteps; ++i) {
    const double x = end * i / curveSteps, y = line.values[0] + line.values[1] * x / full;
    const double half = line.half(Eigen::Vector2d(1, x / full));
    curve.push_back({x, {y - half, y, y + half}});
  }
  return curve;
}

}  // namespace

Measured shareOf(const Dialled& reading) {
  Measured share{reading.measured.value / reading.dialled, reading.measured.uncertainty};
  if (share.uncertainty) *share.uncertainty /= reading.dialled;
  return share;
}

Learnt<Proportion> fitProportion(const std::vector<Dialled>& given, double full, const char* noun) {
  Learnt<Proportion> learnt;
  learnt.problem = entered(given, full, noun);
  if (!learnt.problem.empty()) return learnt;
  Proportion found;
  const std::size_t settings = settingsIn(given);
  if (settings >= 3) {
    const Fit line = lineOf(given, full);
    learnt.remarks = remarksOn(line);
    found.gain = line.range(1) * (1 / full);
    found.offset = line.range(0);
    const double atFull = line.values[0] + line.values[1];
    const double half = line.half(Eigen::Vector2d(1, 1));
    found.atFull = {atFull - half, atFull, atFull + half};
    found.curve = curveOf(line, full, curveEnd(given, full));
  } else {
    std::vector<Measured> shares;
    for (const Dialled& reading : given) shares.push_back(shareOf(reading));
    found.gain = meanOf(shares, learnt.remarks);
    found.atFull = found.gain * full;
    found.curve = {{0, Range::exact(0)}, {curveEnd(given, full), found.gain * curveEnd(given, full)}};
    learnt.remarks.push_back(std::string(settings == 1 ? "one setting" : "two settings") + ": an offset cannot be told and is taken as 0");
  }
  if (given.size() < 4) learnt.remarks.push_back(readings(given.size()) + ": more of them narrow the range and show a bad one");
  if (found.gain.likely <= 0)
    learnt.problem = std::string("the ") + noun + " does not grow with its setting: nothing learnt; were readings swapped?";
  else if (!(found.gain.low > 0 && found.atFull.low > 0))
    learnt.problem = "the readings scatter too much: nothing learnt; more of them are needed";
  if (learnt.problem.empty()) learnt.value = found;
  return learnt;
}

}  // namespace bw
