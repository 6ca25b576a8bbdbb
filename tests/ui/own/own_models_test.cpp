// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/own/own_shop.h"
#include "ui/own/entry_list_model.h"
#include "ui/own/entry_model.h"
#include "ui/own/proposal_model.h"
#include "ui/own/setup_readings.h"
#include "ui/own/three_way_model.h"

#include "tests/support/catch.h"

#include <QAbstractItemModelTester>

using namespace bw;
using test::ModelWatch;

namespace {

constexpr auto warn = QAbstractItemModelTester::FailureReportingMode::Warning;

QString textAt(const EntryModel& model, const std::string& key, int column) {
  const int row = model.rowOf(key);
  INFO(key);
  REQUIRE(row >= 0);
  return model.index(row, column).data().toString();
}

void typeInto(EntryModel& model, const std::string& key, int column, const QString& text) {
  REQUIRE(model.rowOf(key) >= 0);
  CHECK(model.setData(model.index(model.rowOf(key), column), text, Qt::EditRole));
}

Coating white() { return *findCoating(shippedLibrary(), "alkyd-white"); }

}  // namespace

TEST_CASE("An entry is a proper model through editing, parts that come and go, and undo", "[own]") {
  const ModelWatch watch;
  EntryModel model;
  QAbstractItemModelTester tester(&model, warn);
  model.open(OwnEntry(white()), false);
  typeInto(model, "absorptance", EntryModel::Likely, "0,2");
  model.undoStack().undo();
  CHECK(std::get<Coating>(model.entry()) == white());
  model.open(OwnEntry(test::shedMachine()), false);
  model.add(MachinePart::Optic, "2026-03-20");
  model.add(MachinePart::Check, "2026-03-20");
  const int row = model.rowOf("machine.optics.1.focal_length_mm");
  CHECK(model.isPart(row));
  model.removePartAt(row);
  CHECK(std::get<MachineCard>(model.entry()).machine.optics.size() == 2);
  CHECK(std::get<MachineCard>(model.entry()).checks.back().date == "2026-03-20");
  while (model.undoStack().canUndo()) model.undoStack().undo();
  CHECK(std::get<MachineCard>(model.entry()) == test::shedMachine());
  CHECK(watch.complaints() == 0);
}

TEST_CASE("Every value shows its numbers, unit, mark and source", "[own]") {
  EntryModel model;
  model.open(OwnEntry(white()), true);
  const Property& depth = white().opticalDepth_m;
  CHECK(textAt(model, "optical_depth_um", EntryModel::UnitSymbol) == QStringLiteral("µm"));
  CHECK(textAt(model, "optical_depth_um", EntryModel::Likely).toDouble() == Catch::Approx(depth.range.likely * 1e6));
  CHECK(textAt(model, "optical_depth_um", EntryModel::Source) == QString::fromStdString(depth.source));
  const QModelIndex mark = model.index(model.rowOf("optical_depth_um"), EntryModel::Estimate);
  CHECK((mark.data(Qt::CheckStateRole).toInt() == Qt::Checked) == depth.estimate);
  CHECK_FALSE(model.flags(model.index(mark.row(), EntryModel::Low)).testFlag(Qt::ItemIsEditable));
  CHECK_FALSE(model.setData(model.index(mark.row(), EntryModel::Low), "1", Qt::EditRole));
}

TEST_CASE("What is not taken stays in its cell with a sentence until it is mended, and the order may be mended last", "[own]") {
  EntryModel model;
  model.open(OwnEntry(white()), false);
  for (const char* bad : {"much", "1.7", "-0.1", "0.3 0.2 0.1"}) {
    INFO(bad);
    typeInto(model, "absorptance", EntryModel::High, bad);
    CHECK(textAt(model, "absorptance", EntryModel::High) == bad);
    CHECK(model.problemCount() == 1);
    CHECK(textAt(model, "absorptance", EntryModel::Name).endsWith('.'));
    CHECK(model.index(model.rowOf("absorptance"), EntryModel::High).data(EntryModel::ProblemRole).toBool());
  }
  CHECK(std::get<Coating>(model.entry()) == white());
  CHECK(model.isChanged());
  // All three move up: the first alone lies above the likely one, and waits.
  typeInto(model, "absorptance", EntryModel::High, "0.9");
  CHECK(model.problemCount() == 0);
  typeInto(model, "absorptance", EntryModel::Low, "0.7");
  CHECK(model.problemCount() == 1);
  typeInto(model, "absorptance", EntryModel::Likely, "0.8");
  CHECK(model.problemCount() == 0);
  CHECK(std::get<Coating>(model.entry()).absorptance.range == Range{0.7, 0.8, 0.9});
  typeInto(model, "absorptance", EntryModel::Low, "0.1 0.2 0.3");
  CHECK(std::get<Coating>(model.entry()).absorptance.range == Range{0.1, 0.2, 0.3});
}

TEST_CASE("Words, numbers in a row and optional values are entered as people say them", "[own]") {
  EntryModel model;
  model.open(OwnEntry(test::shedMachine()), false);
  typeInto(model, "machine.pulse_durations_ns", model.valueColumn(), "30; 60,5 ns");
  CHECK(std::get<MachineCard>(model.entry()).machine.pulseDurations_s == std::vector<double>{30e-9, 60.5e-9});
  typeInto(model, "machine.beam_profile", model.valueColumn(), "flat top");
  CHECK(std::get<MachineCard>(model.entry()).machine.beamProfile == BeamProfile::FlatTop);
  typeInto(model, "machine.delivered_power_W", model.valueColumn(), "");
  CHECK_FALSE(std::get<MachineCard>(model.entry()).machine.deliveredPower_W);
  typeInto(model, "machine.rated_power_W", model.valueColumn(), "");
  CHECK(model.problemCount() == 1);
}

TEST_CASE("Readings are a proper model; a pasted block enters, faults stay and take no part", "[own]") {
  const ModelWatch watch;
  SetupReadings readings;
  ReadingsModel& marks = readings.table(SetupReadings::Marks);
  QAbstractItemModelTester tester(&marks, warn);
  marks.paste(marks.index(0, 0), test::marksBlock());
  CHECK(marks.rowCount() == 8);  // seven and the empty one for the next; the heading is left out
  CHECK(marks.problem().isEmpty());
  CHECK(readings.measurements().marks.at(0).marks.size() == 7);
  CHECK(marks.setData(marks.index(2, 4), "wide", Qt::EditRole));
  CHECK_THAT(marks.problem().toStdString(), Catch::Matchers::StartsWith("Row 3, width"));
  CHECK(marks.data(marks.index(2, 4), Qt::DisplayRole) == "wide");
  CHECK(readings.measurements().marks.at(0).marks.size() == 6);
  marks.removeRows({2});
  CHECK(marks.problem().isEmpty());
  while (marks.undoStack().canUndo()) marks.undoStack().undo();
  CHECK(readings.isEmpty());
  CHECK(marks.setData(marks.index(0, 1), "30 W", Qt::EditRole));
  CHECK_THAT(marks.problem().toStdString(), Catch::Matchers::Contains("a value is missing"));
  CHECK(marks.rowCount() == 2);
  CHECK(watch.complaints() == 0);
}

TEST_CASE("The tables say what they hold in SI", "[own]") {
  SetupReadings readings;
  readings.table(SetupReadings::Frame).paste({}, test::frameBlock());
  readings.table(SetupReadings::Times).paste({}, QStringLiteral("20;9000;140;354,9;0,5;yes"));
  readings.table(SetupReadings::Powers).paste({}, test::powersBlock());
  readings.table(SetupReadings::Rates).paste({}, test::ratesBlock());
  const Measurements found = readings.measurements();
  CHECK(found.widths.size() == 3);
  CHECK(found.heights.at(1).measured.value == Catch::Approx(29.8e-3));
  REQUIRE(found.frameTimes.size() == 1);
  CHECK(found.frameTimes[0].oneWay);
  CHECK(*found.frameTimes[0].frameTime_s == Catch::Approx(0.3549));
  CHECK(*found.frameTimes[0].uncertainty_s == Catch::Approx(0.0005));
  CHECK(found.powers.at(3).dialledShare == Catch::Approx(1));
  REQUIRE(found.rates.size() == 1);
  CHECK(*found.rates[0].pulseDuration_s == Catch::Approx(180e-9));
  CHECK(found.rates[0].readings.size() == 7);
}

TEST_CASE("Proposed changes keep their ticks, each of its own", "[own]") {
  const ModelWatch watch;
  ProposalModel model;
  QAbstractItemModelTester tester(&model, warn);
  const std::vector<MachineChange> changes{{MachineField::SpotDiameter, 120e-6, {110e-6, 131e-6, 150e-6}, "marks in focus", {}},
                                           {MachineField::M2, 1.8, {2, 2.2, 2.5}, "marks", {}}};
  model.setChanges({}, changes);
  CHECK(model.taken().size() == 2);
  CHECK(model.index(0, ProposalModel::New).data().toString().contains("110 to 150"));
  CHECK(model.index(0, ProposalModel::New).data().toString().contains("lies within"));
  CHECK_FALSE(model.index(1, ProposalModel::New).data().toString().contains("lies within"));
  CHECK(model.setData(model.index(0, 0), Qt::Unchecked, Qt::CheckStateRole));
  model.setChanges({}, changes);
  REQUIRE(model.taken().size() == 1);
  CHECK(model.taken()[0].field == MachineField::M2);
  CHECK(watch.complaints() == 0);
}

TEST_CASE("Entries are found by words, one's own first; changes stand in three columns", "[own]") {
  const ModelWatch watch;
  EntryListModel list;
  QAbstractItemModelTester tester(&list, warn);
  test::OwnShop shop;
  Coating own = white();
  own.note = "measured on the door of coach 14";
  shop.store().saveCoating(own, 0);
  list.setRecords(recordsOf(shop.things(), EntryKind::Coating));
  CHECK(list.idAt(0) == "alkyd-white");
  CHECK(list.rowCount() == static_cast<int>(shippedLibrary().coatings.size()));
  list.setSearch("coach DOOR");
  CHECK(list.rowCount() == 1);
  list.setSearch("no such coat");
  CHECK(list.rowCount() == 0);
  CHECK(list.idAt(0).empty());

  ThreeWayModel changes;
  QAbstractItemModelTester second(&changes, warn);
  ShippedChange change;
  change.shipped = {{"optical_depth_um.value", "20", "30"}};
  changes.setChange(&change);
  CHECK(changes.index(0, ThreeWayModel::Now).data().toString() == QStringLiteral("30 µm"));
  CHECK(changes.index(0, ThreeWayModel::Mine).data().toString() == QStringLiteral("20 µm"));
  changes.setChange(nullptr);
  CHECK(changes.rowCount() == 0);
  CHECK(watch.complaints() == 0);
}
