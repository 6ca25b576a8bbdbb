// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/proof.h"
#include "core/library/recipe_search.h"
#include "core/values/plan.h"

#include <QString>

/// The recipes' words on screen.
namespace bw::words {

QString outcome(TrialOutcome outcome);         // "cleared", "partly cleared", "failed", "unfinished"
QString state(RecipeState state, bool stale);  // "draft", "proven", "proven, stale", "withdrawn"
QString finish(Finish finish);
QString machineKind(MachineKind kind);
QString seen(Seen seen);
/// "mild steel" for an id: the library's name without what stands in brackets, else the id made readable.
QString substrate(const Library& materials, const std::string& id);
QString coating(const Library& materials, const std::string& id);
QString readable(const std::string& id);
/// "2026-03-14" of an ISO 8601 time; in the user's way of writing dates.
QString date(const std::string& iso);
/// "thickness before 140 ± 8 µm".
QString reading(const Reading& reading);
QString readingKind(const std::string& kind);
/// "140 ± 8 µm; 132 µm", of readings of one kind; of many their number, mean and spread.
QString readings(const std::vector<Reading>& sameKind);
/// "µm" of "thickness_before_um".
QString unitOf(const std::string& key);
/// The facets' words, as the library counts them.
QString facetMachineKind(const std::string& word);
QString facetFinish(const std::string& word);

}  // namespace bw::words
