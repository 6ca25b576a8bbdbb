// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/energy_ceiling.h"

#include "core/learn/entries.h"
#include "core/learn/fit.h"
#include "core/learn/quantiles.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace bw {

namespace {

using Eigen::Index;

/// Logarithms of rate and power, by rising rate.
struct Curve {
  std::vector<double> rate;
  std::vector<Measured> power;
  std::vector<std::size_t> number;  // as entered
};

/// The first `rising` readings under the ceiling of energy, the others under that of power.
struct Corner {
  std::size_t rising = 0;
  Fit fit;  // ln E, ln P; one of them alone where there is no corner
  double misses = 0;
};

std::string entered(const std::vector<RateReading>& given, double meterUncertainty) {
  if (!(meterUncertainty >= 0 && meterUncertainty < 1)) return "the meter's uncertainty is no share from 0 to below 100 %";
  std::vector<double> rates;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const std::string wrong =
        firstOf({notAbove0(i, given[i].repetitionRate_Hz, "repetition rate"), badReading(i, given[i].power_W, "power")});
    if (!wrong.empty()) return wrong;
    rates.push_back(given[i].repetitionRate_Hz);
  }
  if (given.size() >= 3 && differing(rates) >= 3) return "";
  return readings(given.size()) + " at " + std::to_string(differing(rates)) +
         " rates cannot tell a ceiling; three rates are needed, six are better";
}

Curve curveOf(const std::vector<RateReading>& given) {
  Curve curve;
  curve.number.resize(given.size());
  std::iota(curve.number.begin(), curve.number.end(), 0);
  std::ranges::stable_sort(curve.number, {}, [&](std::size_t i) { return given[i].repetitionRate_Hz; });
  for (const std::size_t i : curve.number) {
    const RateReading& reading = given[i];
    curve.rate.push_back(std::log(reading.repetitionRate_Hz));
    Measured power{std::log(reading.power_W.value), reading.power_W.uncertainty};
    if (power.uncertainty) *power.uncertainty /= reading.power_W.value;
    curve.power.push_back(power);
  }
  return curve;
}

Corner cornerAfter(const Curve& curve, std::size_t rising) {
  const std::size_t count = curve.rate.size();
  const bool bent = rising > 0 && rising < count;
  Eigen::MatrixXd x = Eigen::MatrixXd::Zero(static_cast<Index>(count), bent ? 2 : 1);
  std::vector<Measured> y = curve.power;
  for (std::size_t i = 0; i < count; ++i) {
    x(static_cast<Index>(i), bent && i >= rising ? 1 : 0) = 1;
    if (i < rising) y[i].value -= curve.rate[i];
  }
  Corner corner{rising, fitLinear(x, y), 0};
  const bool weigh = allStated(curve.power);
  for (std::size_t i = 0; i < count; ++i) {
    const double rise = corner.fit.values[0] + curve.rate[i];
    const double level = corner.fit.values[bent ? 1 : 0];
    const double model = bent ? std::min(rise, level) : rising > 0 ? rise : level;
    corner.misses += std::pow((curve.power[i].value - model) / (weigh ? *curve.power[i].uncertainty : 1), 2);
  }
  return corner;
}

/// Whether a corner explains the readings better than none: F test, one more coefficient.
bool betterThan(const Corner& bent, const Corner& plain, std::size_t count, double negligible) {
  if (plain.misses <= negligible) return false;
  const int freedom = static_cast<int>(count) - 2;
  return (plain.misses - bent.misses) * freedom > std::pow(largestT(freedom, 20), 2) * bent.misses;
}

Corner bestCorner(const Curve& curve) {
  const std::size_t count = curve.rate.size();
  Corner best = cornerAfter(curve, 1);
  for (std::size_t rising = 2; rising < count; ++rising) {
    if (Corner other = cornerAfter(curve, rising); other.misses < best.misses) best = std::move(other);
  }
  const double negligible = 1e-20 * static_cast<double>(count);
  Corner level = cornerAfter(curve, 0);
  Corner rise = cornerAfter(curve, count);
  Corner& plain = rise.misses < level.misses ? rise : level;
  return betterThan(best, plain, count, negligible) ? best : plain;
}

}  // namespace

Learnt<EnergyCeiling> fitEnergyCeiling(const std::vector<RateReading>& given, double meterUncertainty) {
  Learnt<EnergyCeiling> learnt;
  learnt.problem = entered(given, meterUncertainty);
  if (!learnt.problem.empty()) return learnt;
  const Curve curve = curveOf(given);
  const Corner corner = bestCorner(curve);
  learnt.remarks = remarksOn(corner.fit, curve.number);
  if (corner.rising == 0) {
    const double most = std::exp(curve.power.front().value - curve.rate.front());
    learnt.problem = "the power is the same at all rates: the ceiling of a pulse's energy, at least " + text::number(most * 1e3) +
                     " mJ, shows at lower rates only";
    return learnt;
  }
  for (Index i = 0; i < corner.fit.values.size(); ++i) {
    if (corner.fit.half(Eigen::VectorXd::Unit(corner.fit.values.size(), i)) < mostLogHalf / 2) continue;
    learnt.problem = "the readings scatter too much: nothing learnt; more of them are needed";
    return learnt;
  }
  EnergyCeiling found;
  const auto asPower = [&](int index) {
    const double half = corner.fit.half(Eigen::VectorXd::Unit(corner.fit.values.size(), index));
    return factorRange(std::exp(corner.fit.values[index]), std::hypot(half, std::log1p(meterUncertainty)));
  };
  found.pulseEnergy_J = asPower(0);
  if (corner.rising < given.size()) {
    const double ratio = std::exp(corner.fit.values[1] - corner.fit.values[0]);
    found.meanPower_W = asPower(1);
    found.fallsBeyond_Hz = factorRange(ratio, corner.fit.half(Eigen::Vector2d(-1, 1)));
    if (corner.rising == 1) learnt.remarks.push_back("only one reading lies below the corner: lower rates narrow the range");
  } else {
    learnt.remarks.push_back("the power grows with the rate up to the highest one: where a pulse begins to carry less was not reached");
  }
  if (given.size() < 5) learnt.remarks.push_back(readings(given.size()) + ": more of them narrow the range and show a bad one");
  learnt.value = found;
  return learnt;
}

}  // namespace bw
