// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "tests/ui/support.h"
#include "ui/document/edits.h"
#include "ui/fields/quantity_field.h"

#include "tests/support/catch.h"

#include <QDir>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>

using namespace bw;
using test::Window;

namespace {

void put(const QString& path, const QByteArray& text) {
  QFile file(path);
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(text);
}

QString copies(const QString& folder) { return QDir(folder).entryList({"*.bwright"}).join(' '); }

}  // namespace

TEST_CASE("A file that cannot be read is told in a sentence, and the open project stays", "[files]") {
  Window window;
  QTemporaryDir folder;
  edits::rename(window.document(), "Mine");
  const Project before = window.document().project();
  put(folder.filePath("broken.bwright"), "{\"format\": \"barewright-project\"");
  put(folder.filePath("empty.bwright"), "");
  for (const char* name : {"broken.bwright", "empty.bwright", "missing.bwright"}) {
    INFO(name);
    window.asker.told.clear();
    CHECK_FALSE(window->openFile(folder.filePath(name)));
    REQUIRE(window.asker.told.size() == 1);
    CHECK(window.asker.told[0].contains("cannot be opened"));
    CHECK(window.asker.told[0].contains("unchanged"));
    CHECK(window.document().project() == before);
    CHECK(window.document().undoStack().canUndo());
  }
  CHECK(window.asker.unsavedAsked == 0);
}

TEST_CASE("What is saved is what is opened again", "[files]") {
  Window window;
  QTemporaryDir folder;
  edits::setLayerThickness(window.document(), 0, {40e-6, 50e-6, 70e-6}, KnownFrom::Gauge);
  edits::setPasses(window.document(), 6);
  const Project saved = window.document().project();
  window.asker.paths = {folder.filePath("panel")};
  REQUIRE(window->files().save());
  CHECK_FALSE(window.document().isModified());
  CHECK(window.document().filePath().endsWith("panel.bwright"));
  CHECK(window.find<QLabel>("savedState")->text() == "Saved");

  Window other;
  REQUIRE(other->openFile(folder.filePath("panel.bwright")));
  Project opened = other.document().project();
  opened.library = saved.library;  // what it names is copied in on saving
  CHECK(opened == saved);
  CHECK(other->files().recent().front() == folder.filePath("panel.bwright"));
}

TEST_CASE("Saving where that is not possible says so and keeps the work unsaved", "[files]") {
  Window window;
  edits::setPasses(window.document(), 6);
  window.asker.paths = {"/nowhere/at/all/panel.bwright"};
  CHECK_FALSE(window->files().save());
  REQUIRE(window.asker.told.size() == 1);
  CHECK(window.asker.told[0].contains("not saved"));
  CHECK(window.document().isModified());
}

TEST_CASE("Unsaved changes are asked about before another file replaces them, and before closing", "[files]") {
  Window window;
  edits::setPasses(window.document(), 6);
  window.asker.unsaved = {UnsavedAnswer::Cancel, UnsavedAnswer::Cancel, UnsavedAnswer::Discard};
  CHECK_FALSE(window->openFile(test::dataFile("panel.bwright")));
  CHECK(window.document().settings().passes == 6);
  CHECK_FALSE(window->close());
  CHECK(window->openFile(test::dataFile("panel.bwright")));
  CHECK(window.document().settings().passes == 1);
  CHECK(window.asker.unsavedAsked == 3);
}

TEST_CASE("A half typed number is taken over by closing", "[files]") {
  Window window;
  auto* passes = window.field("passes");
  window.click(passes->edit());
  passes->edit()->selectAll();
  QTest::keyClicks(passes->edit(), "9");
  window.asker.unsaved = {UnsavedAnswer::Cancel};
  CHECK_FALSE(window->close());
  CHECK(window.document().settings().passes == 9);
  CHECK(window.asker.unsavedAsked == 1);
}

TEST_CASE("After a crash the work is offered at the next start, with the file it came from, and kept until saved", "[files]") {
  QTemporaryDir folder;
  const QString recovery = folder.filePath("recovery");
  Project lost;
  {
    ProjectDocument document;
    document.replace(test::panel(), "/home/someone/Größe.bwright");
    Recovery writer(document, recovery);
    edits::setPasses(document, 6);
    lost = document.project();
    writer.flush();
    CHECK_FALSE(copies(recovery).isEmpty());
  }  // gone without discard(): a crash
  ProjectDocument document;
  Recovery next(document, recovery);
  auto found = next.findLeftBehind();
  REQUIRE(found);
  found->project.library = lost.library;
  CHECK(found->project == lost);
  CHECK(found->filePath == QString::fromUtf8("/home/someone/Größe.bwright"));
  document.replace(found->project, found->filePath);
  document.setNeverSaved();
  CHECK(document.isModified());
  next.flush();
  CHECK(QDir(recovery).entryList({"*.bwright"}).size() == 1);  // the new copy stands in for the one left behind
  document.setSaved("/home/someone/panel.bwright");
  next.flush();
  CHECK(copies(recovery).isEmpty());
}

TEST_CASE("A copy that a running program works on is not taken for a crash", "[files]") {
  QTemporaryDir folder;
  ProjectDocument document;
  document.replace(test::panel(), {});
  Recovery running(document, folder.path());
  edits::setPasses(document, 6);
  running.flush();
  ProjectDocument other;
  Recovery second(other, folder.path());
  CHECK_FALSE(second.findLeftBehind());
}

TEST_CASE("The window offers what a crash left, opens it or throws it away", "[files]") {
  for (const bool wanted : {true, false}) {
    Window window;
    QTemporaryDir elsewhere;
    ProjectDocument document;
    document.replace(test::panel(), {});
    {
      Recovery writer(document, window.recoveryFolder());
      edits::rename(document, "Left behind");
      writer.flush();
    }
    window.asker.yes = {wanted};
    CHECK(window->offerRecovered() == wanted);
    CHECK((window.document().project().name == "Left behind") == wanted);
    CHECK(window.document().isModified() == wanted);
    if (!wanted) CHECK(copies(window.recoveryFolder()).isEmpty());
  }
}

TEST_CASE("An edit is written to the recovery folder by itself, and a clean end removes it", "[files]") {
  Window window;
  edits::setPasses(window.document(), 6);
  REQUIRE(QTest::qWaitFor([&] { return !copies(window.recoveryFolder()).isEmpty(); }, 10000));
  window.asker.unsaved = {UnsavedAnswer::Discard};
  CHECK(window->close());
  window->recovery().flush();
  CHECK(window.asker.unsavedAsked == 1);
}

TEST_CASE("A dropped file is opened", "[files]") {
  Window window;
  window.document().show({1, 0});
  QMimeData data;
  data.setUrls({QUrl::fromLocalFile(test::dataFile("panel.bwright"))});
  QDragEnterEvent enter({10, 10}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
  QCoreApplication::sendEvent(window.operator->(), &enter);
  CHECK(enter.isAccepted());
  QDropEvent drop({10, 10}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
  QCoreApplication::sendEvent(window.operator->(), &drop);
  CHECK(window.document().filePath().endsWith("panel.bwright"));
}

TEST_CASE("A file opens with the plan that was shown last", "[files]") {
  QTemporaryDir folder;
  const QString path = folder.filePath("two-plans.bwright");
  std::string second;
  {
    Window window;
    edits::duplicatePlan(window.document());
    window.asker.paths = {path};
    REQUIRE(window->files().save());
    window.document().show({0, 0});
    window.document().show({1, 0});
    second = window.document().plan().name;
  }
  Window window;
  REQUIRE(window->openFile(path));
  CHECK(window.document().plan().name == second);
  window.document().show({0, 0});
  REQUIRE(window->openFile(path));
  CHECK(window.document().place().plan == 0);
}

TEST_CASE("A file that cannot be opened is told in a person's words, the details last", "[files]") {
  Window window;
  QTemporaryDir folder;
  put(folder.filePath("broken.bwright"), "{");
  CHECK_FALSE(window->openFile(folder.filePath("broken.bwright")));
  CHECK(window.asker.told.last().contains("“broken.bwright” is damaged"));
  CHECK(window.asker.told.last().indexOf("Details") > window.asker.told.last().indexOf("unchanged"));
  CHECK_FALSE(window->openFile(folder.filePath("gone.bwright")));
  CHECK(window.asker.told.last().contains("not there any more"));
}

TEST_CASE("Work that was lost with a plan that names no machine is opened", "[files]") {
  QTemporaryDir folder;
  Project lost = test::panel();
  lost.plans[0].machine.clear();
  lost.machines.clear();
  {
    ProjectDocument document;
    document.replace(lost, {});
    Recovery writer(document, folder.path());
    edits::rename(document, "Without a machine");
    writer.flush();
  }
  ProjectDocument document;
  Recovery next(document, folder.path());
  const auto found = next.findLeftBehind();
  REQUIRE(found);
  CHECK(found->project.name == "Without a machine");
  CHECK(found->project.part == lost.part);
  CHECK(found->project.plans.size() == lost.plans.size());
  Window window;
  window.document().replace(found->project, {});
  CHECK(window.document().machine() == nullptr);
}
