// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QIcon>

namespace bw {

/// A line icon from resources/icons, drawn in the palette's text colour at any size and scale.
QIcon lineIcon(const QString& name);

}  // namespace bw
