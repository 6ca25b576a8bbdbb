// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/library/carried_recipe.h"
#include "core/library/library_backup.h"
#include "core/library/library_check.h"
#include "core/library/library_store.h"

#include <string>

namespace bw {

/// What the command line prints of the library: JSON for programs, whose keys are not renamed, and a table for people. SI values leave in
/// the unit that the key names.
std::string findingsJson(const RecipeFindings& findings);
std::string findingsTable(const RecipeFindings& findings);

/// What is nearest to some work, nearest first, and what makes the distance.
std::string nearestJson(const std::vector<NearRecipe>& nearest);
std::string nearestTable(const std::vector<NearRecipe>& nearest);

/// One version of a recipe with how it stands, why its proof is stale, and which versions there are.
std::string recipeJson(const Recipe& recipe, const std::vector<RecipeVersion>& versions, const std::vector<std::string>& stale);
std::string recipeTable(const Recipe& recipe, const std::vector<RecipeVersion>& versions, const std::vector<std::string>& stale);

/// A recipe carried over to another machine, what the model says of it there, and the id under which it was saved (empty: it was not).
std::string carriedJson(const CarriedRecipe& carried, const Assessment& assessment, const std::string& savedAs);
std::string carriedTable(const CarriedRecipe& carried, const Assessment& assessment, const std::string& savedAs);

/// The machines a plan can be made for: the shop's own first, then those that come with the program.
std::string machinesJson(const std::vector<LibraryEntry<MachineCard>>& machines);
std::string machinesTable(const std::vector<LibraryEntry<MachineCard>>& machines);

/// The shop as it usually is, in the keys of its file; a table of what was entered.
std::string shopJson(const ShopFacts& facts);
std::string shopTable(const ShopFacts& facts);

std::string checkJson(const std::string& path, const LibraryCheck& check);
std::string checkTable(const std::string& path, const LibraryCheck& check);

std::string backupsJson(const std::vector<LibraryBackup>& backups);
std::string backupsTable(const std::vector<LibraryBackup>& backups);

/// Where a restored library's file went that stood there before; nothing: there was none.
std::string restoredJson(const std::string& library, const std::string& backup, const std::string& aside);

}  // namespace bw
