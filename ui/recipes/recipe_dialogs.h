// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/document/project_document.h"
#include "ui/library/library_desk.h"
#include "ui/library/library_jobs.h"

namespace bw {

class TrialForm;

/// What a person does to recipes: asks for what is needed, then has the desk write it. Dialogs open over the window and are answered when
/// the person likes; nothing waits for them.
class RecipeDialogs : public QObject {
  Q_OBJECT
 public:
  RecipeDialogs(ProjectDocument& document, LibraryDesk& desk, QWidget* window);

  void setAsker(Asker& asker) { m_asker = &asker; }
  /// Of the plan as it is open; nothing while it is being reckoned anew.
  void setAssessment(std::shared_ptr<const Assessment> assessment) { m_assessment = std::move(assessment); }

  void keepPlan();
  void newVersion(const RecipeDetail& detail);
  void prove(const RecipeDetail& detail);
  void withdraw(const RecipeDetail& detail);
  void takeBack(const RecipeDetail& detail);
  void addPhoto(const RecipeDetail& detail);
  void apply(const RecipeDetail& detail);
  /// Shows what a version changes in the open plan and, if that is wanted, does it: under `undo`, with `warnings` beside it.
  void applyVersion(const RecipeVersion& version, const QString& undo, QStringList warnings, QWidget* over);

 signals:
  void saved(const QString& id);
  void applied();

 private:
  OpenPlan openPlan() const;
  QString assessmentMissing() const;
  void takeReadings(TrialForm* form);
  /// The write, and the new recipe shown when it is done.
  void write(std::function<std::string(LibraryStore&)> work);

  ProjectDocument& m_document;
  LibraryDesk& m_desk;
  QWidget* m_window;
  Asker* m_asker = nullptr;
  std::shared_ptr<const Assessment> m_assessment;
};

}  // namespace bw
