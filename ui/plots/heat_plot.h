// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/frame_inset.h"
#include "ui/plots/heat_marks.h"
#include "ui/plots/plot_view.h"

#include <array>

class QCPGraph;

namespace bw {

struct KeyEntry;
class ViewSwitch;

/// Temperature of the metal's front and back against time, under its limits: during the work, or from the moment the hand stops.
class HeatPlot : public PlotView {
  Q_OBJECT

 public:
  explicit HeatPlot(QWidget* parent = nullptr);

  QString readoutAt(double time_s, double temperature_C) const override;
  QString csv() const override;
  QCPGraph* front() const { return m_front; }  // bare
  QCPGraph* back() const { return m_back; }
  QCPGraph* thinFront() const { return m_thinFront; }  // as the coat comes off
  QCPGraph* thinBack() const { return m_thinBack; }
  void setLogarithmic(bool logarithmic);  // otherwise as the trace's span suggests
  HeatView view() const { return m_view; }
  void setView(HeatView view);                               // one of the two with curves
  HeatSite site() const;  // whose curves the work shows: until one is chosen, where the telling limit is felt
  void setSite(HeatSite site);
  /// Of the frame in fine time, as drawn; empty where it is not.
  const QRectF& insetPlace() const { return m_layout.inset; }
  const std::vector<PlacedLabel>& limitLabels() const { return m_layout.labels; }

 signals:
  void partChosen();  // the map of the part is asked for

 protected:
  void arrived() override;
  bool isBehind() const override { return m_view == HeatView::StillHand && m_stillBehind; }
  void refresh() override;
  void restyle(const Tones& tones) override;
  void fitAxes() override;
  QString summary() const override;
  QString missing() const override;
  void extendMenu(QMenu& menu) override;

 private:
  void addSwitch();
  QString workSummary() const;
  QString stillSummary() const;
  std::vector<KeyEntry> keyEntries() const;
  HeatSheet sheet() const;
  /// What is written over the curves, each thing where it hides none of the others.
  struct Layout {
    std::vector<PlacedLabel> labels;
    QRectF inset;
    ClearPlaces free;  // for what is written last
  };
  Layout layout(const QRectF& box, bool insetFirst = true) const;
  std::vector<LimitMark> shownLimits() const;
  ClearPlaces places() const;
  double topOfScale() const;
  double topOfStill(double hottest_C) const;
  void setTicks();
  void paintOver(QPainter& painter, const QRectF& box) const;
  void choose(HeatView view);
  void chooseSite(HeatSite site);
  void showSwitch();
  const HeatTrace& trace() const { return now()->thermal.traceAt(site()); }

  QCPGraph *m_front, *m_back, *m_thinFront, *m_thinBack, *m_ghostFront, *m_ghostBack;
  ViewSwitch* m_switch = nullptr;
  std::optional<HeatSite> m_siteByHand;
  std::string m_plan;  // whose curves are shown; another plan begins where its own limit is felt
  HeatView m_view = HeatView::Work;
  HeatCurves m_curves;
  std::optional<StillHandHeat> m_still;  // an earlier one as long as the newest is on its way
  bool m_stillBehind = false;
  FrameInset m_inset;
  mutable Layout m_layout{{}, {}, {}};                     // as drawn
  std::array<std::optional<bool>, 2> m_logarithmicByHand;  // of the work, of a hand that stops
  bool m_logarithmic = true;
};

}  // namespace bw
