// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/library_file.h"
#include "tests/ui/support.h"
#include "ui/document/edits.h"
#include "ui/models/area_model.h"
#include "ui/models/coating_model.h"

#include "tests/support/catch.h"

#include <QAbstractItemModelTester>
#include <QSignalSpy>

using namespace bw;

// The tester itself fails by a message of its category; it is turned into a failed check here.
namespace {

int testerComplaints = 0;
QtMessageHandler previous = nullptr;

void count(QtMsgType type, const QMessageLogContext& context, const QString& text) {
  if (QLatin1String(context.category) == QLatin1String("qt.modeltest")) ++testerComplaints;
  if (previous) previous(type, context, text);
}

struct Complaints {
  Complaints() {
    testerComplaints = 0;
    previous = qInstallMessageHandler(count);
  }
  ~Complaints() { qInstallMessageHandler(previous); }
};

}  // namespace

TEST_CASE("The areas are a proper model, through adding, changing, removing and undo", "[models]") {
  const Complaints watch;
  ProjectDocument document;
  document.replace(test::panel(), {});
  AreaModel model(document);
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Warning);
  model.add();
  CHECK(model.rowCount() == 3);
  CHECK(model.setData(model.index(2, AreaModel::Name), "rim", Qt::EditRole));
  CHECK(model.setData(model.index(2, AreaModel::AccessKind), "hidden", Qt::EditRole));
  CHECK(document.project().part.areas[2].access == Access::Hidden);
  model.remove(0);
  CHECK(model.data(model.index(1, AreaModel::Name), Qt::DisplayRole) == "rim");
  while (document.undoStack().canUndo()) document.undoStack().undo();
  CHECK(document.project() == test::panel());
  CHECK(model.rowCount() == 2);
  CHECK(testerComplaints == 0);
}

TEST_CASE("An area refuses what makes no sense, with a sentence", "[models]") {
  ProjectDocument document;
  document.replace(test::panel(), {});
  AreaModel model(document);
  QSignalSpy problem(&model, &AreaModel::problem);
  for (const auto& [column, text] : {std::pair{AreaModel::Name, " "}, {AreaModel::Size, "-5"}, {AreaModel::Size, "much"}, {AreaModel::Tilt, "90"},
                                     {AreaModel::AccessKind, "ajar"}}) {
    INFO(text);
    CHECK_FALSE(model.setData(model.index(0, column), text, Qt::EditRole));
    CHECK(problem.takeLast().at(0).toString().endsWith('.'));
  }
  CHECK(document.undoStack().count() == 0);
}

TEST_CASE("The coatings are a proper model, with the unknown ones first", "[models]") {
  const Complaints watch;
  CoatingModel model;
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Warning);
  model.setLibraries(shippedLibrary(), {});
  REQUIRE(model.rowCount() == static_cast<int>(shippedLibrary().coatings.size()));
  CHECK(findCoating(shippedLibrary(), model.data(model.index(0), Qt::UserRole).toString().toStdString())->unknown);
  Library own;
  own.coatings.push_back(Coating{});
  own.coatings.back().id = "shop-grey";
  model.setLibraries(shippedLibrary(), own);
  CHECK(model.rowOf("shop-grey") >= 0);
  CHECK(testerComplaints == 0);
}
