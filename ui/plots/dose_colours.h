// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <qcustomplot.h>

namespace bw {

/// One hue, even steps of perceived lightness; little is the colour nearest the paper, much is furthest from it.
QCPColorGradient doseGradient(bool dark);

}  // namespace bw
