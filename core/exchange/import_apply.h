// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/import_plan.h"

namespace bw {

/// By index in the plan's lines; those not named stay open.
using ImportDecisions = std::map<std::size_t, ImportDecision>;

/// The same for every conflict of the plan.
ImportDecisions decideAll(const ImportPlan& plan, ImportDecision decision);

/// How many conflicts nobody decided.
std::size_t openConflicts(const ImportPlan& plan, const ImportDecisions& decisions);

/// Of decisions on an earlier plan of the same bundle those that still fit a new one: both sides of the entry say what they said then.
ImportDecisions stillFitting(const ImportDecisions& decisions, const ImportPlan& then, const ImportPlan& now);

struct ImportOutcome {
  std::size_t materials = 0;  // substrates and coatings that came in
  std::size_t machines = 0;
  std::size_t recipes = 0;   // new ones and copies
  std::size_t versions = 0;  // of recipes that were there
  std::size_t states = 0;    // recipes of which only the state was taken over
  std::size_t attachments = 0;
  std::size_t untouched = 0;  // entries of the bundle that changed nothing
};

/// Does what the plan says, whole or not at all. Throws LibraryError: Conflict where a conflict was left open, or where somebody changed an
/// entry after the plan was made; nothing was touched then.
ImportOutcome applyImport(LibraryStore& store, const ImportPlan& plan, const ImportDecisions& decisions = {});

}  // namespace bw
