// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/export.h"
#include "core/exchange/import_apply.h"
#include "ui/library/library_jobs.h"

#include <QString>

#include <memory>

// What giving away and bringing in have the library do, on the desk's thread. Plain values in, plain values out.
namespace bw {

/// What is given away: one recipe, those found now, one thing of the shop, or all there is.
struct GivenAway {
  enum class What { Recipe, Found, Entry, Everything };
  What what = What::Everything;
  std::string id;  // of a recipe or an entry
  EntryKind kind = EntryKind::Machine;
  QString name;
  WantedRecipes found;
};

ExportChoice choiceOf(LibraryStore& store, const GivenAway& given);

/// What a person says of a bundle when it is written.
struct BundleWords {
  std::string from;
  std::string note;
  std::string madeAt;  // ISO 8601 UTC
};

struct WrittenBundle {
  QString file;
  std::size_t recipes = 0;
  std::size_t materials = 0;
  std::size_t machines = 0;
  std::size_t attachments = 0;
  std::uintmax_t size_bytes = 0;
  std::vector<std::string> notices;  // what did not go along
};

/// Writes the bundle, in the place of what stood there. Throws FileError.
WrittenBundle giveAway(LibraryStore& store, const ExportChoice& choice, const BundleWords& words, const QString& file);

/// A bundle beside the library.
struct PreparedImport {
  ImportPlan plan;
  QString backupDate;  // of the newest backup of the library; empty: there is none
};

/// Reads the file and compares it with the library, which is not touched. Throws FileError.
PreparedImport prepareImport(LibraryStore& store, const QString& file);
/// The same bundle beside the library as it is now.
PreparedImport prepareAgain(LibraryStore& store, std::shared_ptr<const Bundle> bundle);

}  // namespace bw
