// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/content_memo.h"
#include "core/library/library_store.h"
#include "core/library/sqlite.h"

#include <cstdint>

namespace bw {

/// When and as which change of the library something is written.
struct ChangeStamp {
  std::int64_t change = 0;
  std::string time;  // ISO 8601 UTC
};

/// A recipe made ready to be stored: every text checked and read back, so that writing it is quick and cannot be refused any more.
class PreparedRecipe;

/// Recipes and their versions in the library's tables. Opens no transaction of its own.
class RecipeTable {
 public:
  explicit RecipeTable(Database& database) : m_database(database) {}

  struct Place {
    std::int64_t row = 0;
    int newest = 0;
  };
  std::optional<Place> find(const std::string& id);

  SavedRecipe write(const Recipe& recipe, const PreparedRecipe& prepared, const ChangeStamp& stamp);
  void writeState(const std::string& id, int version, RecipeState state, const std::string& reason, const std::string& initials,
                  const ChangeStamp& stamp);

  std::optional<Recipe> read(const std::string& id);
  RecipeVersion readVersion(const std::string& id, int number);
  std::vector<RecipeVersion> readVersions(const std::string& id);
  /// A row of a list; the names of its materials are for the caller to add.
  RecipeRow readRow(std::int64_t row);
  std::vector<std::string> ids();

 private:
  Place demand(const std::string& id);
  [[noreturn]] void reportConflict(const std::string& id, int newest, int madeFrom) const;
  enum class Indexing { Add, Remove };
  void index(std::int64_t row, Indexing indexing);
  std::int64_t placeFor(const Recipe& recipe, const PreparedRecipe& prepared);
  RecipeVersion assemble(const std::string& id, std::int64_t row, int number);
  void readContents(std::int64_t row, RecipeVersion& version, const std::string& what);
  void writeContents(std::int64_t row, int number, const PreparedRecipe& prepared);
  std::string what(const std::string& id) const;

  Database& m_database;
};

/// Throws Refused where the state does not go with the version; see LibraryStore::saveRecipe.
void demandState(RecipeState state, const std::string& reason, const RecipeVersion& version, const std::string& what);

class PreparedRecipe {
 public:
  PreparedRecipe(const Recipe& recipe, const std::string& path, ContentMemo& memo);

 private:
  friend class RecipeTable;
  struct Content {
    int role = 0;
    int position = 0;
    std::shared_ptr<const StoredContent> stored;
  };
  template <class T>
  void add(int role, const std::vector<T>& list, const std::string& what, ContentMemo& memo);

  std::string m_id;
  std::string m_body;
  std::string m_extras;
  std::vector<Content> m_contents;
};

}  // namespace bw
