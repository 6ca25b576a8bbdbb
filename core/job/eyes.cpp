// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/eyes.h"

#include "core/beam/caustic.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {
namespace {

constexpr double exposure_s = 10;
constexpr double pupilDiameter_m = 7e-3;
constexpr double shortestPulse_s = 1e-9;

/// Limits of one guide at one wavelength: a plateau up to a time, then a power of time.
struct Limits_J_m2 {
  double plateau;
  double plateauUpTo_s;
  double thermal;  // times t^0.75
  double steady_W_m2;  // from ten seconds on

  double at(double duration_s) const { return duration_s <= plateauUpTo_s ? plateau : thermal * std::pow(duration_s, 0.75); }
};

/// C_A (IEC: C_4), 700 to 1400 nm.
double retinalFactor(double wavelength_nm) { return wavelength_nm < 1050 ? std::pow(10, 0.002 * (wavelength_nm - 700)) : 5; }

/// C_C (IEC: C_7), 700 to 1400 nm; beyond 1150 nm from memory.
double ocularFactor(EyeGuide guide, double wavelength_nm) {
  if (wavelength_nm < 1150) return 1;
  if (wavelength_nm < 1200) return std::pow(10, 0.018 * (wavelength_nm - 1150));
  return guide == EyeGuide::Directive2006 ? 8 : 8 + std::pow(10, 0.04 * (wavelength_nm - 1250));
}

std::optional<Limits_J_m2> limitsOf(EyeGuide guide, double wavelength_m) {
  const double wavelength_nm = std::round(wavelength_m * 1e12) / 1e3;  // 1400 nm in metres is a hair more
  if (!(wavelength_nm >= 700 && wavelength_nm <= 1400)) return std::nullopt;
  const bool directive = guide == EyeGuide::Directive2006;
  if (wavelength_nm < 1050) {
    const double factor = retinalFactor(wavelength_nm);
    return directive ? Limits_J_m2{5e-3 * factor, 18e-6, 18 * factor, 10 * factor}
                     : Limits_J_m2{2e-3 * factor, 5e-6, 18 * factor, 10 * factor};
  }
  const double factor = ocularFactor(guide, wavelength_nm);
  return directive ? Limits_J_m2{5e-2 * factor, 50e-6, 90 * factor, 50 * factor}
                   : Limits_J_m2{2e-2 * factor, 13e-6, 90 * factor, 50 * factor};
}

/// C_P: by how much each pulse of a train of N must stay below a single one (rule 3).
double trainFactor(EyeGuide guide, double pulses, bool longPulses) {
  const double fourthRoot = std::pow(std::max(1.0, pulses), -0.25);
  if (guide == EyeGuide::Directive2006) return fourthRoot;
  return longPulses ? 1 : std::min(1.0, 5 * fourthRoot);
}

EyeExposure exposureOf(const Machine& machine, const Settings& settings) {
  if (machine.kind == MachineKind::Pulsed) return {machine.wavelength_m, settings.repetitionRate_Hz, settings.pulseDuration_s};
  const bool gated = machine.gate_Hz && *machine.gate_Hz > 0 && settings.dutyFraction < 1;
  if (!gated) return {machine.wavelength_m, 0, 0};
  return {machine.wavelength_m, *machine.gate_Hz, settings.dutyFraction / *machine.gate_Hz};
}

}  // namespace

std::optional<double> eyeLimit_J_m2(EyeGuide guide, double wavelength_m, double duration_s) {
  const auto limits = limitsOf(guide, wavelength_m);
  if (!limits || duration_s < shortestPulse_s) return std::nullopt;
  return limits->at(duration_s);
}

std::optional<double> eyeLimit_W_m2(EyeGuide guide, const EyeExposure& exposure) {
  const auto limits = limitsOf(guide, exposure.wavelength_m);
  if (!limits) return std::nullopt;
  // Rule 2: lowest at the longest time; the limit from ten seconds on is a hair stricter than that up to them.
  const double steady_W_m2 = std::min(limits->at(exposure_s) / exposure_s, limits->steady_W_m2);
  if (exposure.rate_Hz <= 0) return steady_W_m2;
  if (exposure.pulseDuration_s < shortestPulse_s) return std::nullopt;
  const bool longPulses = exposure.pulseDuration_s > limits->plateauUpTo_s;
  const double inOne = longPulses ? 1.0 : std::max(1.0, std::ceil(exposure.rate_Hz * limits->plateauUpTo_s - 1e-9));
  const double trains = exposure.rate_Hz * exposure_s / inOne;
  const double onePulse_J_m2 = limits->at(exposure.pulseDuration_s);
  const double ofTrain_J_m2 = onePulse_J_m2 * trainFactor(guide, trains, longPulses) / inOne;
  return std::min({onePulse_J_m2 * exposure.rate_Hz, steady_W_m2, ofTrain_J_m2 * exposure.rate_Hz});
}

std::optional<double> eyeLimit_W_m2(const EyeExposure& exposure) {
  const auto icnirp = eyeLimit_W_m2(EyeGuide::Icnirp2013, exposure);
  const auto directive = eyeLimit_W_m2(EyeGuide::Directive2006, exposure);
  if (!icnirp || !directive) return std::nullopt;
  return std::min(*icnirp, *directive);
}

double hazardDistance_m(double power_W, double limit_W_m2, double fullAngle_rad) {
  return std::sqrt(8 * power_W / (std::numbers::pi * limit_W_m2)) / fullAngle_rad;
}

double diffuseDistance_m(double power_W, double limit_W_m2) { return std::sqrt(power_W / (std::numbers::pi * limit_W_m2)); }

double opticalDensity(double power_W, double limit_W_m2) {
  const double pupil_m2 = std::numbers::pi / 4 * pupilDiameter_m * pupilDiameter_m;
  return std::max(0.0, std::ceil(std::log10(power_W / pupil_m2 / limit_W_m2)));
}

EyesResult eyes(const Machine& machine, const Settings& settings) {
  const auto limit_W_m2 = eyeLimit_W_m2(exposureOf(machine, settings));
  const double power_W = std::max(machine.ratedPower_W, machine.deliveredPower_W.value_or(0));
  if (!limit_W_m2 || power_W <= 0 || machine.spotDiameter_m <= 0) return {};
  const Caustic caustic(machine.spotDiameter_m / 2, machine.M2, machine.wavelength_m);
  const double angle_rad = machine.divergence_rad.value_or(caustic.fullAngle_rad());
  return {hazardDistance_m(power_W, *limit_W_m2, angle_rad), diffuseDistance_m(power_W, *limit_W_m2), opticalDensity(power_W, *limit_W_m2)};
}

}  // namespace bw
