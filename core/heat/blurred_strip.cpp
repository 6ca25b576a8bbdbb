// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/blurred_strip.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double reach2 = 40;  // variances: exp(-20) beyond

/// Of the strip [low, high], its density 1/size, blurred.
double strip(double at, double low, double high, double size, double variance) {
  const double away = std::max({low - at, at - high, 0.0});
  if (away * away > reach2 * variance) return 0;
  if (size <= 0) return std::exp(-away * away / (2 * variance)) / std::sqrt(2 * std::numbers::pi * variance);
  const double root = std::sqrt(2 * variance);
  const auto erf = [](double x) { return x * x > reach2 / 2 ? std::copysign(1.0, x) : std::erf(x); };
  return 0.5 * (erf((high - at) / root) - erf((low - at) / root)) / size;
}

/// The same between insulated ends by cosine modes, of which few are left after so much spreading.
double byModes(double at, double low, double high, double size, double variance, double length) {
  double sum = size > 0 ? (high - low) / size / length : 1 / length;
  for (int n = 1; n <= 4; ++n) {  // the fifth is exp(-25 pi^2/8), 4e-14
    const double k = n * std::numbers::pi / length, left = std::exp(-k * k * variance / 2);
    if (left < 1e-14) break;
    const double laid = size > 0 ? (std::sin(k * high) - std::sin(k * low)) / (k * size) : std::cos(k * low);
    sum += 2 / length * left * std::cos(k * at) * laid;
  }
  return sum;
}

}  // namespace

double blurredShare_1_m(double at, double middle, double size, double variance, double length) {
  if (size * size < 1e-6 * variance) size = 0;  // and not the difference of two like error functions
  double low = middle - size / 2, high = middle + size / 2;
  if (std::isinf(length)) return strip(at, low, high, size, variance);
  low = std::max(low, 0.0);
  high = std::min(high, length);
  if (high < low || (size > 0 && high == low)) return 0;
  if (variance > length * length / 4) return byModes(at, low, high, size, variance, length);
  const double reach = std::sqrt(reach2 * variance);
  if (at + low > reach && 2 * length - at - high > reach) return strip(at, low, high, size, variance);  // no end near
  double sum = 0;
  for (int k = -1; k <= 1; ++k) sum += strip(at, low + 2 * k * length, high + 2 * k * length, size, variance);
  for (int k = -1; k <= 2; ++k) sum += strip(at, 2 * k * length - high, 2 * k * length - low, size, variance);
  return sum;
}

}  // namespace bw
