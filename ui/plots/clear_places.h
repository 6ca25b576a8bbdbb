// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <qcustomplot.h>

#include <vector>

namespace bw {

/// Where in a plot something can be written without hiding a curve or what was written before.
class ClearPlaces {
 public:
  ClearPlaces(const QCPAxis* x, const QCPAxis* y, std::vector<const QCPGraph*> curves) : m_x(x), m_y(y), m_curves(std::move(curves)) {}

  bool isClear(const QRectF& box) const;
  /// The first of the places that is clear, or the first of all. Precondition: there is one.
  QRectF firstClear(const std::vector<QRectF>& places) const;
  void take(const QRectF& box) { m_taken.push_back(box); }

 private:
  bool isCrossed(const QRectF& box, const QCPGraph& curve) const;

  const QCPAxis *m_x, *m_y;
  std::vector<const QCPGraph*> m_curves;
  std::vector<QRectF> m_taken;
};

}  // namespace bw
