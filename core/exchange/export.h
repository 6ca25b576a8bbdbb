// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/bundle.h"
#include "core/library/library_store.h"

namespace bw {

/// What goes into a bundle.
struct ExportChoice {
  bool all = false;                  // every recipe, own material and own machine; shipped ones are everywhere already
  std::vector<std::string> recipes;  // ids, besides
  std::vector<std::string> substrates;
  std::vector<std::string> coatings;
  std::vector<std::string> machines;
  bool attachments = true;  // whether photos and documents go along, or only their names
};

struct ExportResult {
  Bundle bundle;
  std::vector<std::string> notices;  // sentences: what could not go along, and why
};

/// Gathers it, in the library's order: the same library and choice give the same bundle. Recipes bring all their versions, and materials
/// and machines as they were. Throws LibraryError (Missing) where an id is not known.
ExportResult exportBundle(LibraryStore& store, const ExportChoice& choice);

}  // namespace bw
