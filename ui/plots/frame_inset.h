// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/clear_places.h"
#include "ui/plots/heat_curves.h"
#include "ui/style/theme.h"

namespace bw {

/// A small picture inside the heat plot: one scan frame in fine time, with axes of its own.
class FrameInset {
 public:
  void setFrame(FrameTrace frame) { m_frame = std::move(frame); }
  bool isEmpty() const { return m_frame.time_s.size() < 2 || m_frame.near_C.size() != m_frame.time_s.size(); }

  /// Where it hides no curve and as few limits as can be, in a plot's box; empty where there is no such place.
  QRectF placeIn(const QRectF& box, const ClearPlaces& places, const std::vector<double>& limits_px) const;

  void paint(QPainter& painter, const QRectF& place, const Tones& tones) const;

  /// What is so many pixels right of the inset's left edge, in words; empty beside its curves.
  QString readoutAt(const QRectF& place, double x_px) const;
  QString caption() const;

 private:
  QRectF curveBox(const QRectF& place) const;
  double span_s() const { return m_frame.time_s.back(); }
  bool hasBack() const { return m_frame.back_C.size() == m_frame.time_s.size(); }
  QCPRange range_C() const;
  void paintHead(QPainter& painter, const QRectF& place, const Tones& tones) const;
  void paintAxes(QPainter& painter, const QRectF& curves, const Tones& tones, const QCPRange& range) const;

  FrameTrace m_frame;
};

}  // namespace bw
