// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace bw {

/// Draft: never tried. Proven: a trial showed that it works. Withdrawn: known not to work, which is worth keeping too.
enum class RecipeState { Draft, Proven, Withdrawn };

/// A number that was predicted: nine in ten such jobs lie between low and high. A missing bound is not known, or "it never clears".
struct PredictedNumber {
  std::optional<double> low;
  std::optional<double> likely;
  std::optional<double> high;
  bool operator==(const PredictedNumber&) const = default;
};

/// What the model said of a recipe when it was saved.
struct Prediction {
  std::string modelVersion;                        // empty: nothing was predicted
  std::map<std::string, PredictedNumber> numbers;  // by the key of the results, e.g. "thermal.back_C", in the unit the key names
  std::vector<std::string> fails;                  // the messages of the checks that failed
  Extras extras;
  bool operator==(const Prediction&) const = default;
};

/// A photo or another file kept beside the library, named there by what it holds.
struct Attachment {
  std::string sha256;  // 64 hexadecimal digits
  std::string name;    // as the user called it, "panel after pass 3.jpg"
  std::string note;
  Extras extras;
  bool operator==(const Attachment&) const = default;
};

/// What was tried and measured. It speaks for the machines and the model it was made with; see proof.h for when it goes stale.
struct Proof {
  std::vector<Trial> trials;
  std::string date;      // ISO 8601, of the judgement
  std::string initials;  // whose judgement
  std::string note;
  std::vector<Attachment> attachments;
  std::string modelVersion;
  std::vector<Machine> machines;  // as they were then
  Extras extras;
  bool operator==(const Proof&) const = default;
};

/// One saved state of a recipe: everything that is needed to read it, assess it and do it again. Never overwritten.
struct RecipeVersion {
  int number = 0;       // 1, 2, 3, ...: tells the order, which a clock cannot. 0: not saved yet
  std::string savedAt;  // ISO 8601 UTC, by the clock of the computer that saved it; the store fills it in
  std::string savedBy;  // initials
  std::string name;
  std::string note;
  Part part;
  Coat coat;
  std::vector<Machine> machines;  // whole profiles of those that the plan's steps name; the first step's comes first
  Plan plan;                      // machine and settings, or bulk and clean-up steps
  Library materials;              // what part and coat name, as it was then, so that the recipe stands alone
  Prediction predicted;
  std::optional<Proof> proof;
  Extras extras;
  bool operator==(const RecipeVersion&) const = default;
};

/// A recipe: who it is, how it stands, and its newest version.
struct Recipe {
  std::string id;  // UUID-like and stable; empty: the store makes one
  RecipeState state = RecipeState::Draft;
  std::string reason;     // why it was withdrawn
  RecipeVersion version;  // the newest; when saved, `number` is the version it was made from
  Extras extras;
  bool operator==(const Recipe&) const = default;
};

/// The machine of the recipe's first step, or nothing where the plan names one that did not come along.
const Machine* mainMachine(const RecipeVersion& version);

/// The recipe as a project of one plan, ready to be assessed.
Project projectOf(const RecipeVersion& version);

/// A recipe's first version from one plan of a project (the first one if `plan` is empty), with all that the plan names. The project's
/// trials come along as a proof without a judgement (no date, no initials); `predicted` is left to the caller.
RecipeVersion recipeFrom(const Project& project, const std::string& plan, const Library& materials);

}  // namespace bw
