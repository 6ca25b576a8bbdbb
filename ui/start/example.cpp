// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/start/example.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>

namespace bw {
namespace {

const QString firstExample = QStringLiteral("carriage-side-panel.bwright");

}  // namespace

QString exampleFolder() {
  const QStringList folders = {QCoreApplication::applicationDirPath() + QStringLiteral("/../share/barewright/sample-projects"),
                               QStringLiteral(BAREWRIGHT_SAMPLES)};
  for (const QString& folder : folders) {
    if (QFile::exists(folder + QLatin1Char('/') + firstExample)) return QDir(folder).absolutePath();
  }
  return {};
}

QStringList exampleFiles() {
  const QString folder = exampleFolder();
  if (folder.isEmpty()) return {};
  QStringList files = QDir(folder).entryList({QStringLiteral("*.bwright")}, QDir::Files, QDir::Name);
  files.removeAll(firstExample);
  files.prepend(firstExample);
  return files;
}

QString exampleTitle(const QString& file) {
  QString name = QFileInfo(file).completeBaseName().replace(QLatin1Char('-'), QLatin1Char(' '));
  if (!name.isEmpty()) name[0] = name[0].toUpper();
  return QCoreApplication::translate("Example", "%1 (invented)").arg(name);
}

std::optional<Project> loadExample(const QString& file) {
  const QString folder = exampleFolder();
  if (folder.isEmpty()) return std::nullopt;
  const QString name = file.isEmpty() ? firstExample : file;
  try {
    return openProject(std::filesystem::path((folder + QLatin1Char('/') + name).toStdU16String()), shippedLibrary());
  } catch (const FileError&) {
    return std::nullopt;
  }
}

}  // namespace bw
