// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/asker.h"
#include "ui/document/project_document.h"

#include <QObject>
#include <QStringList>

namespace bw {

/// Opens, saves and remembers project files for a document. Nothing here loses work: a file that cannot be read leaves the open
/// project alone, and what is unsaved is asked about first.
class ProjectFiles : public QObject {
  Q_OBJECT
 public:
  ProjectFiles(ProjectDocument& document, Asker& asker, QObject* parent = nullptr);

  void setAsker(Asker& asker) { m_asker = &asker; }

  /// True when what is open may be replaced: saved, or its changes given up.
  bool mayLeave();
  bool open();
  bool open(const QString& path);
  bool save();
  bool saveAs();
  QStringList recent() const;
  void forgetRecent();

 signals:
  void recentChanged();

 private:
  bool write(const QString& path);
  void remember(const QString& path);
  void showLastPlan();
  void rememberPlan();
  QString proposedPath() const;

  ProjectDocument& m_document;
  Asker* m_asker;
};

}  // namespace bw
