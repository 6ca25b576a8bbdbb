// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/style/hatch.h"

#include "core/files/library_file.h"

#include <QPainter>
#include <QPainterPath>
#include <array>
#include <cmath>

namespace bw {

namespace {

constexpr double step_px = 7;

double snapped(double value, double step) { return std::floor(value / step) * step; }

void slanted(QPainter& painter, const QRectF& box, double step, bool rising) {
  const double reach = box.height();
  const double slope = rising ? 1 : -1;
  const double first = snapped(box.left() - reach + slope * box.bottom(), step) - slope * box.bottom();
  for (double x = first; x < box.right() + reach; x += step) {
    painter.drawLine(QPointF(x, box.bottom()), QPointF(x + slope * reach, box.top()));
  }
}

void dots(QPainter& painter, const QRectF& box) {
  painter.setBrush(painter.pen().color());
  painter.setPen(Qt::NoPen);
  for (double y = snapped(box.top(), step_px); y < box.bottom() + step_px; y += step_px) {
    const double shift = std::fmod(std::abs(std::round(y / step_px)), 2) < 0.5 ? 0 : step_px / 2;
    for (double x = snapped(box.left(), step_px) + shift; x < box.right(); x += step_px) painter.drawEllipse(QPointF(x, y), 0.8, 0.8);
  }
}

void waves(QPainter& painter, const QRectF& box) {
  constexpr double length = 14, height = 2;
  painter.setBrush(Qt::NoBrush);
  for (double y = snapped(box.top(), step_px); y < box.bottom() + step_px; y += step_px) {
    QPainterPath line;
    double x = snapped(box.left(), length);
    line.moveTo(x, y);
    for (; x < box.right(); x += length) {
      line.quadTo(x + length / 4, y - height * 2, x + length / 2, y);
      line.quadTo(x + 3 * length / 4, y + height * 2, x + length, y);
    }
    painter.drawPath(line);
  }
}

void flakes(QPainter& painter, const QRectF& box) {
  constexpr double length = 9, across = 13;
  for (double y = snapped(box.top(), step_px); y < box.bottom() + step_px; y += step_px) {
    const double shift = std::fmod(std::abs(std::round(y / step_px)), 2) < 0.5 ? 0 : across / 2;
    for (double x = snapped(box.left(), across) + shift - across; x < box.right(); x += across) {
      painter.drawPolyline(QPolygonF{QPointF(x, y), QPointF(x + length / 2, y - 3), QPointF(x + length, y)});
    }
  }
}

// Words of the workshop that Qt's colour names lack.
constexpr std::array<std::pair<const char*, const char*>, 12> paintWords = {{{"cream", "#efe3c2"},
                                                                             {"red oxide", "#8c3b2a"},
                                                                             {"primrose", "#efd67f"},
                                                                             {"buff", "#d2b48c"},
                                                                             {"black", "#26282a"},
                                                                             {"clear", "#e8e4d4"},
                                                                             {"rust", "#8a4b2a"},
                                                                             {"zinc", "#a9b0b4"},
                                                                             {"bitumen", "#2b2724"},
                                                                             {"filler", "#b7a88f"},
                                                                             {"green", "#3e5f46"},
                                                                             {"blue", "#34527a"}}};

const Coating* coatingOf(const Layer& layer, const Library& own) {
  const Coating* found = findCoating(own, layer.coating);
  return found != nullptr ? found : findCoating(shippedLibrary(), layer.coating);
}

QColor fromWord(const std::string& word) {
  for (const auto& [name, colour] : paintWords) {
    if (word == name) return QString::fromLatin1(colour);
  }
  const QString text = QString::fromStdString(word);
  return QColor::fromString(text);
}

}  // namespace

Hatch hatchOf(Behaviour behaviour) {
  switch (behaviour) {
    case Behaviour::Decomposes: return Hatch::None;
    case Behaviour::Softens: return Hatch::Waves;
    case Behaviour::Spalls: return Hatch::Flakes;
    case Behaviour::Scorches: break;
  }
  return Hatch::Dots;
}

QString behaviourWord(Behaviour behaviour) {
  switch (behaviour) {
    case Behaviour::Decomposes: return QStringLiteral("decomposes");
    case Behaviour::Softens: return QStringLiteral("softens");
    case Behaviour::Spalls: return QStringLiteral("spalls");
    case Behaviour::Scorches: break;
  }
  return QStringLiteral("scorches");
}

void paintHatch(QPainter& painter, const QPainterPath& area, Hatch hatch, const QColor& line) {
  if (hatch == Hatch::None || area.isEmpty()) return;
  painter.save();
  painter.setClipPath(area, Qt::IntersectClip);
  painter.setPen(QPen(line, 1));
  const QRectF box = area.boundingRect();
  switch (hatch) {
    case Hatch::None: break;
    case Hatch::Diagonal: slanted(painter, box, step_px, true); break;
    case Hatch::Metal: slanted(painter, box, 5, true); break;
    case Hatch::Crossed:
      slanted(painter, box, step_px, true);
      slanted(painter, box, step_px, false);
      break;
    case Hatch::Dots: dots(painter, box); break;
    case Hatch::Waves: waves(painter, box); break;
    case Hatch::Flakes: flakes(painter, box); break;
  }
  painter.restore();
}

QColor layerColour(const Layer& layer, const Library& library) {
  QColor colour = layer.colour ? fromWord(*layer.colour) : QColor();
  if (colour.isValid()) return colour;
  const Coating* coating = coatingOf(layer, library);
  if (coating != nullptr) colour = QColor(QString::fromStdString(coating->colour));
  return colour.isValid() ? colour : QColor("#9a9fa2");
}

Behaviour behaviourOf(const Layer& layer, const Library& library) {
  if (layer.behaviour) return *layer.behaviour;
  const Coating* coating = coatingOf(layer, library);
  return coating != nullptr ? coating->behaviour : Behaviour::Decomposes;
}

QColor inkOn(const QColor& ground) {
  return qGray(ground.rgb()) > 128 ? QColor("#1b2023") : QColor("#f4f5f5");
}

}  // namespace bw
