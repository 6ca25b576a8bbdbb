// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/style/theme.h"

#include <QApplication>
#include <QPainter>
#include <QPixmap>
#include <QStyleFactory>
#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

struct Greys {
  QColor ground, sheet, raised, ink, quiet, faint, line, accent, onAccent, second;
};

Greys greysOf(Theme theme) {
  if (theme == Theme::Dark) {
    return {"#1d1f21", "#26292b", "#323639", "#e9ebec", "#aab1b5", "#737a7f", "#42474b", "#caa6d2", "#2a1230", "#aab1b5"};
  }
  return {"#eceeef", "#ffffff", "#f6f7f8", "#1b2023", "#525a5f", "#8d959a", "#d2d7da", "#6d3f77", "#ffffff", "#525a5f"};
}

void setText(QPalette& palette, QPalette::ColorRole role, const Greys& greys) {
  palette.setColor(role, greys.ink);
  palette.setColor(QPalette::Disabled, role, greys.faint);
}

QPolygonF polygon(QPointF centre, double radius, int corners, double start_deg) {
  QPolygonF made;
  for (int i = 0; i < corners; ++i) {
    const double angle = (start_deg + 360.0 * i / corners) * std::numbers::pi / 180;
    made << centre + radius * QPointF(std::cos(angle), std::sin(angle));
  }
  return made;
}

void paintQuestion(QPainter& painter, QPointF centre, double side, const QColor& colour) {
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(colour, side * 0.1));
  painter.drawEllipse(centre, side * 0.42, side * 0.42);
  QFont font = painter.font();
  font.setPixelSize(std::max(1, static_cast<int>(side * 0.62)));
  font.setBold(true);
  painter.setFont(font);
  painter.drawText(QRectF(centre.x() - side / 2, centre.y() - side / 2, side, side), Qt::AlignCenter, QStringLiteral("?"));
}

}  // namespace

QFont smallFont(QFont font, bool heavy) {
  font.setPixelSize(space::leastFont);
  font.setBold(heavy);
  return font;
}

QPalette paletteOf(Theme theme) {
  const Greys greys = greysOf(theme);
  QPalette palette(greys.raised, greys.ground);
  palette.setColor(QPalette::Base, greys.sheet);
  palette.setColor(QPalette::AlternateBase, greys.raised);
  palette.setColor(QPalette::ToolTipBase, greys.raised);
  palette.setColor(QPalette::ToolTipText, greys.ink);
  palette.setColor(QPalette::PlaceholderText, greys.quiet);
  palette.setColor(QPalette::Mid, greys.line);
  palette.setColor(QPalette::Highlight, greys.accent);
  palette.setColor(QPalette::HighlightedText, greys.onAccent);
  palette.setColor(QPalette::Link, greys.accent);
  palette.setColor(QPalette::LinkVisited, greys.accent);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) setText(palette, role, greys);
  return palette;
}

void applyTheme(Theme theme) {
  QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
  QApplication::setPalette(paletteOf(theme));
  QFont font = QApplication::font();
  font.setPixelSize(space::bodyFont);
  QApplication::setFont(font);
}

bool isDark(const QPalette& palette) { return palette.color(QPalette::Window).lightness() < 128; }

Tones tonesOf(const QPalette& palette) {
  const Greys greys = greysOf(isDark(palette) ? Theme::Dark : Theme::Light);
  return {palette.color(QPalette::Text),   palette.color(QPalette::PlaceholderText), palette.color(QPalette::Mid),
          palette.color(QPalette::Window), palette.color(QPalette::Base),            greys.accent,
          greys.second};
}

QColor blend(const QColor& under, const QColor& over, double share) {
  const auto mix = [share](int a, int b) { return static_cast<int>(std::lround(a + (b - a) * share)); };
  return QColor(mix(under.red(), over.red()), mix(under.green(), over.green()), mix(under.blue(), over.blue()));
}

QColor stateColour(Status status, const QPalette& palette) {
  switch (status) {
    case Status::Meets: return "#0072B2";
    case Status::Near: return "#E69F00";
    case Status::Fails: return "#D55E00";
    case Status::NotKnown: break;
  }
  return isDark(palette) ? "#8f979c" : "#7a8288";
}

QString stateWord(Status status) {
  switch (status) {
    case Status::Meets: return QStringLiteral("meets");
    case Status::Near: return QStringLiteral("near limit");
    case Status::Fails: return QStringLiteral("fails");
    case Status::NotKnown: break;
  }
  return QStringLiteral("not known");
}

void paintState(QPainter& painter, const QRectF& box, Status status, const QPalette& palette) {
  const double side = std::min(box.width(), box.height());
  const QPointF centre = box.center();
  const QColor colour = stateColour(status, palette);
  painter.save();
  painter.setPen(Qt::NoPen);
  painter.setBrush(colour);
  switch (status) {
    case Status::Meets: painter.drawEllipse(centre, side * 0.42, side * 0.42); break;
    case Status::Near: painter.drawPolygon(polygon(centre + QPointF(0, side * 0.1), side * 0.56, 3, -90)); break;
    case Status::Fails: painter.drawPolygon(polygon(centre, side * 0.5, 8, 22.5)); break;
    case Status::NotKnown: paintQuestion(painter, centre, side, colour); break;
  }
  painter.restore();
}

QPixmap statePixmap(Status status, int side_px, const QPalette& palette, double devicePixelRatio) {
  const int side = static_cast<int>(std::ceil(side_px * devicePixelRatio));
  QPixmap pixmap(side, side);
  pixmap.setDevicePixelRatio(devicePixelRatio);
  pixmap.fill(Qt::transparent);
  QPainter painter(&pixmap);
  painter.setRenderHint(QPainter::Antialiasing);
  paintState(painter, QRectF(0, 0, side_px, side_px), status, palette);
  return pixmap;
}

}  // namespace bw
