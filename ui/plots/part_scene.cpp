// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/part_scene.h"

#include "ui/plots/heat_words.h"
#include "ui/plots/isolines.h"
#include "ui/plots/plot_export.h"
#include "ui/style/format.h"
#include "ui/style/units.h"

#include <QCoreApplication>

#include <algorithm>

namespace bw {

namespace {

struct PartSceneWords {
  Q_DECLARE_TR_FUNCTIONS(PartSceneWords)
};

std::size_t cellsOf(const PartMap& map) { return static_cast<std::size_t>(map.columns) * static_cast<std::size_t>(map.rows); }

bool usable(const std::shared_ptr<const PartMap>& map) {
  if (map == nullptr || map->columns < 1 || map->rows < 1 || map->time_s.empty()) return false;
  const std::size_t cells = cellsOf(*map);
  return map->temperature_C.size() == map->time_s.size() && map->hand_m.size() == map->time_s.size() && map->highest_C.size() == cells &&
         std::ranges::all_of(map->temperature_C, [cells](const auto& one) { return one.size() == cells; });
}

/// The hand is on the part at this moment or at a later one.
bool isWorkLeft(const PartMap& map, std::size_t moment) {
  return std::any_of(map.hand_m.begin() + static_cast<std::ptrdiff_t>(moment), map.hand_m.end(),
                     [](const auto& hand) { return hand.has_value(); });
}

}  // namespace

float PartScene::highest_C() const { return *std::ranges::max_element(map->highest_C); }

PartScene partSceneOf(const Assessment& assessment) {
  const ThermalResult& thermal = assessment.thermal;
  if (!usable(thermal.map)) return {};
  PartScene made{thermal.map, thermal.trace.passStart_s, std::nullopt};
  for (const LimitResult& limit : tightestFirst(thermal.limits)) {
    const bool onFace = limit.felt == Felt::Front || limit.felt == Felt::Back;  // the others are not of a moment
    if (!onFace || limit.warnOnly || limit.limit_C > static_cast<double>(made.highest_C())) continue;
    made.limit = limit;
    break;
  }
  return made;
}

QString momentWords(const PartScene& field, std::size_t moment) {
  const double time = field.map->time_s[moment];
  const QString when = format::duration(time);
  const auto& starts = field.passStart_s;
  const auto pass = std::ranges::count_if(starts, [time](double start) { return start <= time; });
  if (!isWorkLeft(*field.map, moment)) return PartSceneWords::tr("%1, cooling afterwards").arg(when);
  if (pass == 0) return when;
  return field.map->hand_m[moment] ? PartSceneWords::tr("%1, pass %2 of %3").arg(when).arg(pass).arg(starts.size())
                                   : PartSceneWords::tr("%1, pause after pass %2").arg(when).arg(pass);
}

std::vector<QVector<QLineF>> limitLines(const PartScene& field) {
  std::vector<QVector<QLineF>> made;
  if (field.isEmpty() || !field.limit) return made;
  const PartMap& map = *field.map;
  for (const auto& moment : map.temperature_C) made.push_back(isolineOf(moment, map.columns, map.rows, field.limit->limit_C));
  made.push_back(isolineOf(map.highest_C, map.columns, map.rows, field.limit->limit_C));
  return made;
}

QString partCsv(const PartMap& map, std::optional<std::size_t> moment) {
  PlotTable table{{QStringLiteral("x_mm"), QStringLiteral("y_mm")}, {}};
  const bool hasMoments = !moment && map.highestAt_s.size() == map.highest_C.size();
  if (moment) {
    table.header << QStringLiteral("temperature_C_at_%1_s").arg(map.time_s[*moment], 0, 'g', 6);
  } else {
    table.header << QStringLiteral("highest_C");
  }
  if (hasMoments) table.header << QStringLiteral("highest_at_s");
  const std::vector<float>& values = moment ? map.temperature_C[*moment] : map.highest_C;
  std::size_t cell = 0;
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column, ++cell) {
      table.rows.push_back(
          {(column + 0.5) * map.cellX_m * mm_per_m, (row + 0.5) * map.cellY_m * mm_per_m, static_cast<double>(values[cell])});
      if (hasMoments) table.rows.back().push_back(static_cast<double>(map.highestAt_s[cell]));
    }
  }
  return csvText(table);
}

}  // namespace bw
