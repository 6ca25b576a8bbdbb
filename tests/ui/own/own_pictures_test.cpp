// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/keep_picture.h"
#include "tests/ui/own/own_shop.h"
#include "ui/own/entry_editor.h"
#include "ui/own/entry_view.h"
#include "ui/own/materials_page.h"
#include "ui/own/setup_readings.h"
#include "ui/own/setup_sheet.h"

#include "tests/support/catch.h"

#include <QFile>
#include <QPushButton>
#include <QTabWidget>

using namespace bw;
using test::OwnShop;

namespace {

void picture(OwnShop& shop, const QString& name) { test::keepPicture(&shop.page(), QStringLiteral("own-") + name); }

void fillSheet(OwnShop& shop) {
  SetupReadings& readings = shop.page().setup()->readings();
  readings.table(SetupReadings::Marks).paste({}, test::marksBlock());
  readings.table(SetupReadings::Frame).paste({}, test::frameBlock());
  readings.table(SetupReadings::Times).paste({}, test::timesBlock());
  readings.table(SetupReadings::Powers).paste({}, test::powersBlock());
  readings.table(SetupReadings::Rates).paste({}, test::ratesBlock());
  REQUIRE(QTest::qWaitFor([&] { return !shop.page().setup()->isBusy(); }, 10000));
}

void stock(OwnShop& shop) {
  shop.store().saveMachine(test::shedMachine(), 0);
  Coating white = *findCoating(shippedLibrary(), "alkyd-white");
  white.note = "As found on coach 14, under the lining.";
  white.absorptance = {{0.14, 0.2, 0.28}, "patch on coach 14, 2026-02-11", false, {}};
  shop.store().saveCoating(white, 0);
  shop.update([](Library& materials, std::vector<Machine>&) {
    for (Coating& coating : materials.coatings) {
      if (coating.id != "alkyd-white") continue;
      coating.absorptance.range = {0.12, 0.19, 0.3};
      coating.opticalDepth_m.range = {50e-6, 110e-6, 220e-6};
    }
  });
}

void picturesAt(OwnShop& shop, const QString& ending) {
  EntryEditor* coating = shop.page().coatings()->editor();
  shop.page().editMachine("shed-300");
  picture(shop, QStringLiteral("machine-") + ending);
  coating->view()->scrollToTop();
  shop.page().showTab(OwnPage::Coatings);
  picture(shop, QStringLiteral("coating-") + ending);
  EntryModel& model = coating->model();
  model.setData(model.index(model.rowOf("optical_depth_um"), EntryModel::Likely), "deep", Qt::EditRole);
  model.setData(model.index(model.rowOf("absorptance"), EntryModel::Low), "0.5", Qt::EditRole);
  coating->view()->scrollTo(model.index(model.rowOf("removal_temperature_C"), 0));
  picture(shop, QStringLiteral("coating-refused-") + ending);
  model.open(model.entry(), false);
  shop.page().showTab(OwnPage::Metals);
  picture(shop, QStringLiteral("metal-") + ending);
  shop.page().showTab(OwnPage::Changed);
  picture(shop, QStringLiteral("changes-") + ending);
  shop.page().setUpMachine("shed-300");
  auto* tabs = shop.find<QTabWidget>("setupTabs");
  for (int kind = 0; kind < SetupReadings::KindCount; ++kind) {
    tabs->setCurrentIndex(kind);
    picture(shop, QStringLiteral("setup-%1-").arg(kind) + ending);
  }
  tabs->setCurrentIndex(0);
}

}  // namespace

TEST_CASE("Pictures of what I own, light and dark, small and large", "[screenshots][own]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    OwnShop shop;
    stock(shop);
    QFile sheet(QStringLiteral(":/style/frame.qss"));  // as in the window
    REQUIRE(sheet.open(QIODevice::ReadOnly));
    shop.page().setStyleSheet(QString::fromUtf8(sheet.readAll()));
    shop.page().coatings()->choose("alkyd-white");
    shop.page().resize(1280, 680);  // what the window leaves of 1280 x 800
    shop.page().show();
    REQUIRE(QTest::qWaitForWindowExposed(&shop.page()));
    picture(shop, QStringLiteral("machines-1280-") + shade);
    shop.page().setUpMachine("shed-300");
    picture(shop, QStringLiteral("setup-empty-1280-") + shade);
    fillSheet(shop);
    picturesAt(shop, QStringLiteral("1280-") + shade);
    shop.page().resize(1920, 960);
    picturesAt(shop, QStringLiteral("1920-") + shade);
  }
  test::useStableLook(Theme::Light);
}
