// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// What a warm place in a sheet is made of.
struct SheetMechanics {
  double thickness_m = 0;
  double expansion_1_K = 0;
  double youngsModulus_Pa = 0;
  double poissonRatio = 0;
  double yield_Pa = 0;
};

/// Rise above the surrounding sheet that makes a warm disc of that full width oil-can while hot, supported edge:
/// 2 x 4.2 t^2 / (12 (1 - nu^2) a (b/2)^2). Order of magnitude (clamped: 3.5 times as much).
double oilCanRise_K(const SheetMechanics& sheet, double width_m);

/// Rise at which the restrained skin yields both ways, in compression and again when cooling: 2 sy (1 - nu)/(E a).
double skinYieldRise_K(const SheetMechanics& sheet);

/// Bow over 0.3 m left by a skin of that depth that has yielded: kappa L^2/8 with kappa = 6 sy z (1 - nu)/(E t^2).
double skinBow_m(const SheetMechanics& sheet, double yieldedDepth_m);

/// What could bend the sheet, each 1 where trouble begins: yield under the local rise, dT E a / sy; popping out of plane while hot; a bow
/// of 1 mm left behind. Screening only.
struct FlatnessTerms {
  double yield = 0;
  double oilCan = 0;
  double bow = 0;
  double localRise_K = 0;  // of the hot place above the sheet around it
  double width_m = 0;      // of it, at half rise
  double index() const;    // the largest
};
FlatnessTerms flatness(const SheetMechanics& sheet, double localRise_K, double width_m, double yieldedDepth_m);

}  // namespace bw
