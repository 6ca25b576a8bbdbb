// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/power_curve.h"
#include "ui/plots/plot_view.h"

class QCPGraph;

namespace bw {

/// The most mean power of a machine against its repetition rate, one line for each pulse duration that differs. Rates on a scale by tens.
class PowerPlot : public PlotView {
  Q_OBJECT
 public:
  explicit PowerPlot(QWidget* parent = nullptr);

  void setCurves(const Machine& machine, std::vector<PowerCurve> curves);
  QString readoutAt(double rate_kHz, double power_W) const override;
  QString csv() const override;

 protected:
  bool hasResult() const override { return m_machine.has_value(); }
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  QString summary() const override;
  QString missing() const override;

 private:
  void paintNames(QPainter& painter, const QRectF& box) const;

  std::optional<Machine> m_machine;
  std::vector<PowerCurve> m_curves;
};

}  // namespace bw
