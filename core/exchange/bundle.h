// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/machine_card.h"
#include "core/library/recipe.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace bw {

/// A profile that recipes of a bundle were made with, written once however many of them name it.
template <class T>
struct Shared {
  std::string key;  // within the bundle: the profile's id, numbered where several differ
  T value;
  Extras extras;
  bool operator==(const Shared&) const = default;
};

/// Profiles as they were when the recipes were saved.
struct SharedProfiles {
  std::vector<Shared<Machine>> machines;
  std::vector<Shared<Substrate>> substrates;
  std::vector<Shared<Coating>> coatings;
  Extras extras;
  bool operator==(const SharedProfiles&) const = default;
};

/// Keys of the profiles that belong to a version, besides those that stand in it.
struct NamedProfiles {
  std::vector<std::string> machines;
  std::vector<std::string> substrates;
  std::vector<std::string> coatings;
  std::vector<std::string> proofMachines;
  Extras extras;
  bool operator==(const NamedProfiles&) const = default;
};

/// A version without the profiles it names.
struct BundledVersion {
  NamedProfiles uses;
  RecipeVersion version;
  bool operator==(const BundledVersion&) const = default;
};

struct BundledRecipe {
  std::string id;
  RecipeState state = RecipeState::Draft;  // of the newest version
  std::string reason;
  std::vector<BundledVersion> versions;  // oldest first
  Extras extras;
  bool operator==(const BundledRecipe&) const = default;
};

/// A photo or document that proofs name by what it holds.
struct BundledFile {
  std::string sha256;
  std::string name;
  std::string content;
  Extras extras;
  bool operator==(const BundledFile&) const = default;
};

/// What one library gives to another, in one file.
struct Bundle {
  std::string from;    // who gives it away, in their words
  std::string madeAt;  // ISO 8601 UTC, as the clock there said
  std::string note;
  std::vector<Substrate> substrates;
  std::vector<Coating> coatings;
  std::vector<MachineCard> machines;
  SharedProfiles shared;
  std::vector<BundledRecipe> recipes;
  std::vector<BundledFile> files;
  Extras extras;
  bool operator==(const Bundle&) const = default;
};

/// Puts versions together with the profiles they name. The bundle must stay where it is.
class WholeVersions {
 public:
  explicit WholeVersions(const Bundle& bundle);
  /// As the library keeps it. A key that the bundle does not hold is left out; reading refuses those.
  RecipeVersion of(const BundledVersion& version) const;

 private:
  std::map<std::string_view, const Machine*> m_machines;
  std::map<std::string_view, const Substrate*> m_substrates;
  std::map<std::string_view, const Coating*> m_coatings;
};

}  // namespace bw
