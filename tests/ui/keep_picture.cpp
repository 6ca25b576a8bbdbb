// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/keep_picture.h"

#include "tests/support/catch.h"

#include <QDir>
#include <QWidget>
#include <QtTest>

namespace bw::test {

void keepPicture(QWidget* widget, const QString& name) {
  QCoreApplication::processEvents();
  QTest::qWait(60);
  const QPixmap pixmap = widget->grab();
  CHECK(pixmap.width() == qRound(widget->width() * widget->devicePixelRatioF()));
  QDir().mkpath(QStringLiteral(BAREWRIGHT_SCREENSHOTS));
  CHECK(pixmap.save(QStringLiteral(BAREWRIGHT_SCREENSHOTS "/%1.png").arg(name)));
}

}  // namespace bw::test
