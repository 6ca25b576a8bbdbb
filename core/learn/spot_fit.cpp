// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/spot_fit.h"

#include "core/learn/entries.h"
#include "core/learn/fit.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

using Eigen::Vector2d;

/// Marks that were left, as logarithm of the dose about its mean against width.
struct LiuPlot {
  std::vector<double> logDose;
  std::vector<Measured> width_m;
  std::vector<std::size_t> number;  // as entered
  double middle = 0;                // subtracted from the logarithms, which keeps the fit well conditioned
};

std::string dosesNamed(const std::vector<Mark>& marks, MarkDose& dose) {
  const auto all = [&](auto given) { return std::ranges::all_of(marks, given); };
  const bool energies = all([](const Mark& m) { return m.pulseEnergy_J && !m.power_W && !m.speed_m_s; });
  const bool lines = all([](const Mark& m) { return !m.pulseEnergy_J && m.power_W && m.speed_m_s; });
  const bool powers = all([](const Mark& m) { return !m.pulseEnergy_J && m.power_W && !m.speed_m_s; });
  dose = energies ? MarkDose::PulseEnergy : lines ? MarkDose::LineEnergy : MarkDose::Power;
  if (energies || lines || powers) return "";
  return "the marks do not all name the same: for each a pulse energy, or for each a power, or for each a power and a speed is accepted";
}

std::string badMark(std::size_t i, const Mark& mark) {
  const Measured& width = mark.width_m;
  return firstOf({mark.pulseEnergy_J ? notAbove0(i, *mark.pulseEnergy_J, "pulse energy") : "",
                  mark.power_W ? notAbove0(i, *mark.power_W, "power") : "", mark.speed_m_s ? notAbove0(i, *mark.speed_m_s, "speed") : "",
                  width.value == 0 ? "" : badReading(i, width, "width")});
}

double logDoseOf(const Mark& mark) {
  if (mark.pulseEnergy_J) return std::log(*mark.pulseEnergy_J);
  return std::log(*mark.power_W) - (mark.speed_m_s ? std::log(*mark.speed_m_s) : 0);
}

LiuPlot plotOf(const std::vector<Mark>& marks) {
  LiuPlot plot;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    if (marks[i].width_m.value == 0) continue;
    plot.number.push_back(i);
    plot.logDose.push_back(logDoseOf(marks[i]));
    plot.width_m.push_back(marks[i].width_m);
    plot.middle += plot.logDose.back();
  }
  plot.middle /= std::max(1.0, static_cast<double>(plot.logDose.size()));
  for (double& x : plot.logDose) x -= plot.middle;
  return plot;
}

std::string tooFew(const LiuPlot& plot) {
  std::vector<double> widths;
  for (const Measured& width : plot.width_m) widths.push_back(width.value);
  const std::size_t count = widths.size();
  if (count < 2 || (count == 2 && !allStated(plot.width_m))) {
    return readings(count) + " with a mark cannot tell the spot; three at different powers are needed, six are better";
  }
  std::vector<double> doses;
  for (const double x : plot.logDose) doses.push_back(std::exp(x));
  if (differing(doses) < 2) return "all marks were made at the same power; the power has to differ from mark to mark";
  if (differing(widths) < 2) return "all widths are alike: nothing learnt; a wider span of power, down to where the mark ends, tells more";
  return "";
}

/// Where a + b x = 0, by Fieller's theorem. Precondition: b differs from 0 by more than its reach.
Range zeroOf(const Fit& line) {
  const double a = line.values[0];
  const double b = line.values[1];
  const Eigen::Matrix2d v = line.covariance * line.reach * line.reach;
  const double square = b * b - v(1, 1);
  const double half = a * b - v(0, 1);
  const double root = std::sqrt(std::max(0.0, half * half - square * (a * a - v(0, 0))));
  return {(-half - root) / square, -a / b, (-half + root) / square};
}

/// Half the span of the logarithm of the fluence below, first order in a and b.
double logFluenceHalf(const Fit& line, MarkDose dose) {
  const double a = line.values[0];
  const double b = line.values[1];
  return line.half(Vector2d(-1 / b, a / (b * b) - (dose == MarkDose::PulseEnergy ? 1 : 0.5) / b));
}

/// Spots: F = 2 Eth/(pi w^2); lines: sqrt(2/pi) (P/v)th/w; w^2 = b/2.
std::optional<Range> fluenceOf(const Fit& line, double middle, MarkDose dose) {
  if (dose == MarkDose::Power) return std::nullopt;
  const double b = line.values[1];
  const double threshold = std::exp(middle - line.values[0] / b);
  const bool spots = dose == MarkDose::PulseEnergy;
  const double fluence = spots ? 4 * threshold / (std::numbers::pi * b) : 2 * threshold / std::sqrt(std::numbers::pi * b);
  return factorRange(fluence, logFluenceHalf(line, dose));
}

/// The widths the line gives, evenly in the logarithm of the dose.
FittedCurve curveOf(const Fit& line, const LiuPlot& plot, double logThreshold) {
  constexpr int steps = 60;
  const double from = std::min(logThreshold, std::ranges::min(plot.logDose)), to = std::ranges::max(plot.logDose);
  FittedCurve curve;
  for (int i = 0; i <= steps; ++i) {
    const double x = std::lerp(from, to, static_cast<double>(i) / steps);
    const double square = line.values[0] + line.values[1] * x, half = line.half(Vector2d(1, x));
    const auto width = [](double d2) { return std::sqrt(std::max(0.0, d2)); };
    curve.push_back({std::exp(plot.middle + x), {width(square - half), width(square), width(square + half)}});
  }
  return curve;
}

void remarkOn(const std::vector<Mark>& marks, const LiuPlot& plot, const Range& logThreshold, std::vector<std::string>& remarks) {
  const std::size_t count = plot.logDose.size();
  if (count < 5) remarks.push_back(readings(count) + ": the range is wide; six or more narrow it");
  const auto [low, high] = std::ranges::minmax(plot.logDose);
  if (high - low < std::log(2.0)) remarks.push_back("the powers lie within a factor of two: a wider span narrows the range");
  const std::size_t blank = marks.size() - count;
  if (blank > 0) remarks.push_back(readings(blank) + " left no mark and did not go into the line");
  const auto odd = [&](const Mark& m) { return m.width_m.value == 0 && logDoseOf(m) - plot.middle > logThreshold.high; };
  if (std::ranges::any_of(marks, odd))
    remarks.push_back("one left no mark although the others say it should: the material or the power varied");
}

}  // namespace

Learnt<SpotFit> fitSpot(const std::vector<Mark>& marks) {
  Learnt<SpotFit> learnt;
  SpotFit spot;
  if (marks.empty()) return {{}, "no marks were entered", {}};
  learnt.problem = dosesNamed(marks, spot.dose);
  for (std::size_t i = 0; i < marks.size() && learnt.problem.empty(); ++i) learnt.problem = badMark(i, marks[i]);
  if (!learnt.problem.empty()) return learnt;
  const LiuPlot plot = plotOf(marks);
  learnt.problem = tooFew(plot);
  if (!learnt.problem.empty()) return learnt;

  Eigen::MatrixXd x(plot.logDose.size(), 2);
  x.col(0).setOnes();
  x.col(1) = Eigen::Map<const Eigen::VectorXd>(plot.logDose.data(), x.rows());
  const Fit line = fitSquare(x, plot.width_m);
  learnt.remarks = remarksOn(line, plot.number);
  const Range slope = line.range(1);
  if (slope.likely <= 0)
    learnt.problem = "the marks do not widen as the power grows: nothing learnt; were readings swapped?";
  else if (!(slope.low > 0))
    learnt.problem = "the marks widen too little for how they scatter: nothing learnt; more marks over a wider span are needed";
  if (!learnt.problem.empty()) return learnt;
  const Range zero = zeroOf(line);
  const double fluenceHalf = logFluenceHalf(line, spot.dose);
  if (!(zero.likely - zero.low < mostLogHalf && zero.high - zero.likely < mostLogHalf && fluenceHalf < mostLogHalf)) {
    learnt.problem = "the marks lie too far from where they end: nothing learnt; more marks at lower power are needed";
    return learnt;
  }
  spot.diameter_m = {std::sqrt(2 * slope.low), std::sqrt(2 * slope.likely), std::sqrt(2 * slope.high)};
  spot.threshold = {std::exp(plot.middle + zero.low), std::exp(plot.middle + zero.likely), std::exp(plot.middle + zero.high)};
  spot.thresholdFluence_J_m2 = fluenceOf(line, plot.middle, spot.dose);
  spot.curve = curveOf(line, plot, zero.likely);
  remarkOn(marks, plot, zero, learnt.remarks);
  learnt.value = spot;
  return learnt;
}

}  // namespace bw
