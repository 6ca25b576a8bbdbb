// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/differences.h"
#include "core/library/library_error.h"
#include "core/library/machine_card.h"
#include "core/library/recipe.h"
#include "core/library/recipe_nearest.h"
#include "core/library/recipe_search.h"
#include "core/values/shop.h"

#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace bw {

/// How the library keeps half-done writes apart from done ones. Automatic: a write-ahead log, or a rollback journal on a network share,
/// where a write-ahead log does not work.
enum class JournalMode { Automatic, WriteAhead, Rollback };

struct LibraryOptions {
  bool create = true;     // where there is no file yet, folders included
  bool readOnly = false;  // asked for; a write-protected file is opened so without asking
  JournalMode journal = JournalMode::Automatic;
  std::chrono::milliseconds patience{5000};                    // how long to wait for another program's write before giving up as Busy
  std::function<std::chrono::system_clock::time_point()> now;  // empty: the computer's clock
  std::optional<Library> shippedMaterials;                     // nothing: shippedLibrary()
  std::optional<std::vector<Machine>> shippedMachines;         // nothing: typicalMachines()
  int mostPages = 0;                                           // a size limit, 4096 bytes each; 0: none
};

/// Where an entry comes from. Shipped: read-only. OwnCopy: stands in the place of a shipped one. Own: made by the user.
enum class EntryOrigin { Shipped, OwnCopy, Own };

template <class T>
struct LibraryEntry {
  T value;
  EntryOrigin origin = EntryOrigin::Shipped;
  int revision = 0;             // of an own one, to be given back when it is saved again; 0 of a shipped one
  bool shippedChanged = false;  // the shipped one is no longer what this copy was made from
};

enum class EntryKind { Substrate, Coating, Machine };

/// What an update of the program changed in a shipped entry of which the user has a copy of their own.
struct ShippedChange {
  EntryKind kind = EntryKind::Coating;
  std::string id;
  std::string name;
  bool gone = false;                // no longer shipped
  std::vector<Difference> shipped;  // from what the copy was made from to what is shipped now
  std::vector<Difference> own;      // from what the copy was made from to the copy
};

struct SavedRecipe {
  std::string id;
  int version = 0;
};

/// The library in one file: the only door to it. Every call is whole or not at all, and what has returned is on the disk. One thread at a
/// time; any number of stores, in this program and others, may have the same file open. Everything throws LibraryError.
class LibraryStore {
 public:
  explicit LibraryStore(const std::filesystem::path& path, const LibraryOptions& options = {});
  LibraryStore(LibraryStore&&) noexcept;
  LibraryStore& operator=(LibraryStore&&) noexcept;
  ~LibraryStore();

  const std::filesystem::path& path() const;
  bool readOnly() const;
  std::string libraryId() const;  // made with the library, the same in its copies

  /// Whether another program or store changed the library since the last look. Costs nothing to ask.
  bool changedByOthers();

  /// What to say about the clock, if it stands before the last change of the library; empty: nothing. Nothing is ordered by it.
  std::string clockNotice() const;

  /// All that `work` does to this store is kept, or, if it throws, nothing of it.
  void inOneGo(const std::function<void()>& work);

  // Recipes.

  /// Saves the newest version. Without an id, or with one the library does not know: a new recipe (`version.number` 0). Else the version
  /// after `version.number`, which must still be the newest (Conflict otherwise, nothing overwritten). Proven takes a proof with a dated,
  /// signed trial; withdrawn takes a reason (Refused).
  SavedRecipe saveRecipe(const Recipe& recipe);
  /// The same for many versions from another library, whole or not at all: each keeps the time at which it was saved there, if it tells
  /// one. `next` gives one after the other, and nothing at the end. Much quicker than saving each: the index of words is written once.
  void takeOver(const std::function<std::optional<Recipe>()>& next);
  /// The newest version. Missing where there is none.
  Recipe recipe(const std::string& id);
  std::optional<Recipe> findRecipe(const std::string& id);
  RecipeVersion version(const std::string& id, int number);
  /// All of them, oldest first.
  std::vector<RecipeVersion> versions(const std::string& id);
  /// Without a new version. `version` is the one that was judged and must be the newest (Conflict). The same rules as saveRecipe.
  void setState(const std::string& id, int version, RecipeState state, const std::string& reason, const std::string& initials);
  std::size_t recipeCount();
  /// Ids of all recipes, in the order they came in.
  std::vector<std::string> recipeIds();

  RecipeFindings find(const RecipeQuery& query);
  std::vector<NearRecipe> nearest(const NearestQuery& query);
  /// Why the newest version's proof no longer holds, by the library's own machines; see proof.h.
  std::vector<std::string> staleReasons(const RecipeVersion& version, const std::string& modelVersion);

  // Attachments: files in the folder "<library>.files" beside the library, each named by the SHA-256 of what it holds.

  /// Copies the file there; the same content twice is kept once. The result goes into a Proof.
  Attachment attach(const std::filesystem::path& file);
  Attachment attach(const std::string& content, const std::string& name);
  /// Where the content lies. Missing where the library does not know it; what is no hash is Refused.
  std::filesystem::path attachmentPath(const std::string& sha256) const;

  // Materials and machines. Saving one with a shipped id makes an own copy of it. `revision` is that of the entry that was edited
  // (Conflict where it is no longer the newest).

  std::vector<LibraryEntry<Substrate>> substrates();
  std::vector<LibraryEntry<Coating>> coatings();
  std::vector<LibraryEntry<MachineCard>> machines();
  /// The shipped library with own entries in the place of shipped ones: what to assess with.
  Library materials();

  int saveSubstrate(const Substrate& substrate, int revision);
  int saveCoating(const Coating& coating, int revision);
  int saveMachine(const MachineCard& card, int revision);

  /// The shop as it usually is: room, people, prices. What was saved last; nothing entered where nothing was.
  ShopFacts shop();
  void saveShop(const ShopFacts& shop);

  /// Drops an own copy, so that the shipped one shows again; drops an own entry altogether. Missing where there is none.
  void resetEntry(EntryKind kind, const std::string& id);
  /// What has changed in the shipped entries of which there are own copies.
  std::vector<ShippedChange> shippedChanges();
  /// Keeps the own copy and says no more about that change.
  void keepOwn(EntryKind kind, const std::string& id);

 private:
  struct Parts;
  std::unique_ptr<Parts> m_parts;
};

}  // namespace bw
