// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace bw {

/// What a list shows of a recipe.
struct RecipeRow {
  std::string id;
  int version = 0;
  std::string name;
  std::string note;
  RecipeState state = RecipeState::Draft;
  std::string reason;
  std::string substrate;              // id
  std::vector<std::string> coatings;  // ids, top first
  double plate_m = 0;                 // thickness of the metal
  double coat_m = 0;                  // of all layers together
  std::string machine;                // id
  MachineKind machineKind = MachineKind::Pulsed;
  Finish finish = Finish::LightEtch;
  std::string savedAt;
  std::string savedBy;
  bool hasProof = false;
};

/// What is looked for. Within a facet any of the values will do; across facets, and of the words, all must hold.
struct RecipeQuery {
  std::string text;                     // words or their beginnings, in name, note, materials, machine, initials; never a syntax
  std::vector<std::string> substrates;  // ids
  std::vector<std::string> coatings;    // ids of which the coat holds at least one
  std::optional<double> coatFrom_m;     // thickness of the whole coat
  std::optional<double> coatTo_m;
  std::optional<double> plateFrom_m;  // thickness of the metal
  std::optional<double> plateTo_m;
  std::optional<MachineKind> machineKind;
  std::optional<Finish> finish;
  bool provenOnly = false;
  bool withdrawnToo = true;
  std::size_t skip = 0;
  std::size_t most = 50;
};

struct FacetCount {
  std::string value;  // an id, or the file's word: "pulsed", "light-etch", "proven"
  std::size_t count = 0;
  bool operator==(const FacetCount&) const = default;
};

/// How many recipes each choice would leave, the other facets as they are; the most frequent first.
struct RecipeFacets {
  std::vector<FacetCount> substrates;
  std::vector<FacetCount> coatings;
  std::vector<FacetCount> machineKinds;
  std::vector<FacetCount> finishes;
  std::vector<FacetCount> states;
};

/// Proven ones first, then drafts, then withdrawn ones; within each the last saved first.
struct RecipeFindings {
  std::vector<RecipeRow> rows;  // from `skip` on, `most` of them
  std::size_t total = 0;
  RecipeFacets facets;
};

}  // namespace bw
