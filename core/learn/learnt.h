// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/range.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// A number read off a gauge, a ruler or a meter. `uncertainty` is half the span that holds nine in ten such readings; without it the
/// scatter of the readings has to tell.
struct Measured {
  double value = 0;
  std::optional<double> uncertainty;
  bool operator==(const Measured&) const = default;
};

/// A place of a fitted curve with the nine-in-ten range of the curve there, for drawing.
struct CurvePoint {
  double x = 0;
  Range y;
};
using FittedCurve = std::vector<CurvePoint>;

/// What some measurements teach: a value, or a sentence why there is none. Remarks go with either.
template <class T>
struct Learnt {
  std::optional<T> value;
  std::string problem;  // empty where there is a value
  std::vector<std::string> remarks;
};

}  // namespace bw
