// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/ui/exchange/bundle_window.h"

#include "core/files/file_io.h"
#include "core/files/project_file.h"
#include "ui/own/own_page.h"
#include "ui/recipes/find_panel.h"
#include "ui/recipes/recipe_list_model.h"

#include <QCheckBox>
#include <QLineEdit>
#include <QRadioButton>
#include <QSettings>
#include <QtTest>

#include <fstream>

using namespace bw;
using namespace bw::test;
using Catch::Matchers::Contains;

namespace {

/// A recipe with a photo beside the others; the photo's hash.
std::string addPhotographed(BundleWindow& window) {
  std::string hash;
  window.recipes().desk().write([&hash](LibraryStore& store) -> LibraryDesk::Delivery {
    Recipe recipe = recipeCalled("photographed", 4);
    recipe.version.proof->attachments = {store.attach(std::string(1500, 'p'), "panel.jpg")};
    hash = recipe.version.proof->attachments.front().sha256;
    store.saveRecipe(recipe);
    return {};
  });
  window.answered();
  return hash;
}

}  // namespace

TEST_CASE("A recipe goes from its page into a file and from there into another library", "[bundles][window]") {
  QSettings().remove("exchange/from");
  QTemporaryDir folder;
  const QString file = folder.filePath("panel.bwbundle");
  Recipe given;
  {
    BundleWindow window(12);
    const std::string id = window.chooseFirst(RecipeState::Proven).toStdString();
    given = window.reader().recipe(id);
    window.click(window.find<QPushButton>("giveRecipe"));
    QDialog* dialog = window.exporting();
    CHECK(window.part<QRadioButton>(dialog, "chooseRecipe")->isChecked());
    CHECK(window.textOf(dialog, "exportExtent") == "That is 1 recipe.");
    window.fill(dialog, "bundleFrom", "Narrow-gauge workshop");
    window.fill(dialog, "bundleNote", "wait between passes");
    window.asker.paths = {file};
    window.accept(dialog);
    CHECK(window.textOf(dialog, "exportDone").startsWith("Written: 1 recipe, "));
    CHECK(window.textOf(dialog, "exportDone").contains(file));
    CHECK_FALSE(window.part<QPushButton>(dialog, "doIt")->isVisible());
    CHECK(window.part<QPushButton>(dialog, "closeExport")->hasFocus());
  }
  const Bundle bundle = openBundle(file.toStdString());
  CHECK(bundle.from == "Narrow-gauge workshop");
  CHECK(bundle.note == "wait between passes");
  CHECK(QDateTime::fromString(QString::fromStdString(bundle.madeAt), Qt::ISODate).isValid());

  BundleWindow other;
  QDialog* dialog = other.bringIn(file);
  CHECK(other.textOf(dialog, "importOrigin").startsWith("From Narrow-gauge workshop, written on "));
  CHECK(other.textOf(dialog, "importOrigin").endsWith("In it: 1 recipe."));
  CHECK(other.textOf(dialog, "importNote") == "wait between passes");
  CHECK(other.textOf(dialog, "importCounts") == "1 is new.");
  CHECK(other.reader().recipeCount() == 0);  // looking changes nothing
  other.accept(dialog);
  const Recipe got = other.reader().recipe(given.id);
  CHECK(got.version.name == given.version.name);
  CHECK(got.state == RecipeState::Proven);
  CHECK(got.version.proof == given.version.proof);
  CHECK(other.recipes().find()->model()->rowCount() == 1);  // the list has it
  CHECK(other.bandText() == "Brought in from panel.bwbundle: 1 recipe.");
}

TEST_CASE("What is found now goes along, or everything; the size of the photos is told", "[bundles][window]") {
  BundleWindow window(12);
  addPhotographed(window);
  const QString name = QString::fromStdString(window.reader().recipe("photographed").version.name);
  window.find<QLineEdit>("recipeSearch")->setText(name);
  window.answered();
  window.click(window.find<QPushButton>("give"));
  QDialog* dialog = window.exporting();
  CHECK(window.part<QRadioButton>(dialog, "chooseFound")->isChecked());
  const auto listed = static_cast<std::size_t>(window.recipes().find()->model()->rowCount());
  const QString found = window.textOf(dialog, "exportExtent");
  window.part<QRadioButton>(dialog, "chooseEverything")->click();
  CHECK_FALSE(window.mayDoIt(dialog));  // until it is known how much that is
  window.answered();
  CHECK(window.textOf(dialog, "exportExtent") == "That is 13 recipes.");
  window.part<QRadioButton>(dialog, "chooseFound")->click();
  window.answered();
  CHECK(window.textOf(dialog, "exportExtent") == found);
  auto* attachments = window.part<QCheckBox>(dialog, "withAttachments");
  CHECK(attachments->text() == "Photos and documents go along (1, 1.5 kB)");
  CHECK(attachments->isChecked());
  SECTION("with the photo") {}
  SECTION("without it") { attachments->click(); }
  const bool along = attachments->isChecked();
  window.asker.paths = {window.path("found")};
  window.accept(dialog);
  const Bundle bundle = openBundle(window.path("found.bwbundle").toStdString());  // the ending is put to it
  CHECK(bundle.recipes.size() == listed);
  CHECK(bundle.files.size() == (along ? 1 : 0));
}

TEST_CASE("A file that is there is replaced only when that was said", "[bundles][window]") {
  BundleWindow window(3);
  window.writeFile(window.path("letter.bwbundle"), "a letter");
  window.click(window.find<QPushButton>("give"));
  QDialog* dialog = window.exporting();
  window.asker.paths = {window.path("letter")};
  window.asker.yes = {false};
  window.accept(dialog);
  CHECK(readWholeFile(window.path("letter.bwbundle").toStdString()) == "a letter");
  CHECK(window.mayDoIt(dialog));  // nothing else was lost
  window.asker.paths = {window.path("letter")};
  window.asker.yes = {true};
  window.accept(dialog);
  CHECK(openBundle(window.path("letter.bwbundle").toStdString()).recipes.size() == 3);
}

TEST_CASE("A bundle never takes the place of the library, and a place that cannot be written is told", "[bundles][window]") {
  BundleWindow window(3);
  const std::string before = contentOf(window.libraryPath());
  window.click(window.find<QPushButton>("give"));
  QDialog* dialog = window.exporting();
  window.asker.paths = {window.libraryPath()};
  window.asker.yes = {true};
  window.accept(dialog);
  CHECK_THAT(window.textOf(dialog, "exportProblem").toStdString(), Contains("is the library itself; another file is accepted"));
  window.asker.paths = {window.path("no such folder/out.bwbundle")};
  window.accept(dialog);
  CHECK_THAT(window.textOf(dialog, "exportProblem").toStdString(), Contains("no such folder"));
  CHECK(window.mayDoIt(dialog));
  CHECK(contentOf(window.libraryPath()) == before);
}

TEST_CASE("A photo that cannot go along is named when the file is written", "[bundles][window]") {
  BundleWindow window(0);
  const std::string hash = addPhotographed(window);
  const std::filesystem::path photo = window.reader().attachmentPath(hash);
  std::filesystem::permissions(photo, std::filesystem::perms::owner_all);
  std::ofstream(photo) << "something else";
  window.click(window.find<QPushButton>("give"));
  QDialog* dialog = window.exporting();
  window.asker.paths = {window.path("out.bwbundle")};
  window.accept(dialog);
  CHECK_THAT(window.part<QWidget>(dialog, "exportNotices")->accessibleName().toStdString(), Contains("\"panel.jpg\" did not go along"));
  CHECK(openBundle(window.path("out.bwbundle").toStdString()).files.empty());
}

TEST_CASE("Where nothing is found there is nothing to give", "[bundles][window]") {
  BundleWindow window(3);
  window.find<QLineEdit>("recipeSearch")->setText("no such word anywhere");
  window.answered();
  window.click(window.find<QPushButton>("give"));
  QDialog* dialog = window.exporting();
  CHECK_FALSE(window.mayDoIt(dialog));
  CHECK(window.textOf(dialog, "missing") == "There is nothing of that to give.");
}

TEST_CASE("A machine of the shop is given away from where it is edited", "[bundles][window]") {
  BundleWindow window(2);
  window.recipes().desk().write([](LibraryStore& store) -> LibraryDesk::Delivery {
    MachineCard card;
    card.machine = typicalMachines().front();
    card.machine.id = "bench-one";
    card.machine.name = "Bench one";
    store.saveMachine(card, 0);
    return {};
  });
  window.answered();
  window.recipes().showOwn();
  window.answered();
  window.recipes().own()->editMachine("bench-one");
  QPushButton* give = nullptr;  // of the editor that shows
  for (QPushButton* button : window.recipes().own()->findChildren<QPushButton*>("giveEntry")) {
    if (button->isVisible()) give = button;
  }
  window.click(give);
  QDialog* dialog = window.exporting();
  CHECK(window.part<QRadioButton>(dialog, "chooseEntry")->text() == "This machine: “Bench one”");
  window.asker.paths = {window.path("machine.bwbundle")};
  window.accept(dialog);
  const Bundle bundle = openBundle(window.path("machine.bwbundle").toStdString());
  REQUIRE(bundle.machines.size() == 1);
  CHECK(bundle.machines[0].machine.id == "bench-one");
  CHECK(bundle.recipes.empty());
}
