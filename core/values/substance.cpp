// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/substance.h"

#include <algorithm>

namespace bw {

const Coating* findCoating(const Library& library, const std::string& id) {
  const auto found = std::ranges::find(library.coatings, id, &Coating::id);
  return found == library.coatings.end() ? nullptr : &*found;
}

const Substrate* findSubstrate(const Library& library, const std::string& id) {
  const auto found = std::ranges::find(library.substrates, id, &Substrate::id);
  return found == library.substrates.end() ? nullptr : &*found;
}

}  // namespace bw
