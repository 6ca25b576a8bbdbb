// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRect>

#include <optional>

class QWidget;

namespace bw {

/// Where a window opens on a screen with this much room: as it was left, else in a good size in the middle; always as a whole.
QRect placeWithin(const QRect& room, const std::optional<QRect>& left);

/// Puts the window where it was left, or where it fits.
void openInPlace(QWidget& window);
void rememberPlace(const QWidget& window);

}  // namespace bw
