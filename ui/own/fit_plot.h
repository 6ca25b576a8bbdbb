// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/fit_picture.h"
#include "ui/plots/plot_view.h"

class QCPErrorBars;
class QCPGraph;

namespace bw {

/// One fit of the machine set-up: the readings with what they may be off, the curve, and where nine in ten such curves lie.
class FitPlot : public PlotView {
  Q_OBJECT
 public:
  explicit FitPlot(QWidget* parent = nullptr);

  void setPicture(std::optional<FitPicture> picture, const QString& emptyText);
  QString readoutAt(double x, double y) const override;
  QString csv() const override;

 protected:
  bool hasResult() const override { return true; }
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  QString summary() const override;
  QString missing() const override;

 private:
  std::optional<FitPicture> m_picture;
  QString m_nothing = tr("No readings yet.");
  QCPGraph* m_low;
  QCPGraph* m_high;
  QCPGraph* m_likely;
  QCPGraph* m_points;
  QCPErrorBars* m_bars;
};

}  // namespace bw
