// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"
#include "ui/document/change.h"

#include <QObject>
#include <QUndoStack>

#include <functional>

namespace bw {

/// Owns the open project and its undo stack. The only writer: everything else sends an edit (edits.h) and hears `changed`.
class ProjectDocument : public QObject {
  Q_OBJECT
 public:
  /// The plan and the step of it that the window shows and edits.
  struct Place {
    std::size_t plan = 0;
    std::size_t step = 0;
    bool operator==(const Place&) const = default;
  };

  explicit ProjectDocument(QObject* parent = nullptr);

  const Project& project() const { return m_project; }
  Place place() const { return m_place; }
  const Plan& plan() const;
  std::size_t stepCount() const;
  const Settings& settings() const;
  const Machine* machine() const;

  QUndoStack& undoStack() { return m_stack; }

  QString filePath() const { return m_filePath; }
  bool isModified() const { return m_neverSaved || !m_stack.isClean(); }

  /// Replaces the project and forgets the undo steps. `filePath` empty: has no file yet.
  void replace(Project project, const QString& filePath);
  /// Says that what is open is not in any file, though nothing was edited since: a recovered project.
  void setNeverSaved();
  void setSaved(const QString& filePath);
  void show(Place place);
  /// Steps before this moment and after it no longer merge: a field was left, a drag has ended.
  void closeStep() { ++m_stepNumber; }
  int stepNumber() const { return m_stepNumber; }

  template <typename Find, typename T>
  bool holds(const Find& find, const T& value) {
    return find(m_project) == value;
  }

 signals:
  void changed(bw::Changes changes);

 private:
  template <typename T>
  friend class ChangeValue;
  void write(Place place, Changes changes, const std::function<void(Project&)>& writer);
  void clampPlace();

  Project m_project;
  Place m_place;
  QUndoStack m_stack;
  QString m_filePath;
  bool m_neverSaved = false;
  int m_stepNumber = 0;
};

/// The settings of that step in a project.
Settings& settingsAt(Project& project, ProjectDocument::Place place);

}  // namespace bw
