// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/range.h"
#include "core/values/substance.h"

namespace bw {

/// Share of a black body's glow that a stripped metal sends out while it cools. Fire design takes 0.7 for carbon steel and 0.4 for
/// stainless (EN 1993-1-2:2005 2.2 and C.3), 0.3 for clean and 0.7 for painted aluminium (EN 1999-1-2:2007 2.2), all from memory; fresh
/// bright metal sends out less, from memory: the low ends. What glows less cools more slowly.
constexpr Range emissivity(MetalFamily family) {
  switch (family) {
    case MetalFamily::Iron:
      return {0.2, 0.4, 0.7};
    case MetalFamily::Aluminium:
      return {0.1, 0.3, 0.7};
    case MetalFamily::Copper:
      return {0.05, 0.2, 0.7};
    case MetalFamily::Titanium:
    case MetalFamily::Magnesium:
      return {0.1, 0.3, 0.7};
    case MetalFamily::Unknown:
      break;
  }
  return {0.05, 0.3, 0.7};
}

}  // namespace bw
