// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/frame_inset.h"

#include "ui/style/format.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double ms_per_s = 1e3;
constexpr double step_px = 6;  // between places that are tried
constexpr double line = 16;    // height of a line of text

struct InsetWords {
  Q_DECLARE_TR_FUNCTIONS(InsetWords)
};

/// Round numbers, `most` at most.
std::vector<double> ticksOf(double low, double high, int most) {
  QCPAxisTicker ticker;
  ticker.setTickCount(most);
  QVector<double> made;
  ticker.generate(QCPRange(low, high), QLocale(), 'g', 4, made, nullptr, nullptr);
  std::vector<double> inside;
  for (const double tick : made)
    if (tick >= low && tick <= high) inside.push_back(tick);
  return inside;
}

/// Thinned to the highest and the lowest of each pixel.
QPolygonF pixels(const std::vector<double>& time_s, const std::vector<double>& value, const std::function<QPointF(double, double)>& at) {
  QPolygonF line;
  for (std::size_t i = 0; i < time_s.size();) {
    const double column = std::floor(at(time_s[i], 0).x());
    std::size_t low = i, high = i;
    for (; i < time_s.size() && std::floor(at(time_s[i], 0).x()) <= column; ++i) {
      if (value[i] < value[low]) low = i;
      if (value[i] > value[high]) high = i;
    }
    line << at(time_s[std::min(low, high)], value[std::min(low, high)]);
    if (low != high) line << at(time_s[std::max(low, high)], value[std::max(low, high)]);
  }
  return line;
}

}  // namespace

QRectF FrameInset::placeIn(const QRectF& box, const ClearPlaces& places, const std::vector<double>& limits_px) const {
  if (isEmpty() || box.width() < 380 || box.height() < 200) return {};
  const QSizeF large(std::clamp(0.36 * box.width(), 214.0, 270.0), std::clamp(0.42 * box.height(), 122.0, 160.0)), small(214, 100);
  QRectF best;
  double leastCost = 1e9;
  for (const QSizeF& size : {large, small}) {
    for (double top = box.top() + 20; top + size.height() <= box.bottom() - 6; top += step_px) {
      for (double left = box.left() + 8; left + size.width() <= box.right() - 38; left += step_px) {
        const QRectF place(QPointF(left, top), size);
        const auto hidden = std::ranges::count_if(limits_px, [&](double y) { return y > place.top() - 2 && y < place.bottom() + 10; });
        const double cost = static_cast<double>(hidden) * 1000 + (size == small ? 500 : 0) + (top - box.top());  // upper places first
        if (cost >= leastCost || !places.isClear(place.adjusted(-3, -3, 3, 3))) continue;
        leastCost = cost;
        best = place;
      }
    }
  }
  return best;
}

QString FrameInset::caption() const {
  return m_frame.begin_s > 0 ? InsetWords::tr("one frame, bare, after %1").arg(format::duration(m_frame.begin_s))
                             : InsetWords::tr("one frame, bare");
}

QRectF FrameInset::curveBox(const QRectF& place) const { return place.adjusted(44, 2 * line + 4, -18, -line - 6); }

void FrameInset::paintAxes(QPainter& painter, const QRectF& curves, const Tones& tones, const QCPRange& range) const {
  painter.setPen(QPen(tones.line, 1));
  painter.drawLine(curves.bottomLeft(), curves.bottomRight());
  painter.drawLine(curves.topLeft(), curves.bottomLeft());
  const int across = curves.width() > 190 ? 4 : 3, up = curves.height() > 60 ? 3 : 2;
  const std::vector<double> times = ticksOf(0, span_s() * ms_per_s, across);
  for (const double tick : times) {
    const double x = curves.left() + curves.width() * tick / (span_s() * ms_per_s);
    painter.setPen(QPen(tones.line, 1));
    painter.drawLine(QPointF(x, curves.bottom()), QPointF(x, curves.bottom() + 3));
    painter.setPen(tones.quiet);
    const QString text = QLocale().toString(tick) + (tick == times.back() ? QStringLiteral("\u00a0ms") : QString());
    painter.drawText(QRectF(x - 40, curves.bottom() + 3, 80, line), Qt::AlignHCenter | Qt::AlignTop, text);
  }
  for (const double tick : ticksOf(range.lower, range.upper, up)) {
    const double y = curves.bottom() - curves.height() * (tick - range.lower) / range.size();
    painter.setPen(QPen(blend(tones.sheet, tones.line, 0.55), 1));
    painter.drawLine(QPointF(curves.left(), y), QPointF(curves.right(), y));
    painter.setPen(tones.quiet);
    painter.drawText(QRectF(curves.left() - 44, y - line / 2, 40, line), Qt::AlignRight | Qt::AlignVCenter, QLocale().toString(tick));
  }
}

/// Caption, unit, and which curve is which.
void FrameInset::paintHead(QPainter& painter, const QRectF& place, const Tones& tones) const {
  const QFontMetricsF metrics(painter.font());
  painter.setPen(tones.ink);
  painter.drawText(QRectF(place.left() + 8, place.top() + 2, place.width() - 16, line), Qt::AlignLeft | Qt::AlignVCenter,
                   metrics.elidedText(caption(), Qt::ElideRight, place.width() - 16));
  const double top = place.top() + line + 1;
  painter.setPen(tones.quiet);
  painter.drawText(QRectF(place.left() + 4, top, 36, line), Qt::AlignRight | Qt::AlignVCenter, QStringLiteral("°C"));
  double left = place.left() + 54;
  const auto name = [&](const QString& text, const QColor& colour) {
    painter.setPen(QPen(colour, 2));
    painter.drawLine(QPointF(left, top + line / 2), QPointF(left + 12, top + line / 2));
    painter.setPen(tones.quiet);
    const double width = metrics.horizontalAdvance(text);
    painter.drawText(QRectF(left + 16, top, width + 2, line), Qt::AlignLeft | Qt::AlignVCenter, text);
    left += width + 26;
  };
  name(InsetWords::tr("the point"), tones.accent);
  if (hasBack()) name(InsetWords::tr("back"), tones.ink);
}

/// Of both curves, with a little air.
QCPRange FrameInset::range_C() const {
  QCPRange range(*std::ranges::min_element(m_frame.near_C), *std::ranges::max_element(m_frame.near_C));
  if (hasBack()) {
    for (const double value : m_frame.back_C) range.expand(value);
  }
  const double air = std::max(1.0, 0.06 * range.size());
  return {range.lower - air, range.upper + air};
}

void FrameInset::paint(QPainter& painter, const QRectF& place, const Tones& tones) const {
  QColor ground = tones.sheet;
  ground.setAlphaF(0.96F);
  painter.setPen(QPen(tones.line, 1));
  painter.setBrush(ground);
  painter.drawRoundedRect(place, 3, 3);
  paintHead(painter, place, tones);
  const QRectF curves = curveBox(place);
  const QCPRange range = range_C();
  paintAxes(painter, curves, tones, range);
  const auto at = [&](double time_s, double value) {
    return QPointF(curves.left() + curves.width() * time_s / span_s(),
                   curves.bottom() - curves.height() * (value - range.lower) / range.size());
  };
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(tones.ink, 1));
  if (hasBack()) painter.drawPolyline(pixels(m_frame.time_s, m_frame.back_C, at));
  painter.setPen(QPen(tones.accent, 1));
  painter.drawPolyline(pixels(m_frame.time_s, m_frame.near_C, at));
}

QString FrameInset::readoutAt(const QRectF& place, double x_px) const {
  const QRectF curves = curveBox(place);
  if (isEmpty() || x_px < curves.left() || x_px > curves.right()) return {};
  const double time = span_s() * (x_px - curves.left()) / curves.width();
  const auto found = std::ranges::lower_bound(m_frame.time_s, time);
  const auto i = static_cast<std::size_t>(std::min(found, m_frame.time_s.end() - 1) - m_frame.time_s.begin());
  const QString text = InsetWords::tr("%1 ms into the frame: the point itself %2")
                           .arg(format::number(time * ms_per_s), format::temperature(m_frame.near_C[i]));
  return i < m_frame.back_C.size() ? InsetWords::tr("%1, back %2").arg(text, format::temperature(m_frame.back_C[i])) : text;
}

}  // namespace bw
