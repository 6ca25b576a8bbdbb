// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/upkeep.h"

#include "core/text/text.h"

#include <algorithm>
#include <charconv>
#include <chrono>
#include <optional>

namespace bw {

namespace {

constexpr double soonShare = 0.9;

std::optional<int> digits(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

std::optional<std::chrono::sys_days> dayOf(std::string_view date) {
  if (date.size() < 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
  const auto year = digits(date.substr(0, 4)), month = digits(date.substr(5, 2)), day = digits(date.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day found{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                                          std::chrono::day(static_cast<unsigned>(*day))};
  return found.ok() ? std::optional(std::chrono::sys_days(found)) : std::nullopt;
}

Upkeep stateOf(double share) { return share >= 1 ? Upkeep::Due : share >= soonShare ? Upkeep::Soon : Upkeep::Fresh; }

std::string daysAgo(long days) { return days == 0 ? "today" : std::to_string(days) + (days == 1 ? " day ago" : " days ago"); }

CheckDue byDate(const MachineCard& card, const std::string& today, const UpkeepHabit& habit) {
  const std::string last = lastCheck(card);
  const auto then = dayOf(last), now = dayOf(today);
  if (last.empty()) return {Upkeep::NotKnown, "no check of delivered power and spot is known"};
  if (!then || !now) return {Upkeep::NotKnown, "the date of the last check, " + last + ", cannot be read; year-month-day is accepted"};
  const long days = (*now - *then).count();
  if (days < 0) return {Upkeep::NotKnown, "the last check is dated " + last + ", which is yet to come: is the clock right?"};
  return {stateOf(static_cast<double>(days) / std::max(1, habit.checkEvery_days)),
          "last checked " + daysAgo(days) + ", every " + std::to_string(habit.checkEvery_days) + " days is asked for"};
}

std::optional<CheckDue> byGlass(const MachineCard& card, const UpkeepHabit& habit) {
  if (!card.coverGlass_s) return std::nullopt;
  return CheckDue{stateOf(*card.coverGlass_s / std::max(1.0, habit.glassLasts_s)),
                  "the cover glass has had " + text::number(*card.coverGlass_s / 3600) + " h of beam, a look after " +
                      text::number(habit.glassLasts_s / 3600) + " h is asked for"};
}

/// Due before not known before soon before fresh.
int pressing(Upkeep state) {
  switch (state) {
    case Upkeep::Fresh:
      return 0;
    case Upkeep::Soon:
      return 1;
    case Upkeep::NotKnown:
      return 2;
    case Upkeep::Due:
      break;
  }
  return 3;
}

}  // namespace

std::string lastCheck(const MachineCard& card) {
  std::string last = card.machine.checkedOn.value_or("");
  for (const MachineCheck& check : card.checks) last = std::max(last, check.date);
  return last;
}

CheckDue checkDue(const MachineCard& card, const std::string& today, const UpkeepHabit& habit) {
  const CheckDue date = byDate(card, today, habit);
  const std::optional<CheckDue> glass = byGlass(card, habit);
  return glass && pressing(glass->state) > pressing(date.state) ? *glass : date;
}

}  // namespace bw
