// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/style/theme.h"

#include <QSize>
#include <QString>

#include <vector>

class QWidget;

namespace bw::test {

/// A picture for people to look at, among the build's screenshots; the checks only see that the whole of it was drawn and kept.
void keepPicture(QWidget* widget, const QString& name);

/// Themes to take pictures in: the light one, or where everything is wanted both.
std::vector<Theme> pictureThemes();

/// The same of sizes: the middle one, or all.
std::vector<QSize> pictureSizes(const std::vector<QSize>& all);

/// "light" or "dark", as a picture's name ends.
QString shadeOf(Theme theme);

}  // namespace bw::test
