// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/clear_places.h"

#include <algorithm>
#include <limits>

namespace bw {

bool ClearPlaces::isCrossed(const QRectF& box, const QCPGraph& curve) const {
  const auto end = curve.data()->findEnd(m_x->pixelToCoord(box.right()));
  double top = std::numeric_limits<double>::infinity(), bottom = -top;  // of the curve there, in pixels
  for (auto point = curve.data()->findBegin(m_x->pixelToCoord(box.left())); point != end; ++point) {
    const double y = m_y->coordToPixel(point->value);
    top = std::min(top, y);
    bottom = std::max(bottom, y);
  }
  return top < box.bottom() && bottom > box.top();
}

bool ClearPlaces::isClear(const QRectF& box) const {
  return std::ranges::none_of(m_curves, [&](const QCPGraph* curve) { return curve->visible() && isCrossed(box, *curve); }) &&
         std::ranges::none_of(m_taken, [&](const QRectF& taken) { return taken.intersects(box); });
}

QRectF ClearPlaces::firstClear(const std::vector<QRectF>& places) const {
  const auto found = std::ranges::find_if(places, [this](const QRectF& box) { return isClear(box); });
  return found == places.end() ? places.front() : *found;
}

}  // namespace bw
