// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/change_table.h"

#include <algorithm>

namespace bw {

namespace {

const Difference* findIn(const std::vector<Difference>& list, const std::string& key) {
  const auto found = std::ranges::find(list, key, &Difference::key);
  return found == list.end() ? nullptr : &*found;
}

std::string counted(std::size_t count, const char* one, const char* many) {
  return count == 0 ? "" : std::to_string(count) + " " + (count == 1 ? one : many);
}

}  // namespace

std::string valueInWords(const std::string& key, const std::string& value) {
  const std::size_t first = value.find(','), second = value.find(',', first + 1);
  const bool range = key.ends_with(".value") && value.starts_with('[') && value.ends_with(']') && second != std::string::npos &&
                     value.find(',', second + 1) == std::string::npos;
  if (!range) return shownValue(key, value);
  const std::string low = value.substr(1, first - 1), likely = value.substr(first + 1, second - first - 1);
  const std::string high = value.substr(second + 1, value.size() - second - 2);
  return low + " to " + shownValue(key, high) + ", likely " + likely;
}

std::vector<ThreeWay> threeWay(const ShippedChange& change) {
  std::vector<ThreeWay> rows;
  for (const Difference& shipped : change.shipped) {
    const Difference* own = findIn(change.own, shipped.key);
    const auto shown = [&](const std::string& value) { return valueInWords(shipped.key, value); };
    rows.push_back({shipped.key, shown(shipped.was), shown(shipped.is), shown(own ? own->is : shipped.was), true, own != nullptr});
  }
  for (const Difference& own : change.own) {
    if (findIn(change.shipped, own.key)) continue;
    const std::string then = valueInWords(own.key, own.was);
    rows.push_back({own.key, then, change.gone ? "" : then, valueInWords(own.key, own.is), false, true});
  }
  return rows;
}

std::vector<Difference> lostByReset(const Coating& own, const Coating& shipped) { return differences(own, shipped); }
std::vector<Difference> lostByReset(const Substrate& own, const Substrate& shipped) { return differences(own, shipped); }

std::vector<Difference> lostByReset(const MachineCard& own, const Machine& shipped) {
  std::vector<Difference> lost = differences(own.machine, shipped);
  const auto add = [&](const char* key, const std::string& was) {
    if (!was.empty()) lost.push_back({key, was, ""});
  };
  add("note", own.note);
  add("checks", counted(own.checks.size(), "check", "checks"));
  add("pieces", counted(own.pieces.size(), "kind of piece", "kinds of pieces"));
  if (own.coverGlass_s)
    add("hours_of_the_cover_glass", "those since " + (own.coverGlassSince.empty() ? "it was put in" : own.coverGlassSince));
  return lost;
}

}  // namespace bw
