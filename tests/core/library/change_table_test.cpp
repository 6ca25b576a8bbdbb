// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/change_table.h"

#include "core/library/measured_card.h"
#include "core/start/typical_machines.h"
#include "tests/support/catch.h"

using namespace bw;

TEST_CASE("Shipped then, shipped now and mine stand beside each other", "[library]") {
  ShippedChange change;
  change.shipped = {{"M2", "1.8", "2"}, {"scan.turnaround_us", "250", "300"}};
  change.own = {{"M2", "1.8", "1.6"}, {"name", "a", "b"}};
  const std::vector<ThreeWay> rows = threeWay(change);
  REQUIRE(rows.size() == 3);
  CHECK(rows[0] == ThreeWay{"M2", "1.8", "2", "1.6", true, true});
  CHECK(rows[1] == ThreeWay{"scan.turnaround_us", "250 µs", "300 µs", "250 µs", true, false});
  CHECK(rows[2] == ThreeWay{"name", "a", "a", "b", false, true});
  change.gone = true;
  change.shipped.clear();
  CHECK(threeWay(change).front().now.empty());
}

TEST_CASE("A range is told as people tell it", "[library]") {
  CHECK(valueInWords("optical_depth_um.value", "[80,150,300]") == "80 to 300 µm, likely 150");
  CHECK(valueInWords("optical_depth_um.value", "150") == "150 µm");
  CHECK(valueInWords("pulse_durations_ns", "[45,90,180]") == "[45,90,180] ns");  // a list, no range
  CHECK(valueInWords("absorptance.estimate", "") == "no");
}

TEST_CASE("Going back to what is shipped also loses a machine's upkeep, and says so", "[library]") {
  MachineCard card;
  card.machine = typicalMachines()[1];
  CHECK(lostByReset(card, card.machine).empty());
  card.machine.M2 = 2.5;
  card.note = "from the old shop";
  card.checks.resize(3);
  card.coverGlass_s = 3600;
  const auto lost = lostByReset(card, typicalMachines()[1]);
  REQUIRE(lost.size() == 4);
  CHECK(lost[0] == Difference{"M2", "2.5", "1.8"});
  CHECK(lost[2] == Difference{"checks", "3 checks", ""});
}

TEST_CASE("What was measured and taken enters the machine and its checks", "[library]") {
  MachineCard card;
  card.machine = typicalMachines()[1];
  CHECK(withMeasured(card, {}, "2026-03-01", "mk") == card);
  const std::vector<MachineChange> taken{{MachineField::SpotDiameter, 120e-6, {110e-6, 131e-6, 150e-6}, "marks in focus", {}},
                                         {MachineField::DeliveredPower, {}, {240, 255, 270}, "powers at the part", {}},
                                         {MachineField::M2, 1.8, {1.9, 2.2, 2.5}, "marks in focus", {}}};
  const MachineCard after = withMeasured(card, taken, "2026-03-01", "mk");
  CHECK(after.machine.spotDiameter_m == 131e-6);
  CHECK(after.machine.deliveredPower_W == 255);
  CHECK(after.machine.M2 == 2.2);
  CHECK(after.machine.checkedOn == "2026-03-01");
  REQUIRE(after.checks.size() == 1);
  CHECK(after.checks[0] == MachineCheck{"2026-03-01", "mk", 255, 131e-6, "from marks in focus, from powers at the part", {}});
  // Without the power the date of its check stays.
  CHECK_FALSE(withMeasured(card, {taken[2]}, "2026-03-01", "mk").machine.checkedOn);
}
