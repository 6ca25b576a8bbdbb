// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/plot_view.h"

class QCPGraph;

namespace bw {

struct KeyEntry;

/// How deep the passes reach against the layers of the coat: where the spread is known, nine in ten such jobs and the likely one, mean over
/// the surface; else the least, the middling and the most dosed place of the single estimate.
class DepthPlot : public PlotView {
  Q_OBJECT

 public:
  explicit DepthPlot(QWidget* parent = nullptr);

  QString readoutAt(double passes, double depth_um) const override;
  QString csv() const override;
  QCPGraph* least() const { return m_least; }
  QCPGraph* median() const { return m_median; }
  QCPGraph* most() const { return m_most; }
  QCPGraph* picked() const { return m_picked; }
  QCPGraph* low() const { return m_low; }  // with high the bounds of nine in ten such jobs
  QCPGraph* high() const { return m_high; }
  QCPGraph* likely() const { return m_likely; }

 protected:
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  QString summary() const override;
  QString missing() const override;

 private:
  struct Band {
    QString name;
    double top_um, bottom_um;
    QColor colour;
    Behaviour behaviour;
    bool kept;
    bool stalls;
  };
  std::vector<Band> bands() const;
  const PlaceHistory* nearest() const;  // to the picked place, by dose
  int plannedPasses() const;
  bool hasSpread() const;
  std::vector<KeyEntry> key() const;
  void paintBands(QPainter& painter, const QRectF& box) const;
  void paintNames(QPainter& painter, const QRectF& box) const;
  void paintPost(QPainter& painter, const QRectF& box) const;
  QString stallText() const;

  QCPGraph *m_least, *m_median, *m_most, *m_picked, *m_ghostLeast, *m_ghostMedian, *m_low, *m_high, *m_likely;
};

/// The place that stands at the middle of the cell's area when places are ordered by dose.
const PlaceHistory* medianPlace(const std::vector<PlaceHistory>& places);

}  // namespace bw
