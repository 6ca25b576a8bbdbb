// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/start/example.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"

#include <QCoreApplication>
#include <QDir>

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

std::optional<Project> loadExample() {
  const QString folder = exampleFolder();
  if (folder.isEmpty()) return std::nullopt;
  try {
    return openProject(std::filesystem::path((folder + QLatin1Char('/') + firstExample).toStdU16String()), shippedLibrary());
  } catch (const FileError&) {
    return std::nullopt;
  }
}

}  // namespace bw
