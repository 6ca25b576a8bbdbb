// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/machine_card.h"
#include "core/library/recipe.h"

#include <string>
#include <vector>

namespace bw {

/// One place where two descriptions differ: its key in the file ("scan.turnaround_us") and what stands there, each as short text.
/// An empty text: nothing stands there.
struct Difference {
  std::string key;
  std::string was;
  std::string is;
  bool operator==(const Difference&) const = default;
};

std::vector<Difference> differences(const Machine& was, const Machine& is);
std::vector<Difference> differences(const MachineCard& was, const MachineCard& is);
std::vector<Difference> differences(const Coating& was, const Coating& is);
std::vector<Difference> differences(const Substrate& was, const Substrate& is);
/// Number, time and hand of saving are not compared.
std::vector<Difference> differences(const RecipeVersion& was, const RecipeVersion& is);

/// A key as people say it: "scan, turnaround", and its unit with a space before it where one belongs there: " µs".
struct KeyWords {
  std::string words;
  std::string unit;
};
KeyWords wordsOfKey(const std::string& key);

/// What stands there with its unit: "250 µs", "nothing".
std::string shownValue(const std::string& key, const std::string& value);

/// "scan, turnaround was 250 µs, is 300 µs".
std::string inWords(const Difference& difference);

}  // namespace bw
