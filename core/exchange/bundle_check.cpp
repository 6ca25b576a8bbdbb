// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/bundle_check.h"

#include "core/exchange/base64.h"
#include "core/exchange/bundle_file.h"
#include "core/exchange/safe_names.h"
#include "core/library/sha256.h"

namespace bw {
namespace {

class Checker {
 public:
  Checker(Bundle& bundle, Problems& problems) : m_bundle(bundle), m_problems(problems) {}

  void run() {
    refuse("$.from", m_bundle.from, lineProblem(m_bundle.from));
    refuse("$.made_at", m_bundle.madeAt, lineProblem(m_bundle.madeAt));
    checkEntries(m_bundle.substrates, "$.substrates", [](Substrate& entry) -> Substrate& { return entry; });
    checkEntries(m_bundle.coatings, "$.coatings", [](Coating& entry) -> Coating& { return entry; });
    checkEntries(
        m_bundle.machines, "$.machines", [](MachineCard& card) -> Machine& { return card.machine; }, ".machine");
    checkKeys(m_bundle.shared.machines, "$.shared.machines", m_machines);
    checkKeys(m_bundle.shared.substrates, "$.shared.substrates", m_substrates);
    checkKeys(m_bundle.shared.coatings, "$.shared.coatings", m_coatings);
    std::set<std::string> ids;
    for (std::size_t i = 0; i < m_bundle.recipes.size(); ++i) checkRecipe(m_bundle.recipes[i], elementPath("$.recipes", i), ids);
    std::set<std::string> hashes;
    for (std::size_t i = 0; i < m_bundle.files.size(); ++i) checkFile(m_bundle.files[i], elementPath("$.attachments", i), hashes);
  }

 private:
  void refuse(const std::string& path, const std::string& text, const std::string& why) {
    if (!why.empty()) m_problems.add(path, shown(Json(text)) + " " + why);
  }
  void checkOnce(const std::string& id, const std::string& path, std::set<std::string>& seen) {
    if (!seen.insert(id).second) m_problems.add(path, shown(Json(id)) + " stands twice; each once is accepted");
  }

  template <class T, class Of>
  void checkEntries(std::vector<T>& entries, const std::string& list, Of of, const std::string& inner = {}) {
    std::set<std::string> ids;
    for (std::size_t i = 0; i < entries.size(); ++i) {
      const std::string path = elementPath(list, i) + inner;
      checkOnce(of(entries[i]).id, path + ".id", ids);
    }
  }
  template <class T>
  void checkKeys(const std::vector<Shared<T>>& shared, const std::string& list, std::set<std::string>& keys) {
    for (std::size_t i = 0; i < shared.size(); ++i) {
      const std::string path = elementPath(list, i);
      checkOnce(shared[i].key, path + ".key", keys);
    }
  }

  void checkNamed(const std::vector<std::string>& named, const std::set<std::string>& known, const std::string& path) {
    if (named.size() > mostProfilesOfVersion) {
      return m_problems.add(path, "too long a list; up to " + std::to_string(mostProfilesOfVersion) + " keys are accepted");
    }
    std::set<std::string> seen;
    for (std::size_t i = 0; i < named.size(); ++i) {
      const std::string place = elementPath(path, i);
      checkOnce(named[i], place, seen);
      if (!known.contains(named[i])) {
        m_problems.add(place, shown(Json(named[i])) + " is no key of a profile in this bundle; one that stands under $.shared is accepted");
      }
    }
  }

  void checkRecipe(BundledRecipe& recipe, const std::string& path, std::set<std::string>& ids) {
    checkOnce(recipe.id, path + ".id", ids);
    if (recipe.versions.empty()) m_problems.add(path + ".versions", "an empty list; at least one version is accepted");
    int last = 0;
    for (std::size_t i = 0; i < recipe.versions.size(); ++i) {
      const std::string place = elementPath(path + ".versions", i);
      checkVersion(recipe.versions[i], place);
      const int number = recipe.versions[i].version.number;
      if (number != 0 && number <= last) {
        m_problems.add(place + ".number", std::to_string(number) + " comes after " + std::to_string(last) +
                                              "; versions in the order they were saved, each number once, are accepted");
      }
      last = std::max(last, number);
    }
  }

  void checkVersion(const BundledVersion& bundled, const std::string& path) {
    const RecipeVersion& version = bundled.version;
    refuse(path + ".saved_at", version.savedAt, lineProblem(version.savedAt));
    for (std::size_t i = 0; i < version.part.photos.size(); ++i) {
      refuse(elementPath(path + ".part.photos", i), version.part.photos[i], innerPathProblem(version.part.photos[i]));
    }
    checkNamed(bundled.uses.machines, m_machines, path + ".uses.machines");
    checkNamed(bundled.uses.substrates, m_substrates, path + ".uses.substrates");
    checkNamed(bundled.uses.coatings, m_coatings, path + ".uses.coatings");
    checkNamed(bundled.uses.proofMachines, m_machines, path + ".uses.proof_machines");
    if (version.proof) checkProof(*version.proof, path + ".proof");
  }

  void checkProof(const Proof& proof, const std::string& path) {
    for (std::size_t i = 0; i < proof.attachments.size(); ++i) {
      const std::string place = elementPath(path + ".attachments", i);
      checkHash(proof.attachments[i].sha256, place);
      refuse(place + ".name", proof.attachments[i].name, fileNameProblem(proof.attachments[i].name));
    }
  }

  bool checkHash(const std::string& hash, const std::string& path) {
    if (isSha256(hash)) return true;
    refuse(path + ".sha256", hash, "is no SHA-256; 64 digits of 0-9 and a-f are accepted");
    return false;
  }

  void checkFile(BundledFile& file, const std::string& path, std::set<std::string>& hashes) {
    refuse(path + ".name", file.name, fileNameProblem(file.name));
    if (!checkHash(file.sha256, path)) return;
    checkOnce(file.sha256, path + ".sha256", hashes);
    std::optional<std::string> content = fromBase64(file.content);
    if (!content) {
      return m_problems.add(path + ".base64", "not base64; the letters A-Z, a-z, 0-9, + and /, filled up with =, are accepted");
    }
    if (content->size() > largestBundledFile_bytes) {
      return m_problems.add(path + ".base64", "a file of " + std::to_string(content->size() >> 20) + " MB; up to " +
                                                  std::to_string(largestBundledFile_bytes >> 20) + " MB is accepted");
    }
    if (sha256(*content) != file.sha256) {
      m_problems.add(path + ".sha256",
                     "is not the hash of the file that stands here: it was damaged or changed on its way; export it anew");
    }
    file.content = std::move(*content);
  }

  Bundle& m_bundle;
  Problems& m_problems;
  std::set<std::string> m_machines;
  std::set<std::string> m_substrates;
  std::set<std::string> m_coatings;
};

}  // namespace

void checkBundle(Bundle& bundle, Problems& problems) { Checker(bundle, problems).run(); }

}  // namespace bw
