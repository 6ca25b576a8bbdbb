// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"
#include "core/values/range.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// What was dialled and what came of it, in the same unit.
struct Dialled {
  double dialled = 0;
  Measured measured;
  bool operator==(const Dialled&) const = default;
};

/// measured = offset + gain x dialled.
struct Proportion {
  Range gain;
  std::optional<Range> offset;  // none: taken as 0, too few settings to tell it
  Range atFull;                 // what comes of dialling `full`
  FittedCurve curve;            // measured against dialled, from 0 to `full` or the greatest reading
};

/// A straight line through three settings or more; with fewer the mean of measured over dialled. `noun` names what is measured: "width".
Learnt<Proportion> fitProportion(const std::vector<Dialled>& readings, double full, const char* noun);

/// The share itself for a reading: measured over dialled.
Measured shareOf(const Dialled& reading);

}  // namespace bw
