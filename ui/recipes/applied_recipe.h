// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"

#include <QString>
#include <QStringList>

namespace bw {

/// One line of what applying a recipe changes; an empty text: nothing stands there.
struct SettingChange {
  QString what;
  QString now;
  QString then;
  bool operator==(const SettingChange&) const = default;
};

/// What a recipe makes of a plan of the project, before anything is done.
struct AppliedRecipe {
  Plan plan;
  std::vector<Machine> machines;  // that the project does not have yet
  std::vector<SettingChange> changes;
  int unchanged = 0;  // settings that stay
  QStringList notes;  // what is taken otherwise than the recipe has it, and what to mind
};

/// Machines, steps and settings come from the recipe; the plan's name, hand and extraction, the part and its coat stay. A machine the
/// project has already stays as the project has it; steps name only areas and layers that the project has.
AppliedRecipe appliedTo(const Project& project, const Plan& plan, const RecipeVersion& recipe);

}  // namespace bw
