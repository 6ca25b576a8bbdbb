// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/style/theme.h"

#include <qcustomplot.h>

#include <optional>

namespace bw {

/// The scale of a map's colours, right of it.
struct ColourBar {
  QCPColorGradient gradient;
  QCPRange range;
  QString unit;
  std::optional<double> most = {};  // in the map, where the scale ends below it

  static QRectF place(const QRectF& axisRect);
  double yOf(const QRectF& axisRect, double value) const;
  void paint(QPainter& painter, const QRectF& axisRect, const Tones& tones) const;

 private:
  void paintTicks(QPainter& painter, const QRectF& axisRect, const Tones& tones) const;
};

}  // namespace bw
