// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/carry/carry_dialog.h"
#include "ui/recipes/recipe_dialogs.h"

#include <QPointer>

namespace bw {

/// Carrying a recipe over to another machine, from the button to the new recipe or the changed plan.
class CarryFlow : public QObject {
  Q_OBJECT
 public:
  CarryFlow(ProjectDocument& document, LibraryDesk& desk, RecipeDialogs& dialogs, AssessmentRunner::Model model, QWidget* window);

  void begin(const RecipeDetail& detail);

 signals:
  void saved(const QString& id);

 private:
  void open(const RecipeDetail& detail, const CarryDialog::Machines& machines);
  void keep();
  void apply(const RecipeDetail& detail);
  void write(const CarriedRecipe& carried, const Prediction& prediction, const KeptWords& words);

  ProjectDocument& m_document;
  LibraryDesk& m_desk;
  RecipeDialogs& m_dialogs;
  AssessmentRunner::Model m_model;
  QWidget* m_window;
  QPointer<CarryDialog> m_dialog;
};

}  // namespace bw
