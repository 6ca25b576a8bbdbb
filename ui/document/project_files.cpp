// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/project_files.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "ui/style/to_qt.h"

#include <QDir>
#include <QFileInfo>
#include <QSettings>
#include <QStandardPaths>

namespace bw {
namespace {

constexpr int mostRecent = 8;
const QString recentKey = QStringLiteral("recentProjects");
const QString suffix = QStringLiteral(".bwright");

QString homeFolder() { return QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation); }

}  // namespace

ProjectFiles::ProjectFiles(ProjectDocument& document, Asker& asker, QObject* parent)
    : QObject(parent), m_document(document), m_asker(&asker) {}

bool ProjectFiles::mayLeave() {
  if (!m_document.isModified()) return true;
  switch (m_asker->askUnsaved(QString::fromStdString(m_document.project().name))) {
    case UnsavedAnswer::Save: return save();
    case UnsavedAnswer::Discard: return true;
    case UnsavedAnswer::Cancel: break;
  }
  return false;
}

bool ProjectFiles::open() {
  const QString path = m_asker->askOpenPath(QFileInfo(proposedPath()).path());
  return !path.isEmpty() && open(path);
}

bool ProjectFiles::open(const QString& path) {
  try {
    Project project = openProject(toPath(path), shippedLibrary());
    if (!mayLeave()) return false;
    m_document.replace(std::move(project), QFileInfo(path).absoluteFilePath());
    remember(path);
    return true;
  } catch (const FileError& error) {
    m_asker->tell(tr("This file cannot be opened"),
                  tr("%1\n\nThe project that was open is unchanged.").arg(QString::fromUtf8(error.what())));
    return false;
  }
}

bool ProjectFiles::save() { return m_document.filePath().isEmpty() ? saveAs() : write(m_document.filePath()); }

bool ProjectFiles::saveAs() {
  QString path = m_asker->askSavePath(proposedPath());
  if (path.isEmpty()) return false;
  if (QFileInfo(path).suffix().isEmpty()) path += suffix;
  return write(path);
}

bool ProjectFiles::write(const QString& path) {
  try {
    saveProject(m_document.project(), toPath(path), shippedLibrary());
    m_document.setSaved(QFileInfo(path).absoluteFilePath());
    remember(path);
    return true;
  } catch (const FileError& error) {
    m_asker->tell(tr("The project is not saved"), tr("%1\n\nTry another folder with “Save as”.").arg(QString::fromUtf8(error.what())));
    return false;
  }
}

QStringList ProjectFiles::recent() const { return QSettings().value(recentKey).toStringList(); }

void ProjectFiles::forgetRecent() {
  QSettings().remove(recentKey);
  emit recentChanged();
}

void ProjectFiles::remember(const QString& path) {
  QStringList paths = recent();
  const QString absolute = QFileInfo(path).absoluteFilePath();
  paths.removeAll(absolute);
  paths.prepend(absolute);
  QSettings().setValue(recentKey, paths.mid(0, mostRecent));
  emit recentChanged();
}

QString ProjectFiles::proposedPath() const {
  if (!m_document.filePath().isEmpty()) return m_document.filePath();
  QString name = QString::fromStdString(m_document.project().name);
  name.replace(QLatin1Char('/'), QLatin1Char('-'));
  return QDir(homeFolder()).filePath((name.isEmpty() ? tr("part") : name) + suffix);
}

}  // namespace bw
