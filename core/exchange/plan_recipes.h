// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/import_plan.h"

namespace bw {

/// How the bundle's recipe of that index stands to the library. The histories of both sides are laid beside each other: a version is known
/// by what it says, not by its number, so that the same bundle can come again after other versions were saved.
ImportLine planRecipe(LibraryStore& store, const BundledRecipe& theirs, std::size_t index, const ArrivingVersions& arriving);

}  // namespace bw
