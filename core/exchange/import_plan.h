// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/bundle.h"
#include "core/library/library_store.h"

#include <memory>

namespace bw {

enum class BundlePart { Substrate, Coating, Machine, Recipe };

/// How an entry of a bundle stands to the library.
enum class ImportStatus {
  New,        // the library has nothing of that id
  Identical,  // the library has all of it already
  Continues,  // a recipe as the library has it, with versions that come after the library's newest
  Conflict,   // both sides say something else
};

/// What to do with an entry. Open: as is plain for New (bring it in), Identical (nothing) and Continues (add the versions); a conflict may
/// not stay open. Mine: nothing is brought in. Theirs: their versions come after mine, their material or machine in the place of mine (of a
/// shipped one: an own copy). Both: theirs comes in beside mine under a new id and name.
enum class ImportDecision { Open, Mine, Theirs, Both };

/// One entry of a bundle beside the library's.
struct ImportLine {
  BundlePart part = BundlePart::Recipe;
  std::size_t index = 0;  // in the bundle's list of that part
  std::string id;
  std::string name;
  ImportStatus status = ImportStatus::New;
  std::string mine;                     // what the library has, in words: "version 3 of 2026-03-01 by mk, proven"; empty: nothing
  std::string theirs;                   // the same of the bundle
  std::vector<Difference> differences;  // `was` is the library's, `is` the bundle's

  int basis = 0;           // revision or newest version in the library when this was found
  std::size_t common = 0;  // of a recipe: how many of the bundle's versions the library has
  std::string copyId;      // of Both
};

/// What importing a bundle would do. Nothing is touched by making one.
struct ImportPlan {
  std::shared_ptr<const Bundle> bundle;
  std::vector<ImportLine> lines;     // substrates, coatings, machines, recipes, each in the bundle's order
  std::vector<std::string> notices;  // sentences: attachments that did not come along, ...

  std::size_t count(ImportStatus status) const;
  bool hasConflicts() const { return count(ImportStatus::Conflict) > 0; }
};

/// Compares a bundle with the library. Throws LibraryError, also where a recipe's state does not go with it (Refused).
ImportPlan planImport(LibraryStore& store, std::shared_ptr<const Bundle> bundle);
ImportPlan planImport(LibraryStore& store, Bundle bundle);

/// A recipe's version as it would be kept here: attachments that are neither in the bundle nor in the library stand under
/// "attachments_left_out" of its proof.
class ArrivingVersions {
 public:
  ArrivingVersions(const LibraryStore& store, const Bundle& bundle);
  RecipeVersion of(const BundledVersion& version) const;
  /// The file in the bundle, nothing where there is none.
  const BundledFile* file(const std::string& sha256) const;
  bool has(const std::string& sha256) const;

 private:
  const LibraryStore& m_store;
  WholeVersions m_whole;
  std::map<std::string_view, const BundledFile*> m_files;
};

/// Id and name of a copy that stands beside an entry of the same id.
std::string copyIdOf(const std::string& id, int number);
std::string copyNameOf(const std::string& name);

}  // namespace bw
