// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <string>

namespace bw {

/// The headless result as JSON text: every key of the contract, null where this version does not compute it.
std::string writeAssessment(const Assessment& assessment);

/// The same as a table for people to read.
std::string assessmentTable(const Assessment& assessment);

/// CSV with a header that names the units, dot decimals, comma separated. x runs across the travel.
std::string mapCsv(const DoseMap& map);
std::string profileCsv(const SwathProfile& profile);
/// Each face where it is hottest; the worse of stripping and bare.
std::string traceCsv(const ThermalResult& thermal);

/// The highest temperature of every cell of the part; x and y from its corner.
std::string partMapCsv(const PartMap& map);

}  // namespace bw
