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

/// Places for a text in one row, from the left.
std::vector<QRectF> placesInRow(const QRectF& box, double top, double width) {
  std::vector<QRectF> places;
  for (double left = box.left() + 8; left + width <= box.right() - 8; left += 20) places.emplace_back(left, top, width, labelHeight - 1);
  return places;
}

/// Rows for the label of a line so many rows away from it, above and below.
std::vector<double> rowsFor(const QRectF& box, double line, int away) {
  std::vector<double> tops{line - 2 - (away + 1) * labelHeight, line + 3 + away * labelHeight};
  std::erase_if(tops, [&](double top) { return top < box.top() + passesHeight || top + labelHeight > box.bottom(); });
  return tops;
}

/// Near its line a label would rather hide a piece of a curve than go where it may be taken for another line's.
std::optional<PlacedLabel> placeLimitLabel(const QRectF& box, double line, const LimitMark& limit, const QFontMetricsF& metrics,
                                           const ClearPlaces& places, bool inFull) {
  const auto placed = [&](int away, bool clear) -> std::optional<PlacedLabel> {
    for (const double top : rowsFor(box, line, away)) {
      for (const QString& text : {inFull && clear ? limit.brief + limit.more : limit.brief, limit.brief}) {
        for (const QRectF& place : placesInRow(box, top, metrics.horizontalAdvance(text) + 8))
          if (clear ? places.isClear(place) : places.isFree(place)) return PlacedLabel{place, text};
      }
    }
    return std::nullopt;
  };
  const std::pair<int, bool> wanted[] = {{0, true}, {1, true}, {0, false}, {2, true}, {1, false}, {3, true}, {2, false}, {3, false}};
  for (const auto& [away, clear] : wanted)
    if (auto label = placed(away, clear)) return label;
  return std::nullopt;
}

}  // namespace

std::vector<PlacedLabel> placeLimitLabels(const QRectF& box, const HeatSheet& sheet, const std::vector<LimitMark>& limits,
                                          const QFont& font, ClearPlaces& places, bool inFull) {
  std::vector<PlacedLabel> labels;
  if (sheet.compact) return labels;
  for (const LimitMark& limit : limits) {
    const double y = sheet.y->coordToPixel(limit.limit_C);
    if (y < box.top() || y > box.bottom()) continue;
    const auto label = placeLimitLabel(box, y, limit, QFontMetricsF(font), places, inFull);
    if (!label) continue;
    places.take(label->place);
    labels.push_back(*label);
  }
  return labels;
}

void paintLimits(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const std::vector<LimitMark>& limits) {
  for (const LimitMark& limit : limits) {
    const double y = sheet.y->coordToPixel(limit.limit_C);
    if (y < box.top() || y > box.bottom()) continue;
    paintLimitLine(painter, box, y, sheet.tones, limit.warnOnly);
    const double x = limit.at_s && (*limit.at_s > 0 || !sheet.logarithmic) ? sheet.x->coordToPixel(*limit.at_s) : box.left() - 1;
    if (x >= box.left() && x <= box.right()) paintMoment(painter, {x, y}, sheet.tones);
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
  const QRectF place = places.firstClear(wanted);
  if (place.isEmpty()) return;
  paintLabel(painter, place, Qt::AlignCenter, text, sheet.tones.ink, sheet.tones.sheet);
  places.take(place);
}

void paintSpreads(QPainter& painter, const QRectF& box, const HeatSheet& sheet, const Assessment& assessment) {
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
    x -= 13;
  }
}

namespace {

QString ambientText(double ambient_C) { return HeatMarkWords::tr("air %1").arg(format::temperature(ambient_C)); }

}  // namespace

QRectF ambientPlace(const QRectF& box, const HeatSheet& sheet, double ambient_C, const QFont& font) {
  const double y = sheet.y->coordToPixel(ambient_C), width = QFontMetricsF(font).horizontalAdvance(ambientText(ambient_C)) + 4;
  return {box.right() - 8 - width, y + 18 < box.bottom() ? y + 1 : y - 17, width, 16};
}

void paintAmbient(QPainter& painter, const QRectF& box, const HeatSheet& sheet, double ambient_C) {
  const double y = sheet.y->coordToPixel(ambient_C);
  painter.setPen(QPen(sheet.tones.quiet, 1, Qt::DotLine));
  painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
  if (sheet.compact) return;
  painter.setPen(sheet.tones.quiet);
  painter.drawText(ambientPlace(box, sheet, ambient_C, painter.font()), Qt::AlignRight | Qt::AlignVCenter, ambientText(ambient_C));
}

}  // namespace bw
