// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/bundle.h"

namespace bw {
namespace {

template <class T>
void addAll(const std::vector<Shared<T>>& from, std::map<std::string_view, const T*>& to) {
  for (const Shared<T>& shared : from) to.emplace(shared.key, &shared.value);
}

template <class T>
void append(const std::vector<std::string>& keys, const std::map<std::string_view, const T*>& known, std::vector<T>& to) {
  for (const std::string& key : keys) {
    if (const auto found = known.find(key); found != known.end()) to.push_back(*found->second);
  }
}

}  // namespace

WholeVersions::WholeVersions(const Bundle& bundle) {
  addAll(bundle.shared.machines, m_machines);
  addAll(bundle.shared.substrates, m_substrates);
  addAll(bundle.shared.coatings, m_coatings);
}

RecipeVersion WholeVersions::of(const BundledVersion& bundled) const {
  RecipeVersion version = bundled.version;
  append(bundled.uses.machines, m_machines, version.machines);
  append(bundled.uses.substrates, m_substrates, version.materials.substrates);
  append(bundled.uses.coatings, m_coatings, version.materials.coatings);
  if (version.proof) append(bundled.uses.proofMachines, m_machines, version.proof->machines);
  return version;
}

}  // namespace bw
