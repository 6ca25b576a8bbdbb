// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/column.h"

#include <cmath>
#include <vector>

namespace bw::test {

// Coats and pulses on which the ledger is held to the fine column. Round values of the kinds of coat there are; none is a check value.

inline CoatLayer coatOf(double thickness_um, double absorptance, double depth_um, double enthalpy_J_mm3 = 1.5) {
  CoatLayer layer;
  layer.thickness_m = thickness_um * 1e-6;
  layer.absorptance = absorptance;
  layer.opticalDepth_m = depth_um * 1e-6;
  layer.removalEnthalpy_J_m3 = enthalpy_J_mm3 * 1e9;
  layer.ejectionTime_s = 150e-9;
  layer.heatCapacity_J_m3K = 2e6;
  layer.diffusivity_m2_s = 0.27 / 2e6;
  layer.removalRise_K = 330;
  return layer;
}

/// By scattering and absorption.
inline CoatLayer paleCoatOf(double thickness_um, double scattering_1_mm, double absorption_1_mm) {
  const KubelkaMunk film{absorption_1_mm * 1e3, scattering_1_mm * 1e3};
  return coatOf(thickness_um, 1 - thickReflectance(film), opticalDepth_m(film) * 1e6);
}

constexpr double pulse_s = 20e-9;

/// Fluence of one cold pulse that removes matter at the top, or makes a face beneath too hot, whichever needs less.
inline double leastFluence_J_m2(const CoatedMetal& part) {
  const CoatLight::Film& top = part.light.whole(0);
  double least = part.coat[0].leavesAt_J_m3() / top.density_1_m, light = top.passed;
  for (std::size_t i = 1; i < part.coat.size(); ++i) {
    const CoatLight::Film& film = part.light.whole(i);
    least = std::min(least, part.coat[i].sensibleEnthalpy_J_m3() / (film.density_1_m * light));
    light *= film.passed;
  }
  const double flash_K = part.metal.flashRise_K(part.metal.absorptance * light / pulse_s, pulse_s);  // for each J/m2
  return std::min(least, part.coat.back().removalRise_K / flash_K);
}

/// One pulse after another on the same spot.
inline std::vector<Hit> pulseAlone(double peak_J_m2) { return {{0, peak_J_m2, 0}}; }

/// The middle of a frame of parallel lines: a few pulses as the spot goes by, the next line a few milliseconds later.
inline std::vector<Hit> pulsesOfFrame(double peak_J_m2, double rate_Hz) {
  constexpr double spot_m = 60e-6, step_m = 40e-6, spacing_m = 80e-6, line_s = 3e-3;
  std::vector<Hit> hits;
  for (int line = -2; line <= 2; ++line) {
    for (int i = -3; i <= 3; ++i) {
      const double r = std::hypot(line * spacing_m, i * step_m) / spot_m, share = std::exp(-2 * r * r);
      if (share > 1e-4) hits.push_back({(line + 2) * line_s + (i + 3) / rate_Hz, share * peak_J_m2, 0});
    }
  }
  return hits;
}

inline void shine(Ledger& ledger, double fluence_J_m2) { ledger.pulse(fluence_J_m2, pulse_s); }
inline void shine(Column& column, double fluence_J_m2) { column.shine(fluence_J_m2, pulse_s); }

/// Depth after each repetition of the hits, one every period, until so much is gone or the most are done. A pass is a repetition, or with
/// `onePass` all of them.
template <class Model>
std::vector<double> depthsOf(Model model, const std::vector<Hit>& hits, double energy, double period_s, std::size_t most, double enough_m,
                             bool onePass) {
  std::vector<double> depths;
  double now = 0;
  for (std::size_t n = 0; n < most && !model.isBare() && (n == 0 || depths.back() < enough_m); ++n) {
    if (n == 0 || !onePass) model.beginPass();
    for (const Hit& hit : hits) {
      const double time = static_cast<double>(n) * period_s + hit.time_s;
      model.rest(time - now);
      shine(model, energy * hit.fluence_J_m2);
      now = time + pulse_s;
    }
    constexpr double moment_s = 1e-7;  // so that what is ripe has left
    model.rest(moment_s);
    now += moment_s;
    depths.push_back(model.depth_m());
  }
  return depths;
}

}  // namespace bw::test
