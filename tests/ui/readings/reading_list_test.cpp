// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/prediction_lines.h"
#include "ui/library/recipe_words.h"
#include "ui/readings/reading_kinds.h"
#include "ui/readings/reading_list_model.h"

#include "tests/support/catch.h"

#include <QAbstractItemModelTester>

using namespace bw;

namespace {

QString typed(ReadingListModel& model, int row, int column, const QString& text) {
  QString refusal;
  const auto connection = QObject::connect(&model, &ReadingListModel::refused, [&](const QString& sentence) { refusal = sentence; });
  model.setData(model.index(row, column), text, Qt::EditRole);
  QObject::disconnect(connection);
  return refusal;
}

}  // namespace

TEST_CASE("A trial takes readings of every kind, known or typed", "[readings]") {
  ReadingListModel model({"thickness_before_um", "back_C"});
  QAbstractItemModelTester tester(&model, QAbstractItemModelTester::FailureReportingMode::Fatal);
  REQUIRE(model.rowCount() == 3);
  CHECK(model.readings().empty());  // nothing was measured yet
  CHECK(typed(model, 0, ReadingListModel::Value, "62,5").isEmpty());
  CHECK(typed(model, 0, ReadingListModel::Uncertainty, "3").isEmpty());
  CHECK(typed(model, 1, ReadingListModel::Value, "96 °C").isEmpty());
  CHECK(typed(model, 2, ReadingListModel::Kind, "passes to clear").isEmpty());
  CHECK(typed(model, 2, ReadingListModel::Value, "5").isEmpty());
  REQUIRE(model.rowCount() == 4);  // there is always a next one
  CHECK(typed(model, 3, ReadingListModel::Kind, "gloss percent").isEmpty());
  CHECK(typed(model, 3, ReadingListModel::Value, "40").isEmpty());
  CHECK(model.readings() ==
        std::vector<Reading>{
            {"thickness_before_um", 62.5, 3, {}}, {"back_C", 96, {}, {}}, {"passes_to_clear", 5, {}, {}}, {"gloss_percent", 40, {}, {}}});
  CHECK(model.index(3, ReadingListModel::UnitColumn).data() == "%");
  for (const QString& word : knownReadingKinds()) CHECK(words::readingKind(readingKindOf(word)) == word);
}

TEST_CASE("What is no reading is refused in a sentence and changes nothing", "[readings]") {
  ReadingListModel model({"back_C"});
  CHECK(typed(model, 0, ReadingListModel::Value, "-300").contains("absolute zero"));
  CHECK(typed(model, 0, ReadingListModel::Value, "hot").contains("hot"));
  CHECK(typed(model, 0, ReadingListModel::Value, "90..96").contains("One number"));
  CHECK(typed(model, 0, ReadingListModel::Value, "0.1 mm").contains("not understood"));
  CHECK(typed(model, 1, ReadingListModel::Value, "5").contains("Say first"));
  CHECK(model.readings().empty());
  CHECK(typed(model, 0, ReadingListModel::Value, "96").isEmpty());
  CHECK(typed(model, 0, ReadingListModel::Uncertainty, "-1").contains("zero or more"));
  CHECK_FALSE(typed(model, 0, ReadingListModel::Kind, "").isEmpty());
  CHECK(model.readings() == std::vector<Reading>{{"back_C", 96, {}, {}}});
}

TEST_CASE("Readings from elsewhere fill the empty rows of their kind first, and can be taken out", "[readings]") {
  ReadingListModel model({"thickness_before_um", "back_C"});
  model.add({{"thickness_before_um", 62, {}, {}}, {"thickness_before_um", 61, {}, {}}, {"back_C", 96, 4, {}}});
  CHECK(model.rowCount() == 4);
  CHECK(model.readings().size() == 3);
  model.takeOut({0, model.rowCount() - 1});  // the empty row stays
  CHECK(model.rowCount() == 3);
  CHECK(model.readings().size() == 2);
}

TEST_CASE("Many readings are told by their mean and spread, beside what was predicted of the same", "[readings]") {
  std::vector<Reading> readings;
  for (const double value : {60.0, 62.0, 61.0, 61.0}) readings.push_back({"thickness_before_um", value, {}, {}});
  CHECK(words::readings(readings).startsWith(QString::fromUtf8("4 readings, mean 61\u00a0µm, spread 0.82")));
  readings.resize(2);
  CHECK(words::readings(readings) == QString::fromUtf8("60\u00a0µm; 62\u00a0µm"));
  RecipeVersion version;
  version.proof.emplace().trials.emplace_back().readings = {{"face_C", 210, {}, {}}, {"passes_to_clear", 5, {}, {}}};
  const auto lines = predictionLines(version);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0] == PredictionLine{"Passes to clear", {}, "5"});
  CHECK(lines[1] == PredictionLine{"Front face, highest", {}, QString::fromUtf8("210\u00a0°C")});
}
