// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/bundle.h"
#include "core/library/library_store.h"

#include <cstdint>

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

/// How much a choice takes along, told without reading a photo.
struct ExportExtent {
  std::size_t recipes = 0;
  std::size_t materials = 0;  // chosen as entries of their own; recipes bring theirs anyway
  std::size_t machines = 0;
  std::size_t attachments = 0;  // each once, whether chosen or not; those that cannot go along aside
  std::uintmax_t attachments_bytes = 0;
  std::string problem;             // one sentence why it cannot be one bundle, empty: it can
  std::string attachmentsProblem;  // one sentence why the attachments have to stay behind
};

/// Ids that are not known count for nothing here.
ExportExtent extentOf(LibraryStore& store, const ExportChoice& choice);

/// Gathers it, in the library's order: the same library and choice give the same bundle. Recipes bring all their versions, and materials
/// and machines as they were. Throws LibraryError (Missing) where an id is not known.
ExportResult exportBundle(LibraryStore& store, const ExportChoice& choice);

}  // namespace bw
