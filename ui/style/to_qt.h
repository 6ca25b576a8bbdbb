// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include <filesystem>
#include <string>

namespace bw {

/// Text of the core, UTF-8, for the screen.
inline QString toQt(const std::string& text) { return QString::fromStdString(text); }

/// A path as Qt has it for the core's files, whatever letters are in it.
inline std::filesystem::path toPath(const QString& path) { return {path.toStdU16String()}; }

}  // namespace bw
