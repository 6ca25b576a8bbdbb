// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/advice.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

double read(const SwathProfile& profile, double position_m) {
  const auto& x = profile.position_m;
  const double step = x[1] - x[0], place = (position_m - x.front()) / step;
  if (place < 0 || place >= static_cast<double>(x.size() - 1)) return 0;
  const auto i = static_cast<std::size_t>(place);
  return std::lerp(profile.oneSwath_J_m2[i], profile.oneSwath_J_m2[i + 1], place - std::floor(place));
}

}  // namespace

double rippleAt(const SwathProfile& profile, double stepOver_m) {
  const double reach = -profile.position_m.front();
  const int samples = 600, neighbours = static_cast<int>(std::ceil(2 * reach / stepOver_m));
  double least = std::numeric_limits<double>::infinity(), most = 0;
  for (int i = 0; i < samples; ++i) {
    const double at = stepOver_m * (i + 0.5) / samples;
    double sum = 0;
    for (int k = -neighbours; k <= neighbours; ++k) sum += read(profile, at + k * stepOver_m);
    least = std::min(least, sum);
    most = std::max(most, sum);
  }
  return most + least > 0 ? (most - least) / (most + least) : 0;
}

std::optional<double> evenStepOver(const SwathProfile& profile) {
  if (profile.position_m.size() < 5 || profile.litExtent_m <= 0) return std::nullopt;
  double best = 0, least = std::numeric_limits<double>::infinity();
  for (int hundredths = 50; hundredths <= 102; ++hundredths) {
    const double step = profile.litExtent_m * hundredths / 100;
    const double ripple = rippleAt(profile, step);
    if (ripple < least * 1.05) best = step;
    least = std::min(least, ripple);
  }
  return best;
}

}  // namespace bw
