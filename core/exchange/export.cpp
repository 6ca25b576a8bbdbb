// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/export.h"

#include "core/exchange/base64.h"
#include "core/exchange/bundle_check.h"
#include "core/exchange/bundle_file.h"
#include "core/exchange/safe_names.h"
#include "core/files/file_io.h"
#include "core/library/attachments.h"
#include "core/library/entry_id.h"
#include "core/library/sha256.h"

#include <algorithm>
#include <set>
#include <unordered_map>

namespace bw {
namespace {

/// Profiles, each once, with a key.
template <class T>
class ProfilePool {
 public:
  explicit ProfilePool(std::vector<Shared<T>>& pool) : m_pool(pool) {}

  /// Keys of the profiles, which are taken out of the version. One that stands there twice leaves all of them where they are.
  std::vector<std::string> take(std::vector<T>& profiles) {
    std::vector<std::string> keys;
    for (const T& profile : profiles) keys.push_back(keyOf(profile));
    if (std::set<std::string>(keys.begin(), keys.end()).size() != keys.size() || keys.size() > mostProfilesOfVersion) return {};
    profiles.clear();
    return keys;
  }

 private:
  std::string keyOf(const T& profile) {
    std::vector<std::size_t>& known = m_known[profile.id];
    for (const std::size_t place : known) {
      if (m_pool[place].value == profile) return m_pool[place].key;
    }
    known.push_back(m_pool.size());
    m_pool.push_back({freeKey(profile.id), profile, {}});
    return m_pool.back().key;
  }
  std::string freeKey(const std::string& id) {
    for (int number = 1;; ++number) {
      const std::string key = number == 1 ? id : id + " (" + std::to_string(number) + ")";
      if (m_keys.insert(key).second) return key;
    }
  }

  std::vector<Shared<T>>& m_pool;
  std::unordered_map<std::string, std::vector<std::size_t>> m_known;
  std::set<std::string> m_keys;
};

class Exporter {
 public:
  Exporter(LibraryStore& store, const ExportChoice& choice) : m_store(store), m_choice(choice) {}

  ExportResult run() {
    addEntries(m_store.substrates(), m_choice.substrates, "substrate", m_result.bundle.substrates);
    addEntries(m_store.coatings(), m_choice.coatings, "coating", m_result.bundle.coatings);
    addEntries(m_store.machines(), m_choice.machines, "machine", m_result.bundle.machines);
    addRecipes();
    return std::move(m_result);
  }

 private:
  template <class T>
  void addEntries(const std::vector<LibraryEntry<T>>& entries, const std::vector<std::string>& chosen, const std::string& noun,
                  std::vector<T>& to) {
    std::set<std::string> open(chosen.begin(), chosen.end());
    for (const LibraryEntry<T>& entry : entries) {
      const bool isChosen = open.erase(idOf(entry.value)) > 0;
      if (isChosen || (m_choice.all && entry.origin != EntryOrigin::Shipped)) to.push_back(entry.value);
    }
    demandNone(open, noun);
  }

  void addRecipes() {
    std::set<std::string> open(m_choice.recipes.begin(), m_choice.recipes.end());
    for (const std::string& id : m_store.recipeIds()) {
      const bool isChosen = open.erase(id) > 0;
      if (isChosen || m_choice.all) addRecipe(id);
    }
    demandNone(open, "recipe");
  }

  void demandNone(const std::set<std::string>& unknown, const std::string& noun) const {
    if (unknown.empty()) return;
    throw LibraryError(LibraryTrouble::Missing, shownPath(m_store.path()) + ": " + noun + " " + shownPath(*unknown.begin()) +
                                                    ": there is none; barewright library list names them all");
  }

  void addRecipe(const std::string& id) {
    const Recipe recipe = m_store.recipe(id);
    BundledRecipe bundled{id, recipe.state, recipe.reason, {}, recipe.extras};
    for (RecipeVersion& version : m_store.versions(id)) bundled.versions.push_back(packed(std::move(version)));
    m_result.bundle.recipes.push_back(std::move(bundled));
  }

  BundledVersion packed(RecipeVersion version) {
    for (std::string& photo : version.part.photos) {
      if (!innerPathProblem(photo).empty()) photo = safeFileName(photo);
    }
    if (version.proof) {
      for (Attachment& attachment : version.proof->attachments) addFile(attachment);
    }
    BundledVersion bundled;
    bundled.uses.machines = m_machines.take(version.machines);
    bundled.uses.substrates = m_substrates.take(version.materials.substrates);
    bundled.uses.coatings = m_coatings.take(version.materials.coatings);
    if (version.proof) bundled.uses.proofMachines = m_machines.take(version.proof->machines);
    bundled.version = std::move(version);
    return bundled;
  }

  void addFile(Attachment& attachment) {
    if (!fileNameProblem(attachment.name).empty()) attachment.name = safeFileName(attachment.name);
    if (!m_choice.attachments || !m_hashes.insert(attachment.sha256).second) return;
    try {
      std::string content = readAttachment(m_store.attachmentPath(attachment.sha256));
      if (content.size() > largestBundledFile_bytes) {
        notice(attachment, "is larger than " + std::to_string(largestBundledFile_bytes >> 20) + " MB");
      } else if (sha256(content) != attachment.sha256) {
        notice(attachment, "is not what was attached; barewright library check tells more");
      } else {
        m_encoded_bytes += base64Length(content.size());
        if (m_encoded_bytes > largestBundle_bytes) throw FileError("the bundle: " + tooLargeBundle(m_encoded_bytes));  // memory is finite
        m_result.bundle.files.push_back({attachment.sha256, attachment.name, std::move(content), {}});
      }
    } catch (const LibraryError& error) {
      notice(attachment, std::string("cannot be read: ") + error.what());
    }
  }

  void notice(const Attachment& attachment, const std::string& why) {
    m_result.notices.push_back("The attachment \"" + attachment.name + "\" did not go along: it " + why + ".");
  }

  LibraryStore& m_store;
  const ExportChoice& m_choice;
  ExportResult m_result;
  ProfilePool<Machine> m_machines{m_result.bundle.shared.machines};
  ProfilePool<Substrate> m_substrates{m_result.bundle.shared.substrates};
  ProfilePool<Coating> m_coatings{m_result.bundle.shared.coatings};
  std::set<std::string> m_hashes;
  std::uintmax_t m_encoded_bytes = 0;
};

}  // namespace

ExportResult exportBundle(LibraryStore& store, const ExportChoice& choice) { return Exporter(store, choice).run(); }

}  // namespace bw
