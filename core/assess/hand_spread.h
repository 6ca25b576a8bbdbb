// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/plan.h"

namespace bw {

/// How a hand holds travel and stand-off, nine in ten, and how its speed wanders within a stroke (relative standard deviation, as in
/// Wander). Guesses, to be learnt from the log; a person's own wander goes before them.
struct HandSpread {
  double pace;
  double standOff_m;
  double wander;
};

HandSpread handSpread(const std::optional<Hand>& hand);

}  // namespace bw
