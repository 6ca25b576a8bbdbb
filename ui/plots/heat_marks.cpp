// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/heat_marks.h"

#include "ui/plots/painting.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"

#include <algorithm>

namespace bw {

namespace {

struct HeatMarkWords {
  Q_DECLARE_TR_FUNCTIONS(HeatMarkWords)
};

constexpr double labelHeight = 17;
constexpr double rhomb = 5;  // half its height

void paintLimitLine(QPainter& painter, const QRectF& box, double y, const Tones& tones, bool warnOnly) {
  QPainterPath beyond;
  beyond.addRect(QRectF(QPointF(box.left(), y - 9), QPointF(box.right(), y)));
  if (!warnOnly) paintHatch(painter, beyond, Hatch::Diagonal, blend(tones.sheet, tones.quiet, 0.8));
  painter.setPen(QPen(warnOnly ? tones.quiet : tones.ink, warnOnly ? 1 : 2, warnOnly ? Qt::DotLine : Qt::SolidLine));
  painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
}

/// Where the curve first comes up to the limit.
void paintMoment(QPainter& painter, const QPointF& at, const Tones& tones) {
  painter.setPen(QPen(tones.sheet, 1.5));
  painter.setBrush(tones.ink);
  painter.drawPolygon(QPolygonF{at + QPointF(0, -rhomb), at + QPointF(rhomb, 0), at + QPointF(0, rhomb), at + QPointF(-rhomb, 0)});
}

/// In full where no curve runs through it, else in brief, else in brief at the left.
void paintLimitLabel(QPainter& painter, const QRectF& row, const HeatSheet& sheet, const LimitMark& limit, ClearPlaces& places) {
  const QFontMetricsF metrics(painter.font());
  for (const QString& text : {limit.brief + limit.more, limit.brief}) {
    const double width = metrics.horizontalAdvance(text) + 8;
    std::vector<QRectF> wanted;
    for (double left = row.left(); left + width <= row.right(); left += 20) wanted.emplace_back(left, row.top(), width, row.height());
    if (wanted.empty()) continue;
    const QRectF place = places.firstClear(wanted);
    if (text != limit.brief && !places.isClear(place)) continue;
    paintLabel(painter, place, Qt::AlignCenter, text, sheet.tones.ink, sheet.tones.sheet);
    places.take(place);
    return;
  }
}

}  // namespace

void paintLimits(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const std::vector<LimitMark>& limits, ClearPlaces& places) {
  double lastLabel = box.bottom() + labelHeight;
  for (const LimitMark& limit : limits) {
    const double y = sheet.y->coordToPixel(limit.limit_C);
    if (y < box.top() || y > box.bottom()) continue;
    paintLimitLine(painter, box, y, sheet.tones, limit.warnOnly);
    const double x = limit.at_s && (*limit.at_s > 0 || !sheet.logarithmic) ? sheet.x->coordToPixel(*limit.at_s) : box.left() - 1;
    if (x >= box.left() && x <= box.right()) paintMoment(painter, {x, y}, sheet.tones);
    if (sheet.compact) continue;
    const double bottom = std::min(y - 2, lastLabel - labelHeight);
    if (bottom - labelHeight < box.top()) continue;
    paintLimitLabel(painter, QRectF(box.left() + 8, bottom - labelHeight, box.width() - 16, labelHeight), sheet, limit, places);
    lastLabel = bottom;
  }
}

void paintPasses(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const std::vector<double>& starts_s) {
  double free = box.left();
  for (std::size_t pass = 0; pass < starts_s.size(); ++pass) {
    if (sheet.logarithmic && starts_s[pass] <= 0) continue;
    const double x = sheet.x->coordToPixel(starts_s[pass]);
    if (x < box.left() || x > box.right()) continue;
    painter.setPen(QPen(blend(sheet.tones.sheet, sheet.tones.quiet, 0.6), 1, Qt::DotLine));
    painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
    const QString text = x - free > 60 || free <= box.left() ? HeatMarkWords::tr("pass %1").arg(pass + 1) : QString::number(pass + 1);
    const double width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 4;
    if (sheet.compact || x < free || x + width > box.right()) continue;
    painter.setPen(sheet.tones.quiet);
    painter.drawText(QRectF(x + 3, box.top() + 1, width, 16), Qt::AlignLeft | Qt::AlignVCenter, text);
    free = x + width + 4;
  }
}

void paintPeak(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const std::vector<double>& time_s, const PeakMark& peak,
               ClearPlaces& places) {
  if (peak.curve_C.empty()) return;
  const auto top = std::ranges::max_element(peak.curve_C);
  const double time = time_s[static_cast<std::size_t>(top - peak.curve_C.begin())];
  if (sheet.logarithmic && time <= 0) return;
  const QPointF at(sheet.x->coordToPixel(time), sheet.y->coordToPixel(*top));
  if (!box.contains(at)) return;
  painter.setPen(QPen(sheet.tones.sheet, 1.5));
  painter.setBrush(peak.colour);
  painter.drawEllipse(at, 4, 4);
  const QString text = peak.name + QLatin1Char(' ') + format::temperature(*top);
  const double width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 8, high = peak.above ? at.y() - 20 : at.y() + 2;
  const QRectF right(at.x() + 6, high, width, 18), left(at.x() - 6 - width, high, width, 18);
  const double more = peak.above ? -18 : 18;
  std::vector<QRectF> wanted;
  for (const double shift : {0.0, more, 2 * more}) {
    for (const QRectF& place : {right, left}) {
      const QRectF moved = place.translated(0, shift);
      if (box.contains(moved)) wanted.push_back(moved);
    }
  }
  if (wanted.empty()) return;
  const QRectF place = places.firstClear(wanted);
  paintLabel(painter, place, Qt::AlignCenter, text, sheet.tones.ink, sheet.tones.sheet);
  places.take(place);
}

void paintSpreads(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const Assessment& assessment, ClearPlaces& places) {
  struct FaceSpread {
    const std::optional<Spread>& spread;
    const std::optional<double>& likely_C;
    QColor colour;
  };
  if (!assessment.ranges) return;
  double x = box.right() - 8;
  for (const auto& [spread, likely_C, colour] : {FaceSpread{assessment.ranges->back_C, assessment.thermal.back_C, sheet.tones.ink},
                                                 FaceSpread{assessment.ranges->front_C, assessment.thermal.front_C, sheet.tones.accent}}) {
    if (!spread) continue;
    const double low = sheet.y->coordToPixel(spread->low), high = sheet.y->coordToPixel(spread->high);
    const double likely = sheet.y->coordToPixel(likely_C.value_or(spread->middle));
    painter.setPen(QPen(colour, 2));
    painter.drawLine(QPointF(x, low), QPointF(x, high));
    painter.setPen(QPen(colour, 4));
    painter.drawLine(QPointF(x - 4, likely), QPointF(x + 4, likely));
    places.take(QRectF(QPointF(x - 5, high), QPointF(x + 5, low)).normalized());
    x -= 13;
  }
}

void paintAmbient(QPainter& painter, const QRectF& box, const HeatSheet& sheet, double ambient_C) {
  const double y = sheet.y->coordToPixel(ambient_C);
  painter.setPen(QPen(sheet.tones.quiet, 1, Qt::DotLine));
  painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
  if (sheet.compact) return;
  painter.setPen(sheet.tones.quiet);
  const bool below = y + 18 < box.bottom();
  painter.drawText(QRectF(box.left() + 8, below ? y + 1 : y - 17, box.width() - 16, 16), Qt::AlignRight | Qt::AlignVCenter,
                   HeatMarkWords::tr("air %1").arg(format::temperature(ambient_C)));
}

}  // namespace bw
