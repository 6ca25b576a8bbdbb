// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/keep_picture.h"
#include "tests/ui/recipes/recipe_support.h"
#include "ui/readings/csv_dialog.h"

#include "tests/support/catch.h"

#include <QPushButton>
#include <QtTest>

using namespace bw;
using test::keepPicture;
using test::RecipesWindow;

namespace {

QByteArray gaugeFile() {
  QByteArray bytes = "Gauge no. 2, invented\nNo;DFT before [\xC2\xB5m];Thickness;Remark\n";
  for (int i = 1; i <= 24; ++i) {
    const QByteArray value = i == 5 ? "OL" : QByteArray::number(134 + (i * 7) % 17) + "," + QByteArray::number(i % 10);
    bytes +=
        QByteArray::number(i) + ";" + value + ";" + QByteArray::number(20 + (i * 5) % 9) + ",0;" + (i % 6 == 0 ? "beading" : "") + "\n";
  }
  return bytes;
}

QByteArray logFile() {
  QByteArray bytes =
      "time,front [\xC2\xB0"
      "C],back [\xC2\xB0"
      "F],room\n";
  for (int i = 0; i < 60; ++i)
    bytes += "14:05:" + QByteArray::number(i).rightJustified(2, '0') + "," + QByteArray::number(20.5 + i * 3) + "," +
             QByteArray::number(70 + i * 2.5) + ",21.5\n";
  return bytes;
}

}  // namespace

TEST_CASE("Pictures of readings from files, light and dark, small and large", "[screenshots][readings]") {
  const std::pair<const char*, QByteArray> files[] = {
      {"gauge", gaugeFile()}, {"log", logFile()}, {"junk", QByteArray("\x00\x01\x02\xff\xfe junk", 10)}};
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    RecipesWindow window(12);
    window.chooseFirst(RecipeState::Draft);
    for (const QSize size : test::pictureSizes({QSize(1024, 700), QSize(1600, 1000)})) {
      const QString ending = QStringLiteral("-%1-").arg(size.width()) + shade;
      window->resize(size);
      window.click(window.find<QPushButton>("addTrial"));
      QDialog* form = window.dialog("proveDialog");
      for (const auto& [name, bytes] : files) {
        const QString path = QFileInfo(window.libraryPath()).dir().filePath(QStringLiteral("%1.csv").arg(name));
        QFile file(path);
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
        file.close();
        window.asker.paths = {path};
        form->findChild<QPushButton*>("readingsFromFile")->click();
        auto* csv = static_cast<CsvDialog*>(window.dialog("csvDialog"));
        REQUIRE(QTest::qWaitFor([&] { return !csv->reader().isBusy(); }, 20000));
        keepPicture(csv, QStringLiteral("readings-%1").arg(name) + ending);
        name == std::string_view("junk") ? csv->reject() : csv->accept();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
      }
      keepPicture(form, QStringLiteral("readings-form") + ending);
      form->reject();
      QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    }
  }
  test::useStableLook(Theme::Light);
}
