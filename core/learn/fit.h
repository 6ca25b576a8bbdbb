// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"
#include "core/values/range.h"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace bw {

/// Coefficients found by least squares, with how well they are known.
struct Fit {
  Eigen::VectorXd values;
  Eigen::MatrixXd covariance;
  double reach = 0;              // standard deviations either side that hold nine in ten
  bool scattersMore = false;     // than the readings' stated uncertainty allows
  std::vector<std::size_t> far;  // readings far from the rest

  /// Half the nine-in-ten span of a function of the coefficients, by its gradient at `values` (first order).
  double half(const Eigen::VectorXd& gradient) const;

  /// One coefficient.
  Range range(int index) const;
};

/// Fits y = x c by weighted least squares. Uncertainties weigh the readings. Where every reading states one and the scatter is no larger
/// than they allow, they also give the range (normal distribution); else the scatter does (Student's t). A reading far from the rest
/// (outlier test on deleted residuals, one set in twenty by chance; Cook, Weisberg, Residuals and Influence in Regression, 1982, 2.2.2) is
/// named, never dropped.
///
/// Preconditions: finite numbers; x has full rank; more rows than columns, or as many with every uncertainty stated.
Fit fitLinear(const Eigen::MatrixXd& x, const std::vector<Measured>& y);

/// The same for a square: y^2 = x c with errors in y, not in its square: least squares of y - sqrt(x c) by Gauss-Newton steps.
Fit fitSquare(const Eigen::MatrixXd& x, const std::vector<Measured>& y);

/// What is to be said of the readings behind a fit; `numbers` counts those that went into it as they were entered, where some did not.
std::vector<std::string> remarksOn(const Fit& fit, const std::vector<std::size_t>& numbers = {});

/// Whether every reading states its uncertainty.
bool allStated(const std::vector<Measured>& readings);

/// A single column of ones: the mean of the readings.
Range meanOf(const std::vector<Measured>& readings, std::vector<std::string>& remarks);

/// Beyond this half-span of a logarithm, a factor of a thousand, nothing is known worth a number.
inline constexpr double mostLogHalf = 6.9;

/// The range of value exp(logarithm) where the logarithm may be off by `half`.
Range factorRange(double value, double half);

/// A range whose scale itself is uncertain by a share: both halves by the root of the sum of squares.
Range widened(const Range& range, double share);

}  // namespace bw
