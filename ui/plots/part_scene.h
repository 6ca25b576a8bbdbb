// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/heat/part_map.h"

#include <QLineF>
#include <QString>
#include <QVector>

#include <memory>

namespace bw {

// The temperature over the part: looked up in the results, and put into words.

/// A map that can be shown, with what belongs to it.
struct PartScene {
  std::shared_ptr<const PartMap> map;
  std::vector<double> passStart_s = {};
  std::optional<LimitResult> limit = {};  // of front or back, the tightest that the map reaches

  bool isEmpty() const { return map == nullptr; }
  std::size_t moments() const { return map->time_s.size(); }
  float highest_C() const;  // ever and anywhere
};

/// Empty where there is no map, or one without a moment.
PartScene partSceneOf(const Assessment& assessment);

/// "3.5 min, pass 2 of 4"; "12 min, pause after pass 2"; "31 min, cooling afterwards".
QString momentWords(const PartScene& field, std::size_t moment);

/// Lines where the limit stands, in cells from the corner: one set a moment, the last of the highest over all; empty without a limit.
std::vector<QVector<QLineF>> limitLines(const PartScene& field);

/// Of a moment, or of the highest over all.
QString partCsv(const PartMap& map, std::optional<std::size_t> moment);

}  // namespace bw
