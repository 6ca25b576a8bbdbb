// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

#include <QString>
#include <QStringList>

#include <optional>

namespace bw {

/// Folder of the sample projects: where the program is installed, or else its source; empty when there is neither.
QString exampleFolder();

/// The samples' files in that folder, that of the first start at the front; all of them are invented.
QStringList exampleFiles();
/// "Lamp bezel (invented)".
QString exampleTitle(const QString& file);

/// A sample by its file; without one that of the first start, the carriage side panel.
std::optional<Project> loadExample(const QString& file = {});

}  // namespace bw
