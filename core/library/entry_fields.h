// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/machine_card.h"
#include "core/values/substance.h"

#include <functional>
#include <string>
#include <vector>

namespace bw {

/// What stands in a field, numbers in the field's own unit.
struct FieldValue {
  std::vector<double> numbers;  // none: nothing is stated; of a range low, likely, high
  std::string text;             // of a range its source
  bool flag = false;            // of a range: an estimate
  bool operator==(const FieldValue&) const = default;
};

/// One value of a coating, substrate or machine card as an editor shows it: what its file says of it (key, unit, what is accepted), and
/// the two ways to it.
struct EntryField {
  enum class Shape { Text, Word, Flag, Number, Numbers, Range };

  std::string key;  // as in the file, what it lies in before a dot, elements of lists by number: "machine.optics.1.stand_off_mm"
  Shape shape = Shape::Text;
  bool optional = false;           // may be empty
  std::string unit;                // symbol
  std::vector<std::string> words;  // of Word
  std::string accepted;            // "a number above 0 and up to 1 W"
  std::function<FieldValue()> get;
  /// Enters the value, or says in one sentence why not and leaves all as it was.
  std::function<std::string(const FieldValue&)> set;
};

/// Every value of the entry, in the order of its file. The fields hold on to the entry: it must outlive them, and after an element of a
/// list has come or gone they must be asked for anew. Ids are left out: they tell entries apart.
std::vector<EntryField> fieldsOf(Coating& coating);
std::vector<EntryField> fieldsOf(Substrate& substrate);
std::vector<EntryField> fieldsOf(MachineCard& card);

}  // namespace bw
