// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/typical_machines.h"
#include "tests/ui/keep_picture.h"
#include "tests/ui/own/own_shop.h"
#include "tests/ui/recipes/recipe_support.h"
#include "tests/ui/remembered_model.h"
#include "ui/fields/chooser.h"
#include "ui/own/add_machine_page.h"
#include "ui/own/own_page.h"
#include "ui/plan/layer_test_button.h"
#include "ui/start/start_page.h"

#include "tests/support/catch.h"

#include <QAction>
#include <QMenu>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QToolButton>

using namespace bw;
using test::RecipesWindow;

namespace {

void shopPicture(RecipesWindow& window, const QString& name, const QString& shade) {
  QCoreApplication::processEvents();
  test::keepPicture(window.operator->(), QStringLiteral("shop-%1-%2").arg(name, shade));
}

void stockShop(RecipesWindow& window) {
  window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
    store.saveMachine(test::shedMachine(), 0);
    ShopFacts facts;
    facts.currency = "EUR";
    facts.site = {12, 0.6, 3600, true, 2, 2, 6, 1, {}};
    facts.extraction = {true, 900.0 / 3600, {Filter::SparkTrap, Filter::FineDust}, {}};
    facts.prices = {{}, 42, {}};
    store.saveShop(facts);
    return {};
  });
  window.answered();
}

void unfoldRoom(RecipesWindow& window) {
  window.find<QToolButton>("editShop")->setChecked(true);
  QCoreApplication::processEvents();
  auto* inputs = window.find<QScrollArea>("inputs");
  inputs->verticalScrollBar()->setValue(inputs->verticalScrollBar()->maximum());
}

}  // namespace

TEST_CASE("Pictures of the shop's own things in the plan, light and dark", "[screenshots]") {
  for (const Theme theme : test::pictureThemes()) {
    test::useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    RecipesWindow window(2, test::pictureModel());
    window->resize(1280, 800);
    stockShop(window);
    window->openExample();
    window.settle();
    unfoldRoom(window);
    shopPicture(window, "room", shade);
    window.find<QToolButton>("editShop")->setChecked(false);
    window.find<QToolButton>("editCoat")->setChecked(true);
    window.find<QScrollArea>("inputs")->verticalScrollBar()->setValue(0);
    shopPicture(window, "layer", shade);
    auto* chooser = window.find<Chooser>("machine");
    const int own = chooser->findText(QStringLiteral("My shop"), Qt::MatchStartsWith);
    REQUIRE(own >= 0);
    chooser->setCurrentIndex(own);
    emit chooser->activated(own);
    window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
      MachineCard card = test::shedMachine();
      card.machine.spotDiameter_m *= 1.2;
      card.machine.deliveredPower_W = 201;
      store.saveMachine(card, 1);
      return {};
    });
    window.answered();
    window.settle();
    shopPicture(window, "update", shade);
    window.find<QAction>("myShop")->trigger();
    window.answered();
    shopPicture(window, "my-shop", shade);
    window.recipes().own()->showTab(OwnPage::Machines);
    shopPicture(window, "machines", shade);
    window.recipes().showNewMachine();
    shopPicture(window, "add", shade);
    window.asker.unsaved = {UnsavedAnswer::Discard};
    window->openExample();
    window.find<QPushButton>("startMyPart")->click();
    shopPicture(window, "start", shade);
  }
  test::useStableLook(Theme::Light);
}
