// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <qcustomplot.h>

namespace bw {

/// Times as people say them, for either axis; `most`: how many labels there is room for.
QSharedPointer<QCPAxisTicker> timeTicker(double from_s, double to_s, bool logarithmic, int most);

}  // namespace bw
