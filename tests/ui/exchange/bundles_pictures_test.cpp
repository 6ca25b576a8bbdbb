// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/ui/exchange/bundle_window.h"
#include "tests/ui/keep_picture.h"

#include "core/exchange/export.h"

#include <QRadioButton>
#include <QTableView>
#include <QtTest>

using namespace bw;
using namespace bw::test;

namespace {

std::string idOf(unsigned number) { return QStringLiteral("r%1").arg(number).toStdString(); }

/// A bundle of another shop with something of every kind in it.
QString furnish(BundleWindow& window) {
  const auto begin = [](LibraryStore& store) {
    for (unsigned n = 0; n < 9; ++n) store.saveRecipe(recipeCalled(idOf(n), n));
  };
  {
    LibraryStore mine = window.reader();
    begin(mine);
    goOn(mine, "r4", "The far side gets warm after the third pass: wait until it is hand-warm.");
    goOn(mine, "r2", "mine two");
  }
  const QString file = window.fromOther([&](LibraryStore& store) {
    begin(store);
    Recipe recipe = store.recipe("r4");
    recipe.version.note = "Two swaths apart, with extraction at the source; the seam keeps a stripe.";
    recipe.version.plan.settings.travelSpeed_m_s = 0.012;
    recipe.version.plan.settings.passes = 5;
    recipe.version.proof->trials.front().settings = recipe.version.plan.settings;
    store.saveRecipe(recipe);
    store.setState("r2", 1, RecipeState::Withdrawn, "leaves a stripe at the seam", "hs");
    goOn(store, "r3", "theirs two");
    for (unsigned n = 20; n < 40; ++n) store.saveRecipe(recipeCalled(idOf(n), n));
    Coating coating = shippedLibrary().coatings.front();
    coating.absorptance.range = Range::exact(0.42);
    store.saveCoating(coating, 0);
    MachineCard card;
    card.machine = typicalMachines().front();
    card.machine.id = "bench-one";
    card.machine.name = "Bench one";
    store.saveMachine(card, 0);
  });
  Bundle bundle = openBundle(file.toStdString());
  bundle.from = "Workshop of the invented lakeside line";
  bundle.madeAt = "2026-03-20T10:00:00Z";
  bundle.note = "What we did to the carriages this winter. Ask before you try the bracket.";
  Attachment& left = bundle.recipes.front().versions.back().version.proof->attachments.emplace_back();
  left.sha256.assign(64, 'a');
  left.name = "panel.jpg";
  window.writeFile(file, writeBundle(bundle));
  return file;
}

}  // namespace

TEST_CASE("Pictures of giving away and bringing in, light and dark, small and large", "[screenshots][bundles]") {
  for (const Theme theme : test::pictureThemes()) {
    useStableLook(theme);
    const QString shade = test::shadeOf(theme);
    for (const QSize size : test::pictureSizes({QSize(1024, 700), QSize(1600, 1000)})) {
      const QString ending = QStringLiteral("-%1-").arg(size.width()) + shade;
      BundleWindow window;
      window->resize(size);
      const QString file = furnish(window);
      window.recipes().desk().open(window.libraryPath());
      window.answered();
      window.chooseFirst(RecipeState::Proven);
      keepPicture(window.operator->(), QStringLiteral("bundles-window") + ending);
      QDialog* dialog = window.bringIn(file);
      keepPicture(dialog, QStringLiteral("bundles-open") + ending);
      window.decide(dialog, window.entries(dialog)->rowOf(BundlePart::Recipe, "r4"), "decideTheirs");
      keepPicture(dialog, QStringLiteral("bundles-decided") + ending);
      window.part<QPushButton>(dialog, "allBoth")->click();
      window.part<QTableView>(dialog, "importEntries")->selectRow(4);
      keepPicture(dialog, QStringLiteral("bundles-all-decided") + ending);
      dialog->reject();
      QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
      window.writeFile(window.path("letter.bwbundle"), "a letter to the boiler inspector");
      dialog = window.bringIn(window.path("letter.bwbundle"));
      keepPicture(dialog, QStringLiteral("bundles-unusable") + ending);
      dialog->reject();
      window.click(window.find<QPushButton>("giveRecipe"));
      dialog = window.exporting();
      keepPicture(dialog, QStringLiteral("bundles-give") + ending);
      window.asker.paths = {window.path("out.bwbundle")};
      window.accept(dialog);
      keepPicture(dialog, QStringLiteral("bundles-written") + ending);
      dialog->reject();
      keepPicture(window.operator->(), QStringLiteral("bundles-after") + ending);
    }
  }
  useStableLook(Theme::Light);
}
