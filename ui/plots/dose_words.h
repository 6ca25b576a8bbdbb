// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/dose_result.h"
#include "core/dose/strikes.h"

#include <QString>

namespace bw {

// Findings about the dose in words; empty where they do not matter.

/// "Ripple 8 %", or that it is even where nobody sees any.
QString rippleWords(double ripple);

constexpr double leastMissed = 0.0005;  // share of the surface; less is nothing that is seen
/// "3 % missed", or that nothing is.
QString missedWords(double share);

/// "Stripes every 1.9 mm along the travel, 6 % strong: lines 0.09 mm apart beating with ..."; nothing below 1 %.
QString stripeWords(const DoseResult& dose);

/// "swaths out of step: 2 to 6 % missed", where it can get worse than in step.
QString outOfStepWords(const DoseResult& dose);

/// "38 pulses fall here in a pass, from 6 lines"; a continuous beam passes over.
QString strikesWords(const Strikes& strikes, bool pulsed);

}  // namespace bw
