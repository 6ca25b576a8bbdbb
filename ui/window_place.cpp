// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window_place.h"

#include <QApplication>
#include <QScreen>
#include <QSettings>

#include <algorithm>

namespace bw {
namespace {

const QString placeKey = QStringLiteral("window/place");
const QString maximisedKey = QStringLiteral("window/maximised");
constexpr QSize good(1280, 800);
constexpr double shareOfLarge = 0.85;  // of a large screen; the rest is left for other windows
constexpr int titleBar = 32;           // the window's frame is only known once it is shown

std::optional<QRect> leftAt() {
  const QRect place = QSettings().value(placeKey).toRect();
  return place.isValid() ? std::optional(place) : std::nullopt;
}

QScreen* screenOf(const std::optional<QRect>& place) {
  QScreen* screen = place ? QGuiApplication::screenAt(place->center()) : nullptr;
  return screen != nullptr ? screen : QGuiApplication::primaryScreen();
}

}  // namespace

QRect placeWithin(const QRect& room, const std::optional<QRect>& left) {
  const QRect free = room.adjusted(0, titleBar, 0, 0);
  const QSize wanted = left ? left->size() : good.expandedTo(free.size() * shareOfLarge);
  QRect place(QPoint(), wanted.boundedTo(free.size()));
  if (left) {
    place.moveTopLeft(left->topLeft());
  } else {
    place.moveCenter(free.center());
  }
  place.moveLeft(std::clamp(place.left(), free.left(), free.right() - place.width() + 1));
  place.moveTop(std::clamp(place.top(), free.top(), free.bottom() - place.height() + 1));
  return place;
}

void openInPlace(QWidget& window) {
  const auto left = leftAt();
  window.setGeometry(placeWithin(screenOf(left)->availableGeometry(), left));
  if (QSettings().value(maximisedKey).toBool()) window.setWindowState(window.windowState() | Qt::WindowMaximized);
}

void rememberPlace(const QWidget& window) {
  QSettings settings;
  settings.setValue(placeKey, window.isMaximized() ? window.normalGeometry() : window.geometry());
  settings.setValue(maximisedKey, window.isMaximized());
}

}  // namespace bw
