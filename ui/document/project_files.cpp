// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/project_files.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "ui/style/to_qt.h"

#include <QDir>
#include <QFileInfo>
#include <QSettings>
#include <QStandardPaths>

#include <algorithm>

namespace bw {
namespace {

constexpr int mostRecent = 8;
const QString recentKey = QStringLiteral("recentProjects");
const QString suffix = QStringLiteral(".bwright");

const QString plansKey = QStringLiteral("shownPlans");

/// What a person can do first, what the reader of the file found last.
QString whyNotOpened(const QString& path, const QString& found) {
  const QFileInfo file(path);
  const QString why = !file.exists() ? ProjectFiles::tr("“%1” is not there any more. It may have been moved or renamed.")
                      : !file.isReadable()
                          ? ProjectFiles::tr("You may not read “%1”. Ask whoever owns the file.")
                          : ProjectFiles::tr(
                                "“%1” is damaged, comes from a newer version of the program, or is not a Barewright project. Try a "
                                "backup copy or another file.");
  return ProjectFiles::tr("%1\n\nThe project that was open is unchanged.\n\nDetails: %2").arg(why.arg(file.fileName()), found);
}

QString homeFolder() { return QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation); }

}  // namespace

ProjectFiles::ProjectFiles(ProjectDocument& document, Asker& asker, QObject* parent)
    : QObject(parent), m_document(document), m_asker(&asker) {
  connect(&m_document, &ProjectDocument::changed, this, [this](Changes changes) {
    if (changes != Changes(Change::Everything) && (changes & Change::Shown)) rememberPlan();
  });
}

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
    showLastPlan();
    remember(path);
    return true;
  } catch (const FileError& error) {
    m_asker->tell(tr("This file cannot be opened"), whyNotOpened(path, QString::fromUtf8(error.what())));
    return false;
  }
}

/// The plan that was shown last in this file.
void ProjectFiles::showLastPlan() {
  const std::string name = QSettings().value(plansKey).toMap().value(m_document.filePath()).toString().toStdString();
  const auto& plans = m_document.project().plans;
  const auto last = std::ranges::find(plans, name, &Plan::name);
  if (last != plans.end()) m_document.show({static_cast<std::size_t>(last - plans.begin()), 0});
}

void ProjectFiles::rememberPlan() {
  if (m_document.filePath().isEmpty()) return;
  const QVariantMap before = QSettings().value(plansKey).toMap();
  QVariantMap plans{{m_document.filePath(), QString::fromStdString(m_document.plan().name)}};
  for (const QString& path : recent())
    if (path != m_document.filePath() && before.contains(path)) plans[path] = before[path];
  QSettings().setValue(plansKey, plans);
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
    rememberPlan();
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
