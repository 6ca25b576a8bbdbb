// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/import_plan.h"

#include "core/exchange/plan_recipes.h"
#include "core/exchange/safe_names.h"
#include "core/files/part_json.h"

#include <algorithm>
#include <set>

namespace bw {
namespace {

const Substrate& profileOf(const Substrate& substrate) { return substrate; }
const Coating& profileOf(const Coating& coating) { return coating; }
const Machine& profileOf(const MachineCard& card) { return card.machine; }
Substrate& profileOf(Substrate& substrate) { return substrate; }
Coating& profileOf(Coating& coating) { return coating; }
Machine& profileOf(MachineCard& card) { return card.machine; }

std::string originInWords(EntryOrigin origin) {
  switch (origin) {
    case EntryOrigin::Shipped:
      return "as shipped";
    case EntryOrigin::OwnCopy:
      return "own copy of a shipped one";
    case EntryOrigin::Own:
      return "own";
  }
  return {};
}

/// One kind of material or machine.
template <class T>
class EntryPlanner {
 public:
  EntryPlanner(BundlePart part, const std::vector<LibraryEntry<T>>& mine) : m_part(part) {
    for (const LibraryEntry<T>& entry : mine) m_mine.emplace(profileOf(entry.value).id, &entry);
  }

  ImportLine line(const T& theirs, std::size_t index) const {
    const auto& profile = profileOf(theirs);
    ImportLine line{m_part, index, profile.id, profile.name, ImportStatus::New, {}, "in the bundle", {}, 0, 0, {}};
    const LibraryEntry<T>* mine = find(profile.id);
    if (!mine) return line;
    line.mine = originInWords(mine->origin);
    line.basis = mine->revision;
    line.differences = differences(mine->value, theirs);
    line.status = line.differences.empty() || findCopy(theirs, line) ? ImportStatus::Identical : ImportStatus::Conflict;
    return line;
  }

 private:
  const LibraryEntry<T>* find(const std::string& id) const {
    const auto found = m_mine.find(id);
    return found == m_mine.end() ? nullptr : found->second;
  }

  /// Whether it stands beside the library's own already, from an earlier import; else the id under which it could.
  bool findCopy(T theirs, ImportLine& line) const {
    profileOf(theirs).name = copyNameOf(line.name);
    for (int number = 1;; ++number) {
      line.copyId = profileOf(theirs).id = copyIdOf(line.id, number);
      const LibraryEntry<T>* copy = find(line.copyId);
      if (!copy) return false;
      if (!differences(copy->value, theirs).empty()) continue;
      line.mine += "; the bundle's stands beside it as " + line.copyId;
      line.differences.clear();
      return true;
    }
  }

  BundlePart m_part;
  std::map<std::string_view, const LibraryEntry<T>*> m_mine;
};

template <class T>
void addLines(BundlePart part, const std::vector<T>& theirs, const std::vector<LibraryEntry<T>>& mine, std::vector<ImportLine>& lines) {
  const EntryPlanner<T> planner(part, mine);
  for (std::size_t i = 0; i < theirs.size(); ++i) lines.push_back(planner.line(theirs[i], i));
}

void noteLeftOut(const Bundle& bundle, const ArrivingVersions& arriving, std::vector<std::string>& notices) {
  std::set<std::string> missing;
  for (const BundledRecipe& recipe : bundle.recipes) {
    for (const BundledVersion& bundled : recipe.versions) {
      if (!bundled.version.proof) continue;
      for (const Attachment& attachment : bundled.version.proof->attachments) {
        if (!arriving.has(attachment.sha256)) missing.insert(attachment.sha256);
      }
    }
  }
  if (missing.empty()) return;
  notices.push_back(std::to_string(missing.size()) +
                    (missing.size() == 1 ? " attachment that proofs name is" : " attachments that proofs name are") +
                    " not in the bundle; what they were called is kept.");
}

}  // namespace

std::string copyIdOf(const std::string& id, int number) {
  const std::string end = number == 1 ? "-imported" : "-imported-" + std::to_string(number);
  return cutText(id, idText.longest - end.size()) + end;
}

std::string copyNameOf(const std::string& name) {
  static constexpr std::string_view end = " (imported)";
  return cutText(name, nameText.longest - end.size()) + std::string(end);
}

std::size_t ImportPlan::count(ImportStatus status) const {
  return static_cast<std::size_t>(std::ranges::count(lines, status, &ImportLine::status));
}

ImportPlan planImport(LibraryStore& store, Bundle bundle) { return planImport(store, std::make_shared<const Bundle>(std::move(bundle))); }

ImportPlan planImport(LibraryStore& store, std::shared_ptr<const Bundle> given) {
  ImportPlan plan;
  plan.bundle = std::move(given);
  const Bundle& bundle = *plan.bundle;
  addLines(BundlePart::Substrate, bundle.substrates, store.substrates(), plan.lines);
  addLines(BundlePart::Coating, bundle.coatings, store.coatings(), plan.lines);
  addLines(BundlePart::Machine, bundle.machines, store.machines(), plan.lines);
  const ArrivingVersions arriving(store, bundle);
  for (std::size_t i = 0; i < bundle.recipes.size(); ++i) plan.lines.push_back(planRecipe(store, bundle.recipes[i], i, arriving));
  noteLeftOut(bundle, arriving, plan.notices);
  return plan;
}

}  // namespace bw
