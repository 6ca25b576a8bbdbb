// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QString>

#include <functional>

namespace bw::format {

/// One number as text with its unit.
using Shown = std::function<QString(double)>;

/// "135 to 175 °C, likely 150"; the unit once where it is the same, one number where all read the same. An infinite end is said in words:
/// "4 passes or more, likely 6; never clears in 12 % of cases", where `neverShare` is that share.
QString range(const Spread& spread, const Shown& shown, double neverShare = 0);

/// The ends alone: "135 to 175 °C".
QString ends(const Spread& spread, const Shown& shown);

/// "5 passes", "1 pass".
QString passes(double number);

}  // namespace bw::format
