// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/plot_view.h"

class QCPGraph;

namespace bw {

/// Dose across the travel: one swath alone, and the sum with its neighbours.
class SwathPlot : public PlotView {
  Q_OBJECT

 public:
  explicit SwathPlot(QWidget* parent = nullptr);

  QString readoutAt(double across_mm, double dose_J_cm2) const override;
  QString csv() const override;
  QCPGraph* summed() const { return m_summed; }
  QCPGraph* oneSwath() const { return m_one; }

 protected:
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  QString summary() const override;
  QString missing() const override;

 private:
  double stepOver_mm() const;
  void paintBands(QPainter& painter, const QRectF& box) const;
  void paintMean(QPainter& painter, const QRectF& box) const;
  void paintStepOver(QPainter& painter, const QRectF& box) const;
  void paintPlace(QPainter& painter, const QRectF& box) const;
  void paintOutside(QPainter& painter, const QRectF& box) const;

  QCPGraph *m_summed, *m_one, *m_left, *m_right, *m_ghost;
};

}  // namespace bw
