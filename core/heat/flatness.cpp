// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/flatness.h"

#include <algorithm>

namespace bw {

double oilCanRise_K(const SheetMechanics& sheet, double width_m) {
  const double t = sheet.thickness_m, half = width_m / 2;
  return 2 * 4.2 * t * t / (12 * (1 - sheet.poissonRatio * sheet.poissonRatio) * sheet.expansion_1_K * half * half);
}

double skinYieldRise_K(const SheetMechanics& sheet) {
  return 2 * sheet.yield_Pa * (1 - sheet.poissonRatio) / (sheet.youngsModulus_Pa * sheet.expansion_1_K);
}

double skinBow_m(const SheetMechanics& sheet, double yieldedDepth_m) {
  const double t = sheet.thickness_m, length = 0.3;
  const double curvature = 6 * sheet.yield_Pa * std::min(yieldedDepth_m, t) * (1 - sheet.poissonRatio) / (sheet.youngsModulus_Pa * t * t);
  return curvature * length * length / 8;
}

double FlatnessTerms::index() const { return std::max({yield, oilCan, bow}); }

FlatnessTerms flatness(const SheetMechanics& sheet, double localRise_K, double width_m, double yieldedDepth_m) {
  const double yield = localRise_K * sheet.youngsModulus_Pa * sheet.expansion_1_K / sheet.yield_Pa;
  return {yield, localRise_K / oilCanRise_K(sheet, width_m), skinBow_m(sheet, yieldedDepth_m) / 1e-3, localRise_K, width_m};
}

}  // namespace bw
