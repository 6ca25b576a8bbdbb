// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/recipes/applied_recipe.h"

#include <QDialog>

namespace bw {

/// Shows what a recipe would change in the open plan; nothing happens before it is accepted.
class ApplyDialog : public QDialog {
  Q_OBJECT
 public:
  ApplyDialog(const QString& recipe, const QString& plan, const AppliedRecipe& applied, const QStringList& warnings, QWidget* parent);
};

}  // namespace bw
