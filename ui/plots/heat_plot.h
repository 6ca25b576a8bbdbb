// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/plot_view.h"

class QCPGraph;

namespace bw {

/// Temperature of the metal's front and back against time, under its limits.
class HeatPlot : public PlotView {
  Q_OBJECT

 public:
  explicit HeatPlot(QWidget* parent = nullptr);

  QString readoutAt(double time_s, double temperature_C) const override;
  QString csv() const override;
  QCPGraph* front() const { return m_front; }
  QCPGraph* back() const { return m_back; }
  void setLogarithmic(bool logarithmic);  // otherwise as the trace's span suggests

 protected:
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  QString summary() const override;
  QString missing() const override;
  void extendMenu(QMenu& menu) override;

 private:
  double hottest() const;
  double start_s() const;
  void setTicks();
  QRectF clearOf(const std::vector<QRectF>& places) const;
  bool isClear(const QRectF& box) const;
  void paintLimitLabel(QPainter& painter, const QRectF& row, const QString& brief, const QString& more) const;
  void paintLimits(QPainter& painter, const QRectF& box) const;
  void paintPasses(QPainter& painter, const QRectF& box) const;
  void paintPeaks(QPainter& painter, const QRectF& box) const;
  void paintSpreads(QPainter& painter, const QRectF& box) const;
  void paintAmbient(QPainter& painter, const QRectF& box) const;
  void paintAbove(QPainter& painter, const QRectF& box) const;

  QCPGraph *m_front, *m_back, *m_ghostFront, *m_ghostBack;
  std::optional<bool> m_logarithmicByHand;
  bool m_logarithmic = true;
};

}  // namespace bw
