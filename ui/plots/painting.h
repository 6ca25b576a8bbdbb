// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <qcustomplot.h>

#include <functional>

namespace bw {

/// Something drawn by hand inside a plot: bands, posts, labels, a scale bar. It is part of the plot, so it is exported with it.
class Painting : public QCPLayerable {
 public:
  enum class Clip { AxisRect, Whole };
  using Draw = std::function<void(QCPPainter&, const QRectF& axisRect)>;

  Painting(QCustomPlot* plot, const QString& layer, Clip clip, Draw draw)
      : QCPLayerable(plot, layer), m_clip(clip), m_draw(std::move(draw)) {}

 protected:
  QRect clipRect() const override { return m_clip == Clip::AxisRect ? mParentPlot->axisRect()->rect() : mParentPlot->viewport(); }
  void applyDefaultAntialiasingHint(QCPPainter* painter) const override { painter->setAntialiasing(true); }
  void draw(QCPPainter* painter) override { m_draw(*painter, QRectF(mParentPlot->axisRect()->rect())); }

 private:
  Clip m_clip;
  Draw m_draw;
};

/// One entry of the key over a plot.
struct KeyEntry {
  enum class Mark { Line, DashedLine, DottedLine, Area, HatchedArea };
  Mark mark = Mark::Line;
  QColor colour;
  QString text;
};

/// How many rows the key takes in so many pixels.
int keyRows(const QFont& font, double width, const std::vector<KeyEntry>& entries);

/// The key above the axis rect, in rows of 18 px as far as there is room; what does not fit is left out from the end.
void paintKey(QPainter& painter, const QRectF& axisRect, const std::vector<KeyEntry>& entries, const QColor& ink);

/// Text on a plate of the ground's colour, so that it stays readable over curves. Returns the plate.
QRectF paintLabel(QPainter& painter, const QRectF& box, Qt::Alignment alignment, const QString& text, const QColor& ink,
                  const QColor& plate);

}  // namespace bw
