// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/range.h"
#include "ui/fields/quantity.h"

#include <optional>

namespace bw {

/// What was typed into a field: a value in SI, "don't know", or a sentence saying what is wrong with it.
struct TypedQuantity {
  std::optional<Range> value;
  bool unknown = false;
  QString problem;
};

/// Reads "62.5", "62,5", "62.5 mm", "45..80", "45 60 80", "45 - 80 µm", "-" or "don't know". Point and comma are both decimal marks.
TypedQuantity readQuantity(const QString& text, const Quantity& quantity);

/// "62.5" or "45 60 80" in the shown unit, without the unit, with the decimal mark of the user's locale.
QString writeQuantity(const Range& value, const Quantity& quantity);

/// A number in the shown unit with its unit: "62.5 mm".
QString withUnit(double value, const Quantity& quantity);

}  // namespace bw
