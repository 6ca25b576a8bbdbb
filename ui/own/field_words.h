// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/entry_fields.h"

#include <QString>

namespace bw {

/// A value as the shop calls it, and one sentence that explains it.
struct FieldWords {
  QString name;
  QString tip;
};
FieldWords wordsOf(const EntryField& field);

/// A place of a file, "absorptance.source", in the same words: "Light taken up, source".
QString placeWords(const std::string& key);

/// Under which heading the value stands, and where that heading comes.
struct FieldSection {
  int order = 0;
  QString title;
};
FieldSection sectionOf(const EntryField& field);

/// The unit as it stands beside the value: "W", "of 1" for shares, "(none)".
QString unitOf(const EntryField& field);

/// A word of a file as people say it.
QString sayWord(const std::string& word);

}  // namespace bw
