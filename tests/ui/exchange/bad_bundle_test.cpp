// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include "tests/ui/exchange/bundle_window.h"

#include "core/files/project_file.h"

#include <QDir>
#include <QFile>
#include <QtTest>

using namespace bw;
using namespace bw::test;
using Catch::Matchers::Contains;

namespace {

std::string replaced(std::string text, const std::string& old, const std::string& with) {
  const std::size_t at = text.find(old);
  REQUIRE(at != std::string::npos);
  return text.replace(at, old.size(), with);
}

std::string goodBundle(BundleWindow& window) {
  const QString file = window.fromOther([](LibraryStore& store) {
    Recipe recipe = recipeCalled("vent", 4);
    recipe.version.proof->attachments = {store.attach("bytes of a photo", "panel.jpg")};
    store.saveRecipe(recipe);
  });
  return readWholeFile(file.toStdString());
}

/// One sentence in the dialog, and nothing to press but another file or away.
void checkRefused(BundleWindow& window, const QString& file, const std::string& words) {
  const std::string before = contentOf(window.libraryPath());
  QDialog* dialog = window.bringIn(file);
  const std::string sentence = window.textOf(dialog, "importUnusable").toStdString();
  CHECK_THAT(sentence, Contains(words));
  CHECK(sentence.find('\n') == std::string::npos);
  CHECK_FALSE(window.part<QPushButton>(dialog, "doIt")->isVisible());
  CHECK_FALSE(window.mayDoIt(dialog));
  CHECK(window.part<QPushButton>(dialog, "anotherBundle")->isVisible());
  dialog->reject();
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  CHECK(contentOf(window.libraryPath()) == before);
}

}  // namespace

TEST_CASE("Files that are no good bundles are refused in a sentence, the library untouched", "[bundles][window]") {
  BundleWindow window(3);
  const std::string good = goodBundle(window);
  const QString file = window.path("spoiled.bwbundle");
  const auto refused = [&](const std::string& text, const std::string& words) {
    window.writeFile(file, text);
    checkRefused(window, file, words);
  };
  refused(good.substr(0, good.size() / 2), "spoiled.bwbundle");                                                 // truncated
  refused(replaced(good, "\"version\": 1", "\"version\": 2"), "version");                                       // newer
  refused(replaced(good, "\"panel.jpg\"", "\"../../panel.jpg\""), "panel.jpg");                                 // hostile
  refused(replaced(good, "{", "{\"deep\": " + std::string(200, '[') + std::string(200, ']') + ","), "nested");  // hostile
  refused("a letter to the boiler inspector", "spoiled.bwbundle");                                              // foreign
  refused(readWholeFile(dataFile("panel.bwright").toStdString()), "format");                                    // another of our files
  refused(std::string("\0\1\2\3", 4), "spoiled.bwbundle");
  refused("", "spoiled.bwbundle");
}

TEST_CASE("A file too large, a folder and one that is gone are refused as well", "[bundles][window]") {
  BundleWindow window(1);
  QFile large(window.path("large.bwbundle"));
  REQUIRE(large.open(QIODevice::WriteOnly));
  REQUIRE(large.resize(400LL * 1000 * 1000));
  large.close();
  checkRefused(window, large.fileName(), "holds 400 MB; up to 268 MB is accepted");
  REQUIRE(QDir().mkpath(window.path("folder.bwbundle")));
  checkRefused(window, window.path("folder.bwbundle"), "is a folder; the path of a bundle is accepted");
  checkRefused(window, window.path("gone.bwbundle"), "there is no such file");
}

TEST_CASE("From a file that is no good one goes on to another", "[bundles][window]") {
  BundleWindow window(1);
  goodBundle(window);
  window.writeFile(window.path("letter.bwbundle"), "a letter");
  QDialog* dialog = window.bringIn(window.path("letter.bwbundle"));
  window.asker.paths = {window.path("theirs.bwbundle")};
  window.part<QPushButton>(dialog, "anotherBundle")->click();
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  QDialog* another = window.importing();
  CHECK(window.entries(another)->rowCount() == 1);
  window.accept(another);
  CHECK(window.reader().findRecipe("vent"));
}

TEST_CASE("A proof that nobody signed is refused before anything is written", "[bundles][window]") {
  BundleWindow window(1);
  goodBundle(window);
  Bundle bundle = openBundle(window.path("theirs.bwbundle").toStdString());
  bundle.recipes.front().versions.back().version.proof.reset();
  window.writeFile(window.path("unsigned.bwbundle"), writeBundle(bundle));
  QDialog* dialog = window.bringIn(window.path("unsigned.bwbundle"));
  CHECK_THAT(window.textOf(dialog, "importUnusable").toStdString(), Contains("cannot be called proven"));
  CHECK(window.reader().recipeCount() == 1);
}
