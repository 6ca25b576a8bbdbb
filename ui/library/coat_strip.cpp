// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/coat_strip.h"

#include "core/files/library_file.h"
#include "ui/library/recipe_words.h"
#include "ui/style/format.h"
#include "ui/style/hatch.h"
#include "ui/style/range_text.h"
#include "ui/style/theme.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <numeric>

namespace bw {
namespace {

constexpr int sampleWidth = 44;
constexpr double leastLayer_px = 3;
constexpr double metal_px = 6;

QString layerWords(const Layer& layer, const Library& materials) {
  const Library& known = findCoating(materials, layer.coating) ? materials : shippedLibrary();
  const QString coating = words::coating(known, layer.coating);
  const QString name = QString::fromStdString(layer.name);
  const Range& range = layer.thickness_m;
  const QString thickness = format::ends({range.low, range.likely, range.high}, format::micrometres);
  const bool named = !name.isEmpty() && name.compare(coating, Qt::CaseInsensitive) != 0;
  QString words = CoatStrip::tr("%1, %2").arg(named ? name : coating, thickness);
  if (layer.keep) words += CoatStrip::tr(", stays");
  return named ? CoatStrip::tr("%1: %2").arg(words, coating) : words;
}

/// Heights in pixels that fill `room`, each at least a few pixels.
std::vector<double> heightsOf(const std::vector<LayerPicture>& layers, double room) {
  double total = 0;
  for (const LayerPicture& layer : layers) total += layer.thickness_m;
  const double spare = std::max(0.0, room - leastLayer_px * static_cast<double>(layers.size()));
  std::vector<double> heights;
  for (const LayerPicture& layer : layers) heights.push_back(leastLayer_px + (total > 0 ? spare * layer.thickness_m / total : 0));
  return heights;
}

void paintLayer(QPainter& painter, const QRectF& box, const LayerPicture& layer) {
  painter.fillRect(box, layer.colour);
  if (box.height() < 8) return;  // a hatch would be noise
  QPainterPath path;
  path.addRect(box);
  paintHatch(painter, path, hatchOf(layer.behaviour), blend(layer.colour, inkOn(layer.colour), 0.35));
}

}  // namespace

std::vector<LayerPicture> layerPictures(const Coat& coat, const Library& materials) {
  std::vector<LayerPicture> pictures;
  for (const Layer& layer : coat) {
    pictures.push_back(
        {layerColour(layer, materials), behaviourOf(layer, materials), layer.thickness_m.likely, layerWords(layer, materials)});
  }
  return pictures;
}

void paintCoat(QPainter& painter, const QRectF& box, const std::vector<LayerPicture>& layers, const QPalette& palette) {
  painter.save();
  const std::vector<double> heights = heightsOf(layers, box.height() - metal_px);
  double top = box.top();
  for (std::size_t i = 0; i < layers.size(); ++i) {
    const QRectF row(box.left(), top, box.width(), heights[i]);
    paintLayer(painter, row, layers[i]);
    top = row.bottom();
  }
  const QRectF metal(box.left(), top, box.width(), box.bottom() - top);
  painter.fillRect(metal, QColor("#8a9299"));
  QPainterPath path;
  path.addRect(metal);
  paintHatch(painter, path, Hatch::Metal, QColor("#5d656b"));
  painter.setBrush(Qt::NoBrush);
  painter.setPen(tonesOf(palette).quiet);
  painter.drawRect(box);
  painter.restore();
}

CoatStrip::CoatStrip(std::vector<LayerPicture> layers, const QString& metal, QWidget* parent)
    : QWidget(parent), m_layers(std::move(layers)), m_metal(metal) {
  setObjectName(QStringLiteral("coatStrip"));
  QStringList spoken;
  for (const LayerPicture& layer : m_layers) spoken << layer.words;
  setAccessibleName(tr("Coat, from the top: %1; on %2").arg(spoken.join(QStringLiteral("; ")), metal));
  setToolTip(spoken.join(QLatin1Char('\n')));
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

int CoatStrip::rowHeight() const { return fontMetrics().height() + space::small; }

QSize CoatStrip::sizeHint() const { return {260, rowHeight() * static_cast<int>(m_layers.size() + 1)}; }
QSize CoatStrip::minimumSizeHint() const { return {140, sizeHint().height()}; }

void CoatStrip::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const int row = rowHeight();
  const QRectF sample(0.5, 0.5, sampleWidth, height() - 1);
  paintCoat(painter, sample, m_layers, palette());
  // A line of words to each layer: from its middle in the sample to the row of its words.
  const std::vector<double> heights = heightsOf(m_layers, sample.height() - metal_px);
  const Tones tones = tonesOf(palette());
  double middle = sample.top();
  for (std::size_t i = 0; i <= m_layers.size(); ++i) {
    const bool metal = i == m_layers.size();
    const double thick = metal ? sample.bottom() - middle : heights[i];
    const QRect text(sampleWidth + 24, static_cast<int>(i) * row, width() - sampleWidth - 24, row);
    painter.setPen(tones.line);
    painter.drawLine(QPointF(sample.right() + 2, middle + thick / 2), QPointF(text.left() - 4, text.center().y()));
    painter.setPen(tones.ink);
    const QString words = metal ? m_metal : m_layers[i].words;
    painter.drawText(text, Qt::AlignLeft | Qt::AlignVCenter, fontMetrics().elidedText(words, Qt::ElideRight, text.width()));
    middle += thick;
  }
}

}  // namespace bw
