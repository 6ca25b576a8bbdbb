// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/heat_curves.h"

#include "core/heat/limits.h"
#include "ui/plots/heat_words.h"
#include "ui/plots/plot_export.h"
#include "ui/style/format.h"
#include "ui/style/range_text.h"

#include <QCoreApplication>

#include <algorithm>
#include <limits>

namespace bw {

namespace {

struct HeatCurveWords {
  Q_DECLARE_TR_FUNCTIONS(HeatCurveWords)
};

double highest(const std::vector<double>& values) {
  return values.empty() ? -std::numeric_limits<double>::infinity() : *std::ranges::max_element(values);
}

/// One named column of a table.
struct Column {
  const char* name;
  const std::vector<double>& values;
};

QString tableOf(const std::vector<Column>& columns) {
  PlotTable table;
  const std::size_t rows = columns.front().values.size();
  table.rows.resize(rows);
  for (const Column& column : columns) {
    if (column.values.size() != rows) continue;
    table.header << QLatin1String(column.name);
    for (std::size_t i = 0; i < rows; ++i) table.rows[i].push_back(column.values[i]);
  }
  return csvText(table);
}

QString workWords(const LimitResult& limit, HeatSite site) {
  const QString met = metWords(limit);
  if (met.isEmpty()) return {};
  return siteOf(limit) == site ? QStringLiteral(", ") + met : HeatCurveWords::tr(", %1 at another place").arg(met);
}

QString stillWords(const LimitResult& limit) {
  return limit.stillHand_s ? HeatCurveWords::tr(" after %1").arg(format::duration(*limit.stillHand_s))
                           : HeatCurveWords::tr(": not within the time followed");
}

LimitMark markOf(const LimitResult& limit, const Assessment& assessment, HeatView view, HeatSite site) {
  const bool still = view == HeatView::StillHand;
  const std::optional<Spread> spread = spreadOf(limit, assessment);
  const QString predicted = assessment.thermal.boils(limit.predicted_C) ? HeatCurveWords::tr("boiling")
                            : spread                                    ? format::ends(*spread, format::temperature)
                                                                        : format::temperature(limit.predicted_C);
  const QString name = HeatCurveWords::tr("%1  %2").arg(format::temperature(limit.limit_C), QString::fromStdString(limit.name));
  LimitMark mark{limit.limit_C, limit.warnOnly, name + (still ? stillWords(limit) : workWords(limit, site)), {}, {}};
  if (limit.warnOnly) mark.more += HeatCurveWords::tr(" (warning only)");
  if (!still) mark.more += HeatCurveWords::tr(": %1 predicted").arg(predicted);
  if (still || siteOf(limit) == site) mark.at_s = still ? limit.stillHand_s : limit.reached_s;
  return mark;
}

}  // namespace

double HeatCurves::hottest_C() const { return std::max({highest(front_C), highest(back_C), highest(thinFront_C), highest(thinBack_C)}); }

const std::vector<double>& HeatCurves::worseFront() const { return highest(thinFront_C) > highest(front_C) ? thinFront_C : front_C; }
const std::vector<double>& HeatCurves::worseBack() const { return highest(thinBack_C) > highest(back_C) ? thinBack_C : back_C; }

double HeatCurves::start_s() const {
  const auto found = std::ranges::find_if(time_s, [](double time) { return time > 0; });
  return found == time_s.end() ? 1e-3 : *found;
}

double HeatCurves::rises_s() const {
  constexpr double seen = 0.02;  // of the whole rise
  if (isEmpty() || front_C.size() != time_s.size()) return start_s();
  const double least_C = front_C.front() + seen * (hottest_C() - front_C.front());
  const auto found = std::ranges::find_if(front_C, [least_C](double value) { return value > least_C; });
  const auto at = found - front_C.begin();
  return at > 1 && found != front_C.end() ? std::max(start_s(), time_s[static_cast<std::size_t>(at - 1)]) : start_s();
}

HeatCurves curvesOf(const HeatTrace& trace) {
  const std::size_t points = trace.time_s.size();
  const auto known = [points](const std::vector<double>& curve) { return points > 0 && curve.size() == points; };
  HeatCurves made{trace.time_s, known(trace.frontBare_C) ? trace.frontBare_C : trace.front_C,
                  known(trace.backBare_C) ? trace.backBare_C : trace.back_C};
  if (known(trace.frontStripping_C)) made.thinFront_C = trace.frontStripping_C;
  if (known(trace.backStripping_C)) made.thinBack_C = trace.backStripping_C;
  return made;
}

HeatCurves curvesOf(const StillHandHeat& still) { return {still.time_s, still.front_C, still.back_C}; }

std::vector<LimitMark> limitMarks(const Assessment& assessment, HeatView view, HeatSite site) {
  std::vector<LimitMark> made;
  for (const LimitResult& limit : assessment.thermal.limits) made.push_back(markOf(limit, assessment, view, site));
  std::ranges::stable_sort(made, {}, &LimitMark::limit_C);
  return made;
}

QString heatCsv(const HeatTrace& trace) {
  return tableOf({{"time_s", trace.time_s},
                  {"front_C", trace.front_C},
                  {"back_C", trace.back_C},
                  {"front_bare_C", trace.frontBare_C},
                  {"back_bare_C", trace.backBare_C},
                  {"front_stripping_C", trace.frontStripping_C},
                  {"back_stripping_C", trace.backStripping_C},
                  {"part_C", trace.part_C}});
}

QString stillHandCsv(const StillHandHeat& still) {
  return tableOf({{"time_since_stop_s", still.time_s}, {"front_C", still.front_C}, {"back_C", still.back_C}});
}

QString frameCsv(const FrameTrace& frame) {
  return tableOf({{"time_in_frame_s", frame.time_s}, {"near_C", frame.near_C}, {"back_C", frame.back_C}});
}

}  // namespace bw
