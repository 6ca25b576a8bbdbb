// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// Absorption K and scattering S of a paint film for diffuse light, per metre of depth.
struct KubelkaMunk {
  double absorption_1_m = 0;
  double scattering_1_m = 0;
};

/// What a film does with the light that falls on it. The three shares of a film over a black background sum to 1.
struct FilmLight {
  double reflectance = 0;    // film and background together
  double transmittance = 0;  // to the background, its reflections back into the film included
};

/// Film of thickness d over a background that returns the share Rg of what reaches it:
///   a = 1 + K/S, b = sqrt(a^2 - 1), D = a sinh(bSd) + b cosh(bSd)
///   over black: R0 = sinh(bSd) / D, T0 = b / D
///   R = R0 + T0^2 Rg / (1 - R0 Rg),  light that arrives at the background T = T0 / (1 - R0 Rg)
/// so that the background takes T (1 - Rg) and the film 1 - R - T (1 - Rg).
/// P. Kubelka, "New contributions to the optics of intensely light-scattering materials, part I", J. Opt. Soc. Am. 38 (1948) 448.
/// The reflections at the film's own surface are left out. S = 0 gives Beer-Lambert, K = 0 loses no light.
FilmLight filmOver(const KubelkaMunk& film, double thickness_m, double backgroundReflectance);

/// Reflectance of a film too thick to see through: 1 + K/S - sqrt((K/S)^2 + 2 K/S); 0 where nothing scatters.
double thickReflectance(const KubelkaMunk& film);

/// Depth over which the light in a thick film falls to 1/e: 1 / sqrt(K (K + 2 S)). Infinite where nothing absorbs.
double opticalDepth_m(const KubelkaMunk& film);

/// The film that absorbs that share when thick, over that depth: the two relations above solved for K and S.
/// Needs 0 < absorptance <= 1 and a depth above 0.
KubelkaMunk kubelkaMunkFrom(double absorptance, double opticalDepth_m);

}  // namespace bw
