// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/icon.h"

#include <QApplication>
#include <QFile>
#include <QIconEngine>
#include <QPainter>
#include <QPalette>
#include <QSvgRenderer>

namespace bw {
namespace {

/// Paints the drawing's "currentColor" in the colour of text at the time of painting, so that a change of theme needs nothing.
class LineIconEngine : public QIconEngine {
 public:
  explicit LineIconEngine(QByteArray drawing) : m_drawing(std::move(drawing)) {}

  void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State) override {
    const auto group = mode == QIcon::Disabled ? QPalette::Disabled : QPalette::Active;
    QByteArray drawing = m_drawing;
    drawing.replace("currentColor", QApplication::palette().color(group, QPalette::ButtonText).name().toUtf8());
    QSvgRenderer(drawing).render(painter, rect);
  }

  QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
    if (size.isEmpty()) return {};
    QPixmap pixmap(size);
    pixmap.fill(Qt::transparent);
    QPainter painter(&pixmap);
    paint(&painter, QRect(QPoint(0, 0), size), mode, state);
    return pixmap;
  }

  QIconEngine* clone() const override { return new LineIconEngine(m_drawing); }

 private:
  QByteArray m_drawing;
};

}  // namespace

QIcon lineIcon(const QString& name) {
  QFile file(QStringLiteral(":/icons/%1.svg").arg(name));
  if (!file.open(QIODevice::ReadOnly)) return {};
  return QIcon(new LineIconEngine(file.readAll()));
}

}  // namespace bw
