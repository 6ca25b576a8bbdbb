// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/fields/quantity.h"

#include <QStringList>

#include <string>

namespace bw {

/// The kinds of reading that trials know a word for, as those words. Any other is accepted by its key.
QStringList knownReadingKinds();

/// The key of a word or of what was typed; spaces become strokes, as keys have none. Empty: nothing that may be one.
std::string readingKindOf(const QString& words);

/// Numbers of this kind in the unit that it names, which counts as one.
Quantity quantityOfKind(const std::string& kind);

/// What is wrong with a value of this kind; empty: nothing.
QString wrongValue(const std::string& kind, double value);

}  // namespace bw
