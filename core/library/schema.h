// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/sqlite.h"

namespace bw {

/// Marks a file as a library of this program: "BWRL".
inline constexpr std::int64_t libraryApplicationId = 0x4257524C;

/// How many steps there are; a library's user_version is the number of those it has taken.
int latestSchema();

/// Takes the steps that the library has not taken yet, up to `upTo`, each in a transaction of its own.
void bringUpToDate(Database& database, int upTo);
inline void bringUpToDate(Database& database) { bringUpToDate(database, latestSchema()); }

}  // namespace bw
