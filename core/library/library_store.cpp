// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_store.h"

#include "core/files/file_io.h"
#include "core/files/library_file.h"
#include "core/files/shop_json.h"
#include "core/library/attachments.h"
#include "core/library/entry_table.h"
#include "core/library/iso_time.h"
#include "core/library/open_library.h"
#include "core/library/proof.h"
#include "core/library/recipe_distance.h"
#include "core/library/recipe_filter.h"
#include "core/library/recipe_table.h"
#include "core/library/sha256.h"
#include "core/library/stored_json.h"
#include "core/start/typical_machines.h"

#include <algorithm>
#include <utility>

namespace fs = std::filesystem;

namespace bw {

using TimePoint = std::chrono::system_clock::time_point;

struct LibraryStore::Parts {
  Parts(const fs::path& where, const LibraryOptions& given)
      : path(fs::absolute(where)),
        now(given.now ? given.now : [] { return std::chrono::system_clock::now(); }),
        shipped(given.shippedMaterials ? *given.shippedMaterials : shippedLibrary()),
        database(openLibrary(path, given)),
        recipes(*database),
        entries(*database, shipped, given.shippedMachines ? *given.shippedMachines : typicalMachines()),
        words(*database) {
    seenByOwner = seenByFacts = dataVersion();
    facts.refresh(*database);
  }

  std::int64_t dataVersion() { return database->number("PRAGMA data_version"); }

  /// The library's own record of what time it has seen.
  TimePoint latest() { return TimePoint(std::chrono::seconds(database->number("SELECT value FROM about WHERE key = 'latest_time'"))); }

  ChangeStamp stamp() {
    const TimePoint time = now();
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(time.time_since_epoch()).count();
    database->run("UPDATE about SET value = CAST(value AS INTEGER) + 1 WHERE key = 'last_change'");
    const ChangeStamp stamp{database->number("SELECT value FROM about WHERE key = 'last_change'"), isoTime(time)};
    if (time > latest()) {
      Statement seen = database->prepare("UPDATE about SET value = ? WHERE key = 'latest_time'");
      seen.with(std::to_string(seconds)).run();
    }
    return stamp;
  }

  /// One write: whole or not at all.
  template <class Work>
  auto write(Work work) {
    if (inOneGo && !database->inTransaction()) {
      throw LibraryError(LibraryTrouble::Io,
                         shownPath(path) + ": an earlier change of the same go failed, so that none of them is kept; try all again");
    }
    Transaction transaction(*database);
    const auto result = work(stamp());
    transaction.commit();
    factsAreOld = true;
    return result;
  }

  const FactsTable& upToDate() {
    const std::int64_t version = dataVersion();
    if (factsAreOld || version != seenByFacts) facts.refresh(*database);
    factsAreOld = false;
    seenByFacts = version;
    return facts;
  }

  Library materials() {
    Library library;
    for (auto& entry : entries.substrates()) library.substrates.push_back(std::move(entry.value));
    for (auto& entry : entries.coatings()) library.coatings.push_back(std::move(entry.value));
    return library;
  }

  RecipeRow rowOf(std::size_t index) {
    const FactsTable::Row& fact = facts.rows()[index];
    RecipeRow row = recipes.readRow(fact.row);
    row.state = fact.state;
    row.substrate = facts.term(fact.substrate);
    for (std::size_t i = 0; i < fact.layerCount; ++i) row.coatings.push_back(facts.term(facts.layers(fact)[i].coating));
    row.plate_m = double{fact.plate_m};
    row.coat_m = double{fact.coat_m};
    row.machine = facts.term(fact.machine);
    row.machineKind = fact.kind;
    row.finish = fact.finish;
    row.hasProof = fact.proof;
    return row;
  }

  fs::path path;
  std::function<TimePoint()> now;
  Library shipped;
  std::unique_ptr<Database> database;
  RecipeTable recipes;
  EntryTable entries;
  ContentMemo memo;
  FactsTable facts;
  WordSearch words;
  std::int64_t seenByOwner = 0;  // data_version, which tells of other connections' changes only
  std::int64_t seenByFacts = 0;
  bool factsAreOld = false;
  bool inOneGo = false;  // some failures undo the whole go at once, after which nothing may be saved by itself
};

LibraryStore::LibraryStore(const fs::path& path, const LibraryOptions& options) : m_parts(std::make_unique<Parts>(path, options)) {}
LibraryStore::LibraryStore(LibraryStore&&) noexcept = default;
LibraryStore& LibraryStore::operator=(LibraryStore&&) noexcept = default;
LibraryStore::~LibraryStore() = default;

const fs::path& LibraryStore::path() const { return m_parts->path; }
bool LibraryStore::readOnly() const { return m_parts->database->readOnly(); }
std::string LibraryStore::libraryId() const { return m_parts->database->text("SELECT value FROM about WHERE key = 'library_id'"); }

bool LibraryStore::changedByOthers() {
  const std::int64_t version = m_parts->dataVersion();
  const bool changed = version != m_parts->seenByOwner;
  m_parts->seenByOwner = version;
  return changed;
}

std::string LibraryStore::clockNotice() const {
  constexpr std::chrono::minutes slack{5};  // clocks of two desks differ
  const TimePoint now = m_parts->now(), latest = m_parts->latest();
  if (now + slack >= latest) return {};
  return "The computer's clock says " + isoTime(now) + ", but the library was last changed at " + isoTime(latest) +
         ". Set the clock: dates of what is saved now would be wrong. The order of versions does not depend on it.";
}

void LibraryStore::inOneGo(const std::function<void()>& work) {
  Transaction transaction(*m_parts->database);
  const bool outer = std::exchange(m_parts->inOneGo, true);
  try {
    work();
    transaction.commit();
  } catch (...) {
    m_parts->inOneGo = outer;
    m_parts->facts.clear();  // they may hold what is undone now
    m_parts->words.clear();
    m_parts->factsAreOld = true;
    throw;
  }
  m_parts->inOneGo = outer;
  m_parts->factsAreOld = true;
}

SavedRecipe LibraryStore::saveRecipe(const Recipe& recipe) {
  const PreparedRecipe prepared(recipe, shownPath(m_parts->path), m_parts->memo);
  return m_parts->write([&](const ChangeStamp& stamp) { return m_parts->recipes.write(recipe, prepared, stamp); });
}

void LibraryStore::takeOver(const std::function<std::optional<Recipe>()>& next) {
  m_parts->write([&](ChangeStamp stamp) {
    for (std::optional<Recipe> recipe = next(); recipe; recipe = next()) {
      const PreparedRecipe prepared(*recipe, shownPath(m_parts->path), m_parts->memo);
      if (!recipe->version.savedAt.empty()) stamp.time = recipe->version.savedAt;
      m_parts->recipes.write(*recipe, prepared, stamp);
      stamp = m_parts->stamp();
    }
    return true;
  });
}

std::optional<Recipe> LibraryStore::findRecipe(const std::string& id) { return m_parts->recipes.read(id); }

Recipe LibraryStore::recipe(const std::string& id) {
  if (auto found = findRecipe(id)) return std::move(*found);
  throw LibraryError(LibraryTrouble::Missing, shownPath(m_parts->path) + ": recipe " + shownPath(id) + ": there is none");
}

RecipeVersion LibraryStore::version(const std::string& id, int number) { return m_parts->recipes.readVersion(id, number); }
std::vector<RecipeVersion> LibraryStore::versions(const std::string& id) { return m_parts->recipes.readVersions(id); }

void LibraryStore::setState(const std::string& id, int version, RecipeState state, const std::string& reason, const std::string& initials) {
  m_parts->write([&](const ChangeStamp& stamp) {
    m_parts->recipes.writeState(id, version, state, reason, initials, stamp);
    return true;
  });
}

std::size_t LibraryStore::recipeCount() { return m_parts->upToDate().rows().size(); }
std::vector<std::string> LibraryStore::recipeIds() { return m_parts->recipes.ids(); }

RecipeFindings LibraryStore::find(const RecipeQuery& query) {
  const ReadView view(*m_parts->database);
  const FactsTable& facts = m_parts->upToDate();
  FilteredRecipes filtered = filterRecipes(facts, query, m_parts->words.find(query.text, facts));
  RecipeFindings findings;
  findings.total = filtered.total;
  findings.facets = std::move(filtered.facets);
  for (const std::size_t index : filtered.shown) findings.rows.push_back(m_parts->rowOf(index));
  return findings;
}

std::vector<NearRecipe> LibraryStore::nearest(const NearestQuery& query) {
  const ReadView view(*m_parts->database);
  const FactsTable& facts = m_parts->upToDate();
  Library materials = query.materials;  // the query's own words first: the first of an id is found
  const Library ours = m_parts->materials();
  materials.substrates.insert(materials.substrates.end(), ours.substrates.begin(), ours.substrates.end());
  materials.coatings.insert(materials.coatings.end(), ours.coatings.begin(), ours.coatings.end());
  const Probe probe = probeOf(query, materials, facts);
  std::vector<NearRecipe> found;
  for (const NearIndex& near : nearestRecipes(facts, probe, query)) {
    found.push_back({m_parts->rowOf(near.index), near.distance, distanceParts(facts, facts.rows()[near.index], probe, materials)});
  }
  return found;
}

std::vector<std::string> LibraryStore::staleReasons(const RecipeVersion& version, const std::string& modelVersion) {
  std::vector<Machine> own;
  for (const auto& entry : m_parts->entries.machines()) own.push_back(entry.value.machine);
  return bw::staleReasons(version, own, modelVersion);
}

Attachment LibraryStore::attach(const fs::path& file) { return attach(readAttachment(file), file.filename().string()); }

Attachment LibraryStore::attach(const std::string& content, const std::string& name) {
  return m_parts->write([&](const ChangeStamp& stamp) { return keepAttachment(*m_parts->database, content, name, stamp.time); });
}

fs::path LibraryStore::attachmentPath(const std::string& sha256) const {
  const std::string what = shownPath(m_parts->path) + ": attachment " + shownPath(sha256);
  if (!isSha256(sha256)) throw LibraryError(LibraryTrouble::Refused, what + ": is no SHA-256; 64 digits of 0-9 and a-f are accepted");
  Statement known = m_parts->database->prepare("SELECT 1 FROM attachment WHERE hash = ?");
  if (!known.with(sha256).step()) throw LibraryError(LibraryTrouble::Missing, what + ": is not in the library");
  return attachmentFile(m_parts->path, sha256);
}

std::vector<LibraryEntry<Substrate>> LibraryStore::substrates() { return m_parts->entries.substrates(); }
std::vector<LibraryEntry<Coating>> LibraryStore::coatings() { return m_parts->entries.coatings(); }
std::vector<LibraryEntry<MachineCard>> LibraryStore::machines() { return m_parts->entries.machines(); }
Library LibraryStore::materials() { return m_parts->materials(); }

int LibraryStore::saveSubstrate(const Substrate& substrate, int revision) {
  return m_parts->write([&](const ChangeStamp&) { return m_parts->entries.save(substrate, revision); });
}
int LibraryStore::saveCoating(const Coating& coating, int revision) {
  return m_parts->write([&](const ChangeStamp&) { return m_parts->entries.save(coating, revision); });
}
int LibraryStore::saveMachine(const MachineCard& card, int revision) {
  return m_parts->write([&](const ChangeStamp&) { return m_parts->entries.save(card, revision); });
}

ShopFacts LibraryStore::shop() {
  Statement kept = m_parts->database->prepare("SELECT value FROM about WHERE key = 'shop'");
  return kept.step() ? fromStored<ShopFacts>(kept.text(0), shownPath(m_parts->path) + ": the shop") : ShopFacts{};
}

void LibraryStore::saveShop(const ShopFacts& shop) {
  const std::string body = storedText(shop, shownPath(m_parts->path) + ": the shop");
  m_parts->write([&](const ChangeStamp&) {
    Statement keep = m_parts->database->prepare("INSERT OR REPLACE INTO about (key, value) VALUES ('shop', ?)");
    keep.with(body).run();
    return true;
  });
}

void LibraryStore::resetEntry(EntryKind kind, const std::string& id) {
  m_parts->write([&](const ChangeStamp&) {
    m_parts->entries.reset(kind, id);
    return true;
  });
}

std::vector<ShippedChange> LibraryStore::shippedChanges() { return m_parts->entries.shippedChanges(); }

void LibraryStore::keepOwn(EntryKind kind, const std::string& id) {
  m_parts->write([&](const ChangeStamp&) {
    m_parts->entries.keepOwn(kind, id);
    return true;
  });
}

}  // namespace bw
