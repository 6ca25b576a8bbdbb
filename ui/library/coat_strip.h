// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/coat.h"
#include "core/values/substance.h"

#include <QColor>
#include <QWidget>

#include <vector>

class QPainter;

namespace bw {

/// A layer as a small cross-section shows it.
struct LayerPicture {
  QColor colour;
  Behaviour behaviour = Behaviour::Decomposes;
  double thickness_m = 0;
  QString words;  // "cream, 40 µm: nitro lacquer"
};

std::vector<LayerPicture> layerPictures(const Coat& coat, const Library& materials);

/// Layers on their metal, top first, thickness to scale as far as the thinnest stays visible.
void paintCoat(QPainter& painter, const QRectF& box, const std::vector<LayerPicture>& layers, const QPalette& palette);

/// The coat of a recipe with a line of words beside each layer.
class CoatStrip : public QWidget {
  Q_OBJECT
 public:
  CoatStrip(std::vector<LayerPicture> layers, const QString& metal, QWidget* parent = nullptr);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  int rowHeight() const;
  std::vector<LayerPicture> m_layers;
  QString m_metal;
};

}  // namespace bw
