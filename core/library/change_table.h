// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"

namespace bw {

/// One value that an update or its owner changed: as it was shipped when the copy was made, as it is shipped now, and as it stands in the
/// copy, each as short text with its unit.
struct ThreeWay {
  std::string key;
  std::string then;
  std::string now;
  std::string mine;
  bool shippedChanged = false;
  bool ownChanged = false;
  bool operator==(const ThreeWay&) const = default;
};

/// Values the update changed first, then those that only the owner did. Where the entry is no longer shipped, `now` is empty throughout.
std::vector<ThreeWay> threeWay(const ShippedChange& change);

/// As `shownValue`, with low, likely and high told as people do: "80 to 300 µm, likely 150".
std::string valueInWords(const std::string& key, const std::string& value);

/// What would be lost by going back to what is shipped: `was` is the own value, `is` the shipped one. Of a machine also its upkeep, which
/// is never shipped.
std::vector<Difference> lostByReset(const Coating& own, const Coating& shipped);
std::vector<Difference> lostByReset(const Substrate& own, const Substrate& shipped);
std::vector<Difference> lostByReset(const MachineCard& own, const Machine& shipped);

}  // namespace bw
