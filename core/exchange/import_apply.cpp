// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/import_apply.h"

#include "core/files/file_io.h"
#include "core/files/json_io.h"

#include <set>

namespace bw {
namespace {

/// Theirs, mine and both are told apart before anything is written.
class Importer {
 public:
  Importer(LibraryStore& store, const ImportPlan& plan) : m_store(store), m_bundle(*plan.bundle), m_arriving(store, m_bundle) {}

  void take(const ImportLine& line, ImportDecision decision) {
    const bool isCopy = decision == ImportDecision::Both && line.status == ImportStatus::Conflict;
    if (line.status == ImportStatus::Identical || decision == ImportDecision::Mine) {
      ++m_outcome.untouched;
    } else if (line.part == BundlePart::Recipe) {
      isCopy ? takeCopy(line) : takeRecipe(line);
    } else {
      takeEntry(line, isCopy);
    }
  }

  /// Recipes come last and all together.
  void finish() {
    std::size_t at = 0;
    m_store.takeOver([&]() -> std::optional<Recipe> {
      while (at < m_arrivals.size() && m_arrivals[at].next == m_arrivals[at].theirs->versions.size()) ++at;
      if (at == m_arrivals.size()) return {};
      return nextOf(m_arrivals[at]);
    });
  }

  const ImportOutcome& outcome() const { return m_outcome; }

 private:
  void takeEntry(const ImportLine& line, bool isCopy) {
    const int revision = isCopy ? 0 : line.basis;
    if (line.part == BundlePart::Substrate) m_store.saveSubstrate(named(m_bundle.substrates[line.index], line, isCopy), revision);
    if (line.part == BundlePart::Coating) m_store.saveCoating(named(m_bundle.coatings[line.index], line, isCopy), revision);
    if (line.part == BundlePart::Machine) {
      MachineCard card = m_bundle.machines[line.index];
      card.machine = named(card.machine, line, isCopy);
      m_store.saveMachine(card, revision);
    }
    ++(line.part == BundlePart::Machine ? m_outcome.machines : m_outcome.materials);
  }

  template <class T>
  static T named(T profile, const ImportLine& line, bool isCopy) {
    if (!isCopy) return profile;
    profile.id = line.copyId;
    profile.name = copyNameOf(line.name);
    return profile;
  }

  void takeRecipe(const ImportLine& line) {
    const BundledRecipe& theirs = m_bundle.recipes[line.index];
    const bool isNew = line.status == ImportStatus::New;
    if (line.common == theirs.versions.size()) {
      m_store.setState(line.id, line.basis, theirs.state, theirs.reason, theirs.versions.back().version.savedBy);
      ++m_outcome.states;
      return;
    }
    m_arrivals.push_back({&theirs, line.id, line.common, line.basis, {}});
    if (isNew)
      ++m_outcome.recipes;
    else
      m_outcome.versions += theirs.versions.size() - line.common;
  }

  void takeCopy(const ImportLine& line) {
    m_arrivals.push_back({&m_bundle.recipes[line.index], line.copyId, 0, 0, copyNameOf(line.name)});
    ++m_outcome.recipes;
  }

  /// A recipe of the bundle from its version `next` on, to come after the library's version `after`.
  struct Arrival {
    const BundledRecipe* theirs = nullptr;
    std::string id;
    std::size_t next = 0;
    int after = 0;
    std::string lastName;  // of the newest version; empty: its own
  };

  /// The state is that of the newest version; those before it were drafts as far as anybody can tell now.
  Recipe nextOf(Arrival& arrival) {
    const BundledRecipe& theirs = *arrival.theirs;
    Recipe recipe;
    recipe.id = arrival.id;
    recipe.extras = theirs.extras;
    recipe.version = m_arriving.of(theirs.versions[arrival.next++]);
    recipe.version.number = arrival.after++;
    if (arrival.next == theirs.versions.size()) {
      recipe.state = theirs.state;
      recipe.reason = theirs.reason;
      if (!arrival.lastName.empty()) recipe.version.name = arrival.lastName;
    }
    attachFiles(recipe.version);
    return recipe;
  }

  void attachFiles(const RecipeVersion& version) {
    if (!version.proof) return;
    for (const Attachment& attachment : version.proof->attachments) {
      const BundledFile* file = m_arriving.file(attachment.sha256);
      if (!file || !m_attached.insert(attachment.sha256).second) continue;
      m_store.attach(file->content, file->name.empty() ? attachment.name : file->name);
      ++m_outcome.attachments;
    }
  }

  LibraryStore& m_store;
  const Bundle& m_bundle;
  ArrivingVersions m_arriving;
  ImportOutcome m_outcome;
  std::set<std::string> m_attached;
  std::vector<Arrival> m_arrivals;
};

ImportDecision decisionFor(const ImportDecisions& decisions, std::size_t index) {
  const auto found = decisions.find(index);
  return found == decisions.end() ? ImportDecision::Open : found->second;
}

bool isOpen(const ImportPlan& plan, const ImportDecisions& decisions, std::size_t index) {
  return plan.lines[index].status == ImportStatus::Conflict && decisionFor(decisions, index) == ImportDecision::Open;
}

void demandDecided(const LibraryStore& store, const ImportPlan& plan, const ImportDecisions& decisions) {
  const std::size_t open = openConflicts(plan, decisions);
  if (open == 0) return;
  std::size_t first = 0;
  while (!isOpen(plan, decisions, first)) ++first;
  throw LibraryError(LibraryTrouble::Conflict,
                     shownPath(store.path()) + ": " + shown(Json(plan.lines[first].name)) +
                         (open > 1 ? " and " + std::to_string(open - 1) + " more differ" : " differs") +
                         " from what the library has; nothing was imported: decide for each to keep mine, to take theirs, or to keep both");
}

}  // namespace

ImportDecisions decideAll(const ImportPlan& plan, ImportDecision decision) {
  ImportDecisions decisions;
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    if (plan.lines[i].status == ImportStatus::Conflict) decisions[i] = decision;
  }
  return decisions;
}

std::size_t openConflicts(const ImportPlan& plan, const ImportDecisions& decisions) {
  std::size_t open = 0;
  for (std::size_t i = 0; i < plan.lines.size(); ++i) open += isOpen(plan, decisions, i) ? 1u : 0u;
  return open;
}

ImportDecisions stillFitting(const ImportDecisions& decisions, const ImportPlan& then, const ImportPlan& now) {
  // The bundle is the same, so the library's side and what differs from it tell all.
  const auto isSame = [](const ImportLine& one, const ImportLine& other) {
    return one.part == other.part && one.index == other.index && one.status == other.status && one.basis == other.basis &&
           one.common == other.common && one.mine == other.mine && one.differences == other.differences;
  };
  ImportDecisions fitting;
  for (const auto& [index, decision] : decisions) {
    if (index < then.lines.size() && index < now.lines.size() && isSame(then.lines[index], now.lines[index])) fitting[index] = decision;
  }
  return fitting;
}

ImportOutcome applyImport(LibraryStore& store, const ImportPlan& plan, const ImportDecisions& decisions) {
  demandDecided(store, plan, decisions);
  Importer importer(store, plan);
  store.inOneGo([&] {
    for (std::size_t i = 0; i < plan.lines.size(); ++i) importer.take(plan.lines[i], decisionFor(decisions, i));
    importer.finish();
  });
  return importer.outcome();
}

}  // namespace bw
