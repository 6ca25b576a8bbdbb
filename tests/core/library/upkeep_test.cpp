// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/upkeep.h"

#include "tests/support/catch.h"

using namespace bw;

namespace {

MachineCard checkedOn(const std::string& date) {
  MachineCard card;
  card.checks = {{"2026-01-05", "mk", {}, {}, "", {}}, {date, "mk", {}, {}, "", {}}};
  return card;
}

}  // namespace

TEST_CASE("A machine is due when the days since its last check are up", "[library]") {
  const UpkeepHabit habit{90, 100 * 3600.0};
  // Day numbers by a calendar: 2026-03-01 is 59 days after 2026-01-01, 2026-06-01 151.
  CHECK(checkDue(checkedOn("2026-03-01"), "2026-03-31", habit).state == Upkeep::Fresh);  // 30 days
  CHECK(checkDue(checkedOn("2026-03-01"), "2026-05-21", habit).state == Upkeep::Soon);   // 81 of 90
  CHECK(checkDue(checkedOn("2026-03-01"), "2026-05-20", habit).state == Upkeep::Fresh);  // 80 of 90
  CHECK(checkDue(checkedOn("2026-03-01"), "2026-05-30", habit).state == Upkeep::Due);    // 90
  const CheckDue due = checkDue(checkedOn("2026-03-01"), "2026-06-01", habit);
  CHECK(due.state == Upkeep::Due);
  CHECK(due.reason == "last checked 92 days ago, every 90 days is asked for");
}

TEST_CASE("The last check is the newest of machine and card", "[library]") {
  MachineCard card = checkedOn("2026-02-01");
  CHECK(lastCheck(card) == "2026-02-01");
  card.machine.checkedOn = "2026-04-01";
  CHECK(lastCheck(card) == "2026-04-01");
  CHECK(lastCheck({}).empty());
}

TEST_CASE("The cover glass can be more pressing than the calendar", "[library]") {
  MachineCard card = checkedOn("2026-03-01");
  card.coverGlass_s = 120 * 3600;
  const CheckDue due = checkDue(card, "2026-03-02");
  CHECK(due.state == Upkeep::Due);
  CHECK_THAT(due.reason, Catch::Matchers::Contains("cover glass has had 120 h"));
  card.coverGlass_s = 20 * 3600;
  CHECK(checkDue(card, "2026-03-02").state == Upkeep::Fresh);
  CHECK(checkDue(card, "2027-03-02").state == Upkeep::Due);
}

TEST_CASE("What is no date is not known, and a date to come is doubted", "[library]") {
  CHECK(checkDue({}, "2026-03-02").state == Upkeep::NotKnown);
  for (const char* date : {"in spring", "2026-13-01", "2026-02-30", "01.02.2026", "2026-1-1"}) {
    MachineCard card;
    card.machine.checkedOn = date;
    CHECK(checkDue(card, "2026-03-02").state == Upkeep::NotKnown);
  }
  const CheckDue toCome = checkDue(checkedOn("2026-03-03"), "2026-03-02");
  CHECK(toCome.state == Upkeep::NotKnown);
  CHECK_THAT(toCome.reason, Catch::Matchers::Contains("yet to come"));
}
