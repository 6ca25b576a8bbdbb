// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/map_plot.h"

namespace bw {

class LayerMap;
class PassStepper;

/// What a pass leaves, seen from above: at each point of the repeat cell the layer that is then on top, in its own colour.
class RemainsPlot : public MapPlot {
  Q_OBJECT

 public:
  explicit RemainsPlot(QWidget* parent = nullptr);

  /// One line of the legend.
  struct Entry {
    QString name;
    QColor colour;
    double share = 0;  // of the surface
    bool isMetal = false;
  };
  std::vector<double> sharedOut(std::vector<double> shares) const;
  std::vector<Entry> legend() const;

  QString readoutAt(double across_mm, double along_mm) const override;
  QString csv() const override;
  PassStepper* stepper() const { return m_stepper; }
  void setPass(int pass);
  int plannedPasses() const;

 signals:
  void passChanged(int pass);

 protected:
  void arrived() override;
  bool isBehind() const override { return m_behind; }
  void refresh() override;
  void restyle(const Tones& tones) override;
  QString summary() const override;
  QString missing() const override;
  std::optional<MapExtent> extent() const override;
  bool isEndless() const override { return m_source.map != nullptr; }
  int rightMargin() const override { return 198; }

 private:
  /// Of the assessment that is drawn: an earlier one as long as the newest still lacks its map.
  struct Source {
    std::shared_ptr<const RemovedMap> map;
    std::vector<LayerResult> layers;
    double middle_m = 0;
    std::vector<double> clear = {};  // share after each pass
  };

  std::size_t pass() const;
  void paintLegend(QPainter& painter, const QRectF& box) const;

  Source m_source;
  bool m_behind = false;
  LayerMap* m_map;
  PassStepper* m_stepper;
};

}  // namespace bw
