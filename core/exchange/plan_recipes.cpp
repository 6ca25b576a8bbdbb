// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan_recipes.h"

#include "core/files/json_io.h"
#include "core/library/recipe_json.h"
#include "core/library/recipe_table.h"

#include <algorithm>

namespace bw {
namespace {

/// "version 3 of 2026-03-01 by mk, proven".
std::string inWords(const RecipeVersion& newest, std::size_t count, RecipeState state) {
  const std::size_t number = newest.number > 0 ? static_cast<std::size_t>(newest.number) : count;
  std::string words = "version " + std::to_string(number);
  if (newest.savedAt.size() >= 10) words += " of " + newest.savedAt.substr(0, 10);
  if (!newest.savedBy.empty()) words += " by " + newest.savedBy;
  return words + ", " + wordOf(recipeStates, state);
}

/// Whether two versions say the same; number, time and hand of saving aside.
bool areSame(const RecipeVersion& one, RecipeVersion other) {
  other.number = one.number;
  other.savedAt = one.savedAt;
  other.savedBy = one.savedBy;
  return one == other || differences(one, other).empty();  // as files they may be the same to the last digit that those hold
}

/// How far the histories go together: of theirs from its first version on, each found in mine after the one before.
struct Together {
  std::size_t theirs = 0;  // how many of theirs
  std::size_t mine = 0;    // up to which of mine
};

Together together(const std::vector<RecipeVersion>& mine, const std::vector<RecipeVersion>& theirs) {
  Together found;
  for (; found.theirs < theirs.size(); ++found.theirs) {
    std::size_t at = found.mine;
    while (at < mine.size() && !areSame(mine[at], theirs[found.theirs])) ++at;
    if (at == mine.size()) break;
    found.mine = at + 1;
  }
  return found;
}

class RecipePlanner {
 public:
  RecipePlanner(LibraryStore& store, const BundledRecipe& theirs, const ArrivingVersions& arriving) : m_store(store), m_theirs(theirs) {
    for (const BundledVersion& version : theirs.versions) m_versions.push_back(arriving.of(version));
  }

  ImportLine line(std::size_t index) {
    const RecipeVersion& newest = m_versions.back();
    demandState(m_theirs.state, m_theirs.reason, newest,
                "the bundle: " + elementPath("$.recipes", index) + ": " + shown(Json(newest.name)));
    ImportLine line{BundlePart::Recipe, index, m_theirs.id, newest.name, ImportStatus::New, {}, {}, {}, 0, 0, {}};
    line.theirs = inWords(newest, m_versions.size(), m_theirs.state);
    if (const std::optional<Recipe> mine = m_store.findRecipe(m_theirs.id)) compare(*mine, line);
    return line;
  }

 private:
  void compare(const Recipe& mine, ImportLine& line) {
    const std::vector<RecipeVersion> versions = m_store.versions(mine.id);
    line.basis = mine.version.number;
    line.mine = inWords(mine.version, versions.size(), mine.state);
    const Together shared = together(versions, m_versions);
    line.common = shared.theirs;
    const bool hasAll = shared.theirs == m_versions.size(), endsWithMine = shared.mine == versions.size();
    const bool sameState = mine.state == m_theirs.state && mine.reason == m_theirs.reason;
    if (hasAll && (!endsWithMine || sameState)) {
      line.status = ImportStatus::Identical;
      return;
    }
    line.differences = between(mine);
    line.status = endsWithMine && !hasAll ? ImportStatus::Continues : ImportStatus::Conflict;
    if (line.status == ImportStatus::Conflict && findCopy(line)) {
      line.status = ImportStatus::Identical;
      line.differences.clear();
    }
  }

  std::vector<Difference> between(const Recipe& mine) const {
    std::vector<Difference> found;
    if (mine.state != m_theirs.state) found.push_back({"state", wordOf(recipeStates, mine.state), wordOf(recipeStates, m_theirs.state)});
    if (mine.reason != m_theirs.reason) found.push_back({"reason", mine.reason, m_theirs.reason});
    for (Difference& difference : differences(mine.version, m_versions.back())) found.push_back(std::move(difference));
    return found;
  }

  /// Whether theirs stands beside mine already, from an earlier import; else the id under which it could.
  bool findCopy(ImportLine& line) {
    std::vector<RecipeVersion> wanted = m_versions;
    wanted.back().name = copyNameOf(line.name);
    for (int number = 1;; ++number) {
      line.copyId = copyIdOf(line.id, number);
      if (!m_store.findRecipe(line.copyId)) return false;
      const std::vector<RecipeVersion> copy = m_store.versions(line.copyId);
      if (together(copy, wanted).theirs < wanted.size()) continue;
      line.mine += "; the bundle's stands beside it as \"" + copy.back().name + "\"";
      return true;
    }
  }

  LibraryStore& m_store;
  const BundledRecipe& m_theirs;
  std::vector<RecipeVersion> m_versions;
};

}  // namespace

ImportLine planRecipe(LibraryStore& store, const BundledRecipe& theirs, std::size_t index, const ArrivingVersions& arriving) {
  return RecipePlanner(store, theirs, arriving).line(index);
}

}  // namespace bw
