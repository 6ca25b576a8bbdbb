// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"
#include "core/library/sqlite.h"

namespace bw {

/// The largest file that can be attached; a photo has a few megabytes.
inline constexpr std::uintmax_t largestAttachment_bytes = 256u * 1024 * 1024;

/// The folder of a library's attachments, and where one of them lies in it.
std::filesystem::path attachmentFolder(const std::filesystem::path& library);
std::filesystem::path attachmentFile(const std::filesystem::path& library, const std::string& sha256);

/// Puts the content into the folder, complete before it gets its name, and into the library's table. Nothing is ever overwritten there.
/// Opens no transaction of its own; a file whose row is undone does no harm.
Attachment keepAttachment(Database& database, const std::string& content, const std::string& name, const std::string& time);

/// What `file` holds, up to the largest size. Throws Refused or Io.
std::string readAttachment(const std::filesystem::path& file);

}  // namespace bw
