// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdlib>
#include <vector>

namespace bw::test {

/// Whether all of a table, a sweep or a set of pictures is wanted (`tests/run.sh --long` sets BAREWRIGHT_LONG), not only a sample of it.
inline bool thorough() { return std::getenv("BAREWRIGHT_LONG") != nullptr; }

/// All of the list, or in the short form every nth from `first` on.
template <class T>
std::vector<T> sampled(std::vector<T> all, std::size_t every, std::size_t first = 0) {
  if (thorough()) return all;
  std::vector<T> some;
  for (std::size_t i = first; i < all.size(); i += every) some.push_back(all[i]);
  return some;
}

}  // namespace bw::test
