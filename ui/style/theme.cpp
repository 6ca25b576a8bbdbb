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
  QColor ground, sheet, raised, ink, quiet, faint, line, accent, onAccent;
};

Greys greysOf(Theme theme) {
  if (theme == Theme::Dark) return {"#1f2123", "#282b2d", "#34383b", "#e8eaeb", "#a9afb3", "#70767a", "#43484c", "#6db3d6", "#10212b"};
  return {"#eceeef", "#ffffff", "#f6f7f7", "#1c2124", "#545c61", "#8f979c", "#d3d8da", "#1d5f86", "#ffffff"};
}

void setText(QPalette& palette, QPalette::ColorRole role, const Greys& greys) {
  palette.setColor(role, greys.ink);
  palette.setColor(QPalette::Disabled, role, greys.faint);
}

}  // namespace

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
}

bool isDark(const QPalette& palette) { return palette.color(QPalette::Window).lightness() < 128; }

Tones tonesOf(const QPalette& palette) {
  const bool dark = isDark(palette);
  const Greys greys = greysOf(dark ? Theme::Dark : Theme::Light);
  return {palette.color(QPalette::Text), palette.color(QPalette::PlaceholderText), palette.color(QPalette::Mid),
          palette.color(QPalette::Window), palette.color(QPalette::Base), greys.accent, QColor(dark ? "#d9a441" : "#9a5b00")};
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
  painter.setPen(Qt::NoPen);
  painter.setBrush(stateColour(status, palette));
  painter.drawEllipse(box);
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

Status worstOf(const std::vector<VerdictRow>& rows) {
  for (const Status status : {Status::Fails, Status::Near, Status::NotKnown}) {
    if (std::any_of(rows.begin(), rows.end(), [status](const VerdictRow& row) { return row.status == status; })) return status;
  }
  return rows.empty() ? Status::NotKnown : Status::Meets;
}

}  // namespace bw
