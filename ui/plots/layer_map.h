// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/tiled_map.h"

#include <cstdint>

namespace bw {

/// Which layer is on top at each point, as an index from the top; the number of layers stands for bare metal.
struct TopMap {
  int columns = 0;
  int rows = 0;
  std::size_t layers = 0;
  std::vector<std::uint8_t> top;  // row by row, as in a DoseMap

  std::vector<double> shares() const;  // of the surface, for each layer and the metal
};

TopMap topsAfter(const RemovedMap& map, const std::vector<LayerResult>& layers, std::size_t pass);

/// The layer most frequent in each block.
TopMap mostFrequent(const TopMap& map, int columns, int rows);

/// Layers on top as colours, laid side by side as far as the view reaches, no finer than the screen shows; bare metal is hatched.
class LayerMap : public QCPLayerable {
 public:
  LayerMap(QCPAxis* across, QCPAxis* along);

  void setMap(TopMap map, const MapExtent& extent);
  void setColours(std::vector<QColor> layersThenMetal, const QColor& hatch);
  const TopMap& tops() const { return m_tops; }

 protected:
  QRect clipRect() const override { return mParentPlot->axisRect()->rect(); }
  void applyDefaultAntialiasingHint(QCPPainter* painter) const override { painter->setAntialiasing(false); }
  void draw(QCPPainter* painter) override;

 private:
  void colourIn();  // refills where the view now shows more or fewer points in a pixel

  QCPAxis *m_across, *m_along;
  TopMap m_tops;
  MapExtent m_extent;
  std::vector<QColor> m_colours;
  QColor m_hatch;
  QImage m_picture, m_metal;
};

}  // namespace bw
