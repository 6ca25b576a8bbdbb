// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/recipe_table.h"

#include "core/files/file_io.h"
#include "core/library/proof.h"
#include "core/library/recipe_facts.h"
#include "core/library/recipe_json.h"
#include "core/library/sha256.h"
#include "core/library/stored_json.h"

#include <algorithm>
#include <random>
#include <set>

namespace bw {
namespace {

/// Parts of a version that are kept by what they hold. The numbers stand in the library.
enum Role { machineRole = 0, substrateRole = 1, coatingRole = 2, proofMachineRole = 3 };

/// A random UUID (RFC 9562, version 4).
std::string newId() {
  static constexpr char digits[] = "0123456789abcdef";
  thread_local std::random_device random;  // slow to make
  std::uint64_t bits = 0;
  auto digit = [&, left = 0]() mutable {  // eight of each random word
    if (left == 0) bits = random();
    left = (left + 7) % 8;
    return bits >> 4 * left & 15;
  };
  std::string id = "xxxxxxxx-xxxx-4xxx-yxxx-xxxxxxxxxxxx";
  for (char& c : id) {
    if (c == 'x') c = digits[digit()];
    if (c == 'y') c = digits[8 + digit() % 4];
  }
  return id;
}

/// Only what a recipe has beyond its columns and version.
struct RecipeExtras {
  Extras extras;
};

template <class Io>
void describe(Io& io, RecipeExtras& recipe) {
  io.rest(recipe.extras);
}

/// What stands in the body: all but what has columns or is kept by what it holds.
RecipeVersion bodyOf(RecipeVersion version) {
  version.number = 0;
  version.savedAt.clear();
  version.savedBy.clear();
  version.machines.clear();
  version.materials.substrates.clear();
  version.materials.coatings.clear();
  if (version.proof) version.proof->machines.clear();
  return version;
}

}  // namespace

void demandState(RecipeState state, const std::string& reason, const RecipeVersion& version, const std::string& what) {
  if (state == RecipeState::Proven && !isProven(version)) {
    throw LibraryError(LibraryTrouble::Refused,
                       what +
                           ": cannot be called proven: its proof needs a trial with these settings, a date and initials that was "
                           "seen to clear; enter one, or keep it as a draft");
  }
  if (state == RecipeState::Withdrawn && reason.find_first_not_of(" \t\r\n") == std::string::npos) {
    throw LibraryError(LibraryTrouble::Refused, what + ": is withdrawn without a reason; say why, so that nobody tries it again");
  }
}

PreparedRecipe::PreparedRecipe(const Recipe& recipe, const std::string& path, ContentMemo& memo) {
  const std::string what = path + ": recipe";
  demandText(Json{{"id", recipe.id}, {"reason", recipe.reason}, {"saved_by", recipe.version.savedBy}}, what);
  m_body = storedText(bodyOf(recipe.version), what);
  const std::string named = path + ": recipe \"" + recipe.version.name + "\"";
  demandState(recipe.state, recipe.reason, recipe.version, named);
  if (recipe.id.size() > idText.longest)
    throw LibraryError(LibraryTrouble::Refused, named + ": its id is too long; up to 100 letters are accepted");
  m_id = recipe.id.empty() ? newId() : recipe.id;
  m_extras = storedText(RecipeExtras{recipe.extras}, named);
  add(machineRole, recipe.version.machines, named, memo);
  add(substrateRole, recipe.version.materials.substrates, named, memo);
  add(coatingRole, recipe.version.materials.coatings, named, memo);
  if (recipe.version.proof) add(proofMachineRole, recipe.version.proof->machines, named, memo);
}

template <class T>
void PreparedRecipe::add(int role, const std::vector<T>& list, const std::string& what, ContentMemo& memo) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    m_contents.push_back({role, static_cast<int>(i), memo.of(list[i], what)});
  }
}

std::string RecipeTable::what(const std::string& id) const { return shownPath(m_database.path()) + ": recipe " + shownPath(id); }

std::optional<RecipeTable::Place> RecipeTable::find(const std::string& id) {
  Statement query = m_database.prepare("SELECT recipe_id, newest FROM recipe WHERE uid = ?");
  if (!query.with(id).step()) return {};
  return Place{query.number(0), query.integer(1)};
}

RecipeTable::Place RecipeTable::demand(const std::string& id) {
  if (const auto place = find(id)) return *place;
  throw LibraryError(LibraryTrouble::Missing, what(id) + ": there is none; barewright library list names them all");
}

void RecipeTable::reportConflict(const std::string& id, int newest, int madeFrom) const {
  const std::string from = "version " + std::to_string(madeFrom);
  std::string why = "version " + std::to_string(newest) + " was saved meanwhile, after " + from + " which this one was made from";
  if (newest == 0)
    why = "is not in this library, where " + from + " of it would have to be";
  else if (madeFrom == 0)
    why = "is in this library already, up to version " + std::to_string(newest);
  throw LibraryError(LibraryTrouble::Conflict, what(id) + ": " + why + "; nothing was overwritten: compare them and save again");
}

void RecipeTable::index(std::int64_t row, Indexing indexing) {
  Statement change = m_database.prepare(
      indexing == Indexing::Add
          ? "INSERT INTO recipe_words (rowid, name, note, words) VALUES (?1, (SELECT name FROM recipe WHERE recipe_id = ?1), (SELECT "
            "note FROM recipe WHERE recipe_id = ?1), (SELECT words FROM recipe WHERE recipe_id = ?1))"
          : "INSERT INTO recipe_words (recipe_words, rowid, name, note, words) SELECT 'delete', recipe_id, name, note, words FROM recipe "
            "WHERE recipe_id = ?");
  change.with(row).run();
}

std::int64_t RecipeTable::placeFor(const Recipe& recipe, const PreparedRecipe& prepared) {
  const RecipeVersion& version = recipe.version;
  const std::optional<Place> place = find(prepared.m_id);
  const int newest = place ? place->newest : 0;
  if (newest != version.number) reportConflict(prepared.m_id, newest, version.number);
  if (place) index(place->row, Indexing::Remove);
  Statement write =
      m_database.prepare(place ? "UPDATE recipe SET newest = ?, reason = ?, extras = ?, name = ?, note = ?, words = ? WHERE uid = ?"
                               : "INSERT INTO recipe (newest, reason, extras, name, note, words, uid) VALUES (?, ?, ?, ?, ?, ?, ?)");
  write.with(newest + 1).with(recipe.reason).with(prepared.m_extras).with(version.name).with(version.note);
  write.with(wordsOf(version)).with(prepared.m_id).run();
  const std::int64_t row = place ? place->row : m_database.lastRow();
  index(row, Indexing::Add);
  return row;
}

void RecipeTable::writeContents(std::int64_t row, int number, const PreparedRecipe& prepared) {
  Statement keep = m_database.prepare("INSERT INTO content (hash, body) VALUES (?, ?) ON CONFLICT (hash) DO NOTHING");
  Statement link = m_database.prepare("INSERT INTO version_content VALUES (?, ?, ?, ?, (SELECT content_id FROM content WHERE hash = ?))");
  for (const PreparedRecipe::Content& content : prepared.m_contents) {
    keep.again().with(content.stored->hash).with(content.stored->body).run();
    link.again().with(row).with(number).with(content.role).with(content.position).with(content.stored->hash).run();
  }
}

SavedRecipe RecipeTable::write(const Recipe& recipe, const PreparedRecipe& prepared, const ChangeStamp& stamp) {
  const RecipeVersion& version = recipe.version;
  const std::int64_t row = placeFor(recipe, prepared);
  const int number = version.number + 1;
  Statement insert = m_database.prepare("INSERT INTO recipe_version VALUES (?, ?, ?, ?, ?)");
  insert.with(row).with(number).with(stamp.time).with(version.savedBy).with(prepared.m_body).run();
  writeContents(row, number, prepared);
  if (version.proof) {
    Statement link = m_database.prepare("INSERT OR IGNORE INTO version_attachment SELECT ?, ?, hash FROM attachment WHERE hash = ?");
    Statement known = m_database.prepare("SELECT 1 FROM attachment WHERE hash = ?");
    for (const Attachment& attachment : version.proof->attachments) {
      if (!known.again().with(attachment.sha256).step()) {
        throw LibraryError(LibraryTrouble::Missing, what(prepared.m_id) + ": its attachment \"" + attachment.name +
                                                        "\" is not in the library; attach the file first");
      }
      link.again().with(row).with(number).with(attachment.sha256).run();
    }
  }
  RecipeFacts facts = factsOf(m_database, version);
  facts.row = row;
  facts.changed = stamp.change;
  facts.state = recipe.state;
  writeFacts(m_database, facts);
  Statement state =
      m_database.prepare("INSERT INTO state_change (recipe_id, number, state, reason, changed_at, changed_by) VALUES (?, ?, ?, ?, ?, ?)");
  state.with(row).with(number).with(static_cast<int>(recipe.state)).with(recipe.reason).with(stamp.time).with(version.savedBy).run();
  return {prepared.m_id, number};
}

void RecipeTable::writeState(const std::string& id, int version, RecipeState state, const std::string& reason, const std::string& initials,
                             const ChangeStamp& stamp) {
  const Place place = demand(id);
  if (place.newest != version) {
    throw LibraryError(LibraryTrouble::Conflict, what(id) + ": version " + std::to_string(place.newest) +
                                                     " was saved meanwhile, after version " + std::to_string(version) +
                                                     " which was judged; nothing was changed: look at it and judge again");
  }
  demandState(state, reason, assemble(id, place.row, version), what(id));
  Statement facts = m_database.prepare("UPDATE recipe_facts SET state = ?, changed = ? WHERE recipe_id = ?");
  facts.with(static_cast<int>(state)).with(stamp.change).with(place.row).run();
  Statement why = m_database.prepare("UPDATE recipe SET reason = ? WHERE recipe_id = ?");
  why.with(reason).with(place.row).run();
  Statement log =
      m_database.prepare("INSERT INTO state_change (recipe_id, number, state, reason, changed_at, changed_by) VALUES (?, ?, ?, ?, ?, ?)");
  log.with(place.row).with(version).with(static_cast<int>(state)).with(reason).with(stamp.time).with(initials).run();
}

void RecipeTable::readContents(std::int64_t row, RecipeVersion& version, const std::string& what) {
  Statement contents = m_database.prepare(
      "SELECT role, hash, body FROM version_content JOIN content USING (content_id) WHERE recipe_id = ? AND number = ? ORDER BY role, "
      "position");
  contents.with(row).with(version.number);
  while (contents.step()) {
    const std::string hash = contents.text(1);
    const std::string_view body = contents.bytes(2);
    switch (contents.integer(0)) {
      case machineRole:
        version.machines.push_back(m_profiles.of<Machine>(hash, body, what));
        break;
      case substrateRole:
        version.materials.substrates.push_back(m_profiles.of<Substrate>(hash, body, what));
        break;
      case coatingRole:
        version.materials.coatings.push_back(m_profiles.of<Coating>(hash, body, what));
        break;
      case proofMachineRole:
        if (version.proof) version.proof->machines.push_back(m_profiles.of<Machine>(hash, body, what));
        break;
      default:
        break;
    }
  }
}

RecipeVersion RecipeTable::assemble(const std::string& id, std::int64_t row, int number) {
  const std::string name = what(id) + " version " + std::to_string(number);
  Statement query = m_database.prepare("SELECT saved_at, saved_by, body FROM recipe_version WHERE recipe_id = ? AND number = ?");
  if (!query.with(row).with(number).step()) {
    throw LibraryError(LibraryTrouble::Missing, name + ": there is none; barewright library show names its versions");
  }
  RecipeVersion version = fromStored<RecipeVersion>(query.text(2), name);
  version.number = number;
  version.savedAt = query.text(0);
  version.savedBy = query.text(1);
  readContents(row, version, name);
  return version;
}

std::optional<Recipe> RecipeTable::read(const std::string& id) {
  const ReadView view(m_database);
  const std::optional<Place> place = find(id);
  if (!place) return {};
  Statement query = m_database.prepare("SELECT state, reason, extras FROM recipe JOIN recipe_facts USING (recipe_id) WHERE recipe_id = ?");
  if (!query.with(place->row).step())
    throw LibraryError(LibraryTrouble::Corrupt, what(id) + ": is damaged in the library; restore a backup");
  Recipe recipe;
  recipe.id = id;
  recipe.state = static_cast<RecipeState>(query.integer(0));
  recipe.reason = query.text(1);
  recipe.extras = fromStored<RecipeExtras>(query.text(2), what(id)).extras;
  recipe.version = assemble(id, place->row, place->newest);
  return recipe;
}

RecipeVersion RecipeTable::readVersion(const std::string& id, int number) {
  const ReadView view(m_database);
  return assemble(id, demand(id).row, number);
}

std::vector<RecipeVersion> RecipeTable::readVersions(const std::string& id) {
  const ReadView view(m_database);
  const Place place = demand(id);
  std::vector<RecipeVersion> versions;
  for (int number = 1; number <= place.newest; ++number) versions.push_back(assemble(id, place.row, number));
  return versions;
}

RecipeRow RecipeTable::readRow(std::int64_t row) {
  Statement query = m_database.prepare(
      "SELECT uid, newest, name, note, reason, saved_at, saved_by FROM recipe JOIN recipe_version USING (recipe_id) WHERE recipe_id = ? "
      "AND number = newest");
  RecipeRow found;
  if (!query.with(row).step()) return found;
  found.id = query.text(0);
  found.version = query.integer(1);
  found.name = query.text(2);
  found.note = query.text(3);
  found.reason = query.text(4);
  found.savedAt = query.text(5);
  found.savedBy = query.text(6);
  return found;
}

std::vector<std::string> RecipeTable::ids() {
  std::vector<std::string> ids;
  Statement query = m_database.prepare("SELECT uid FROM recipe ORDER BY recipe_id");
  while (query.step()) ids.push_back(query.text(0));
  return ids;
}

}  // namespace bw
