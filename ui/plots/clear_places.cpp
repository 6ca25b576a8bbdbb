// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/clear_places.h"

#include <algorithm>
#include <cmath>

namespace bw {

ClearPlaces::ClearPlaces(const QCPAxis* x, const QCPAxis* y, const std::vector<const QCPGraph*>& curves) {
  const QRect box = x->axisRect()->rect();
  m_left = box.left();
  for (const QCPGraph* curve : curves) {
    if (!curve->visible() || curve->data()->isEmpty()) continue;
    Columns columns(static_cast<std::size_t>(std::max(1, box.width())));
    QPointF before;
    bool first = true;
    for (const QCPGraphData& point : *curve->data()) {
      const QPointF at(x->coordToPixel(point.key), y->coordToPixel(point.value));
      if (!std::isfinite(at.x()) || !std::isfinite(at.y())) continue;  // no place on a logarithmic axis
      cover(columns, first ? at : before, at);
      before = at;
      first = false;
    }
    m_curves.push_back(std::move(columns));
  }
}

void ClearPlaces::cover(Columns& columns, const QPointF& from, const QPointF& to) const {
  const double last = static_cast<double>(columns.size()) - 1;
  const double begin = std::max(0.0, std::floor(from.x() - m_left)), end = std::min(last, std::floor(to.x() - m_left));
  const double slope = to.x() > from.x() ? (to.y() - from.y()) / (to.x() - from.x()) : 0;
  for (double column = begin; column <= end; ++column) {
    Span& span = columns[static_cast<std::size_t>(column)];
    const double left = std::max(from.x(), m_left + column), right = std::min(to.x(), m_left + column + 1);
    const bool upright = to.x() - from.x() < 1e-9;
    for (const double value :
         {upright ? from.y() : from.y() + slope * (left - from.x()), upright ? to.y() : from.y() + slope * (right - from.x())}) {
      span.top = std::min(span.top, value);
      span.bottom = std::max(span.bottom, value);
    }
  }
}

bool ClearPlaces::isCrossed(const QRectF& box, const Columns& columns) const {
  const double last = static_cast<double>(columns.size()) - 1;
  const auto begin = static_cast<std::size_t>(std::clamp(std::floor(box.left() - m_left), 0.0, last));
  const auto end = static_cast<std::size_t>(std::clamp(std::ceil(box.right() - m_left), 0.0, last));
  for (std::size_t column = begin; column <= end; ++column)
    if (columns[column].top < box.bottom() && columns[column].bottom > box.top()) return true;
  return false;
}

bool ClearPlaces::isClear(const QRectF& box) const {
  return isFree(box) && std::ranges::none_of(m_curves, [&](const Columns& columns) { return isCrossed(box, columns); });
}

bool ClearPlaces::isFree(const QRectF& box) const {
  return std::ranges::none_of(m_taken, [&](const QRectF& taken) { return taken.intersects(box); });
}

QRectF ClearPlaces::firstClear(const std::vector<QRectF>& places) const {
  auto found = std::ranges::find_if(places, [this](const QRectF& box) { return isClear(box); });
  if (found == places.end()) found = std::ranges::find_if(places, [this](const QRectF& box) { return isFree(box); });
  return found == places.end() ? QRectF() : *found;
}

}  // namespace bw
