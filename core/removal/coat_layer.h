// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/materials/kubelka_munk.h"
#include "core/values/coat.h"

#include <cmath>

namespace bw {

/// A film is held by the skin beneath it; how thick that is, is an assumption, without a source: as thick as the thinnest film that counts
/// as gone.
inline constexpr double coatSkin_m = 2e-6;

/// One layer as the models of removal see it: single values.
struct CoatLayer {
  double thickness_m = 0;
  double absorptance = 0;     // of a film too thick to see through
  double opticalDepth_m = 0;  // over which the light in it falls to 1/e
  double removalEnthalpy_J_m3 = 0;
  double ejectionTime_s = 0;
  double diffusivity_m2_s = 0;
  double heatCapacity_J_m3K = 0;
  double removalRise_K = 0;  // of the removal temperature above the start
  Behaviour behaviour = Behaviour::Decomposes;
  double residueShare = 0;             // softens: of what a pass finds, left as residue
  double absorptanceAfterHeating = 0;  // scorches
  double liftChance = 0.02;            // of coming off as flakes each time what lies beneath is too hot

  double effusivity_J_m2Ks05() const { return heatCapacity_J_m3K * std::sqrt(diffusivity_m2_s); }

  /// Held when the temperature stops rising at the removal temperature: above it matter conducts no more.
  double sensibleEnthalpy_J_m3() const { return heatCapacity_J_m3K * removalRise_K; }

  /// Held when it leaves. What spalls breaks off once it is hot; the rest of its removal enthalpy is spared.
  double leavesAt_J_m3() const;

  /// What is left of a film thinner than this counts as gone: the greater of 2 um and a tenth of the optical depth, at most half the layer.
  double filmLimit_m() const;

  /// Whether what is left of it goes of itself. Over metal a film that counts as gone; over another layer a remnant no thicker than the
  /// skin that holds a film, which would otherwise shade what lies beneath and take up next to nothing. The whole layer never.
  bool isRemnant(double left_m, bool onMetal) const;

  /// The Kubelka-Munk film of the absorptance and optical depth; `scorched` absorbs more and scatters as before.
  KubelkaMunk film(bool scorched = false) const;

  bool operator==(const CoatLayer&) const = default;
};

/// Whether two layers differ in nothing but how thick they are.
inline bool isSameStuff(CoatLayer a, const CoatLayer& b) {
  a.thickness_m = b.thickness_m;
  return a == b;
}

/// Irradiance above which a softening layer leaves no residue: its melt is blown off. A short pulse's, not a continuous beam's. Order of
/// magnitude; common practice, no source.
inline constexpr double blowsResidueOff_W_m2 = 1e11;

}  // namespace bw
