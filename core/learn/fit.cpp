// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/fit.h"

#include "core/learn/quantiles.h"

#include <Eigen/QR>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace bw {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Rows divided by the standard deviation of their reading; 1 for all where not every one states it.
struct Weighted {
  MatrixXd x;
  VectorXd y;
  VectorXd sigma;
  bool stated = false;
};

Weighted weighted(const MatrixXd& x, const std::vector<Measured>& y) {
  Weighted w{x, VectorXd(x.rows()), VectorXd::Ones(x.rows()), allStated(y)};
  for (Index i = 0; i < x.rows(); ++i) {
    const Measured& reading = y[static_cast<std::size_t>(i)];
    w.y[i] = reading.value;
    if (w.stated) w.sigma[i] = *reading.uncertainty / nineInTen();
  }
  return w;
}

VectorXd solved(const MatrixXd& x, const VectorXd& y) { return x.colPivHouseholderQr().solve(y); }

/// Readings whose deleted residual is beyond what chance does once in twenty sets: r^2 (f - 1) / (S (1 - h) - r^2), S the sum of squares,
/// f the degrees of freedom, h the leverage.
std::vector<std::size_t> farReadings(const VectorXd& residual, const VectorXd& leverage, int freedom, double negligible) {
  std::vector<std::size_t> far;
  const double sum = residual.squaredNorm();
  if (freedom < 2 || sum <= negligible) return far;
  const double limit = std::pow(largestT(freedom - 1, 20.0 * static_cast<double>(residual.size())), 2);
  for (Index i = 0; i < residual.size(); ++i) {
    const double squared = residual[i] * residual[i];
    const double left = std::max(sum * (1 - leverage[i]) - squared, 1e-12 * sum);
    if (squared * (freedom - 1) / left > limit) far.push_back(static_cast<std::size_t>(i));
  }
  return far;
}

/// Covariance, reach and remarks from the linearised problem: `x` and `residual` in standard deviations.
void judge(Fit& fit, const MatrixXd& x, const VectorXd& residual, const Weighted& w) {
  const int freedom = static_cast<int>(x.rows() - x.cols());
  const Eigen::HouseholderQR<MatrixXd> qr(x);
  const MatrixXd r = qr.matrixQR().topRows(x.cols()).triangularView<Eigen::Upper>();
  const MatrixXd inverse = r.triangularView<Eigen::Upper>().solve(MatrixXd::Identity(x.cols(), x.cols()));
  const MatrixXd q = qr.householderQ() * MatrixXd::Identity(x.rows(), x.cols());
  fit.covariance = inverse * inverse.transpose();
  const double sum = residual.squaredNorm();
  const bool asStated = w.stated && (freedom == 0 || sum <= largestChiSquare(freedom));
  fit.reach = asStated ? nineInTen() : nineInTenByScatter(freedom);
  if (!asStated) fit.covariance *= sum / freedom;
  fit.scattersMore = w.stated && !asStated;
  const double negligible = 1e-20 * w.y.cwiseQuotient(w.sigma).squaredNorm();
  fit.far = farReadings(residual, q.rowwise().squaredNorm(), freedom, negligible);
}

/// sqrt(x c), kept off zero so that a step too far stays a number.
VectorXd roots(const MatrixXd& x, const VectorXd& c, double least) { return (x * c).cwiseMax(least * least).cwiseSqrt(); }

}  // namespace

double Fit::half(const VectorXd& gradient) const {
  const double variance = gradient.dot(covariance * gradient);
  return reach * std::sqrt(variance < 0 ? 0 : variance);  // what is no number stays none and fails the callers' conditions
}

Range Fit::range(int index) const {
  const double span = half(VectorXd::Unit(values.size(), index));
  return {values[index] - span, values[index], values[index] + span};
}

Fit fitLinear(const MatrixXd& x, const std::vector<Measured>& y) {
  const Weighted w = weighted(x, y);
  const MatrixXd rows = w.sigma.cwiseInverse().asDiagonal() * x;
  const VectorXd target = w.y.cwiseQuotient(w.sigma);
  Fit fit;
  fit.values = solved(rows, target);
  judge(fit, rows, target - rows * fit.values, w);
  return fit;
}

Fit fitSquare(const MatrixXd& x, const std::vector<Measured>& y) {
  const Weighted w = weighted(x, y);
  const double least = 1e-3 * w.y.maxCoeff();
  const auto slopes = [&](const VectorXd& root) -> MatrixXd { return (2 * root.cwiseProduct(w.sigma)).cwiseInverse().asDiagonal() * x; };
  const auto misses = [&](const VectorXd& c) -> VectorXd { return (w.y - roots(x, c, least)).cwiseQuotient(w.sigma); };
  const VectorXd start = w.y.cwiseMax(least);
  Fit fit;
  fit.values = solved(slopes(start), w.y.cwiseAbs2().cwiseQuotient(2 * start.cwiseProduct(w.sigma)));
  for (int round = 0; round < 100; ++round) {
    const VectorXd miss = misses(fit.values);
    VectorXd step = solved(slopes(roots(x, fit.values, least)), miss);
    for (int halving = 0; halving < 30 && misses(fit.values + step).squaredNorm() > miss.squaredNorm(); ++halving) step /= 2;
    if (!(misses(fit.values + step).squaredNorm() < miss.squaredNorm())) break;
    fit.values += step;
    if (step.norm() <= 1e-12 * fit.values.norm()) break;
  }
  judge(fit, slopes(roots(x, fit.values, least)), misses(fit.values), w);
  return fit;
}

std::vector<std::string> remarksOn(const Fit& fit, const std::vector<std::size_t>& numbers) {
  std::vector<std::string> remarks;
  if (fit.scattersMore) remarks.push_back("the readings scatter more than their stated uncertainty; the range goes by the scatter");
  for (const std::size_t i : fit.far) {
    const std::size_t number = numbers.empty() ? i : numbers[i];
    remarks.push_back("reading " + std::to_string(number + 1) +
                      " lies far from the rest: read it again, or leave it out if there is a reason");
  }
  return remarks;
}

bool allStated(const std::vector<Measured>& readings) {
  return std::ranges::all_of(readings, [](const Measured& reading) { return reading.uncertainty.has_value(); });
}

Range meanOf(const std::vector<Measured>& readings, std::vector<std::string>& remarks) {
  const Fit fit = fitLinear(MatrixXd::Ones(static_cast<Index>(readings.size()), 1), readings);
  std::ranges::move(remarksOn(fit), std::back_inserter(remarks));
  return fit.range(0);
}

Range factorRange(double value, double half) { return {value * std::exp(-half), value, value * std::exp(half)}; }

Range widened(const Range& range, double share) {
  const double scale = share * range.likely;
  return {range.likely - std::hypot(range.likely - range.low, scale), range.likely,
          range.likely + std::hypot(range.high - range.likely, scale)};
}

}  // namespace bw
