// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <qcustomplot.h>

#include <vector>

namespace bw {

/// Where in a plot something can be written without hiding a curve or what was written before. Looks once at the curves, so that many
/// places can be tried.
class ClearPlaces {
 public:
  ClearPlaces() = default;  // no curves
  ClearPlaces(const QCPAxis* x, const QCPAxis* y, const std::vector<const QCPGraph*>& curves);

  bool isClear(const QRectF& box) const;
  /// Nothing was written there, though curves may run through.
  bool isFree(const QRectF& box) const;
  /// The first of the places that is clear, else the first that is free; empty where there is none.
  QRectF firstClear(const std::vector<QRectF>& places) const;
  void take(const QRectF& box) { m_taken.push_back(box); }

 private:
  /// What a curve covers in one column of pixels; top above bottom: nothing.
  struct Span {
    double top = 1e9;
    double bottom = -1e9;
  };
  using Columns = std::vector<Span>;

  void cover(Columns& columns, const QPointF& from, const QPointF& to) const;
  bool isCrossed(const QRectF& box, const Columns& columns) const;

  double m_left = 0;  // of the first column
  std::vector<Columns> m_curves;
  std::vector<QRectF> m_taken;
};

}  // namespace bw
