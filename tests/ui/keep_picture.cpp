// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/keep_picture.h"

#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <QDir>
#include <QWidget>
#include <QtTest>

namespace bw::test {

std::vector<Theme> pictureThemes() { return thorough() ? std::vector{Theme::Light, Theme::Dark} : std::vector{Theme::Light}; }

std::vector<QSize> pictureSizes(const std::vector<QSize>& all) { return thorough() ? all : std::vector{all[all.size() / 2]}; }

QString shadeOf(Theme theme) { return theme == Theme::Light ? QStringLiteral("light") : QStringLiteral("dark"); }

void keepPicture(QWidget* widget, const QString& name) {
  QCoreApplication::processEvents();
  QTest::qWait(60);
  const QPixmap pixmap = widget->grab();
  CHECK(pixmap.width() == qRound(widget->width() * widget->devicePixelRatioF()));
  QDir().mkpath(QStringLiteral(BAREWRIGHT_SCREENSHOTS));
  CHECK(pixmap.save(QStringLiteral(BAREWRIGHT_SCREENSHOTS "/%1.png").arg(name)));
}

}  // namespace bw::test
