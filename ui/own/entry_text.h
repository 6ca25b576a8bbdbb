// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/entry_fields.h"

#include <QStringList>

#include <array>
#include <optional>

/// Values of an entry as text and back, in the field's own unit. Readers give an empty text, or a sentence why not.
namespace bw::entryText {

QString number(double value);
QString numbers(const std::vector<double>& values);  // "45; 90; 180"
QStringList words(const EntryField& field);          // as people say them, in the order offered

/// One value that is no range.
QString read(const EntryField& field, const QString& typed, FieldValue& value);

/// A range of which some of the three numbers and perhaps the source were typed; the rest stands as it is. "45 60 80" in any of them is
/// all three. A likely value alone makes a range of no width where none was there.
QString readRange(const EntryField& field, const std::array<QString, 3>& typed, const std::array<bool, 3>& isTyped,
                  const std::optional<QString>& source, FieldValue& value);

}  // namespace bw::entryText
