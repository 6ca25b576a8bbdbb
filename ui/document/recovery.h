// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

#include <QLockFile>
#include <QObject>
#include <QThreadPool>
#include <QTimer>

#include <memory>
#include <optional>

namespace bw {

/// A project that a crash left behind, and the file it came from (empty: never saved).
struct Recovered {
  Project project;
  QString filePath;
};

/// Keeps a copy of unsaved work in the user's data folder, written off the interface's thread a moment after an edit.
/// What is still there at the next start, without a running program that owns it, was left by a crash.
class Recovery : public QObject {
  Q_OBJECT
 public:
  /// `folder` empty: the user's data folder.
  explicit Recovery(ProjectDocument& document, const QString& folder = {}, QObject* parent = nullptr);

  /// A copy left behind by a crash; nothing when there is none. Its file stays until this object has written one of its own.
  std::optional<Recovered> findLeftBehind();
  void dropLeftBehind();
  /// Work was saved or given up: removes the copy.
  void discard();
  /// Writes at once and waits; for tests and for the end of a desktop session.
  void flush();
  QString copyPath() const;

 private:
  void documentChanged(Changes changes);
  void write();

  ProjectDocument& m_document;
  QString m_folder;
  QString m_id;
  QString m_leftBehind;
  std::unique_ptr<QLockFile> m_lock;
  QTimer m_timer;
  QThreadPool m_writer;  // one thread, so that copies are written in order
};

}  // namespace bw
