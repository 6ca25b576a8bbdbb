// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/delivery.h"

#include "core/beam/caustic.h"
#include "core/beam/profile.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

double interpolate(const std::vector<double>& x, const std::vector<double>& y, double at) {
  const auto above = std::ranges::lower_bound(x, at);
  if (above == x.begin()) return y.front();
  if (above == x.end()) return y.back();
  const auto i = static_cast<std::size_t>(above - x.begin());
  return std::lerp(y[i - 1], y[i], (at - x[i - 1]) / (x[i] - x[i - 1]));
}

double listedPulseEnergy_J(const Machine& machine, double pulseDuration_s) {
  const auto& energies = machine.maxPulseEnergy_J;
  if (energies.empty()) return std::numeric_limits<double>::infinity();
  if (energies.size() == 1 || energies.size() != machine.pulseDurations_s.size()) return energies.front();
  return interpolate(machine.pulseDurations_s, energies, pulseDuration_s);
}

}  // namespace

double largestPulseEnergy_J(const Machine& machine, double pulseDuration_s) {
  const double listed = listedPulseEnergy_J(machine, pulseDuration_s);
  return machine.maxPeakPower_W ? std::min(listed, *machine.maxPeakPower_W * pulseDuration_s) : listed;
}

double fullPower_W(const Machine& machine) { return machine.deliveredPower_W.value_or(machine.ratedPower_W); }

BeamResult deliver(const Machine& machine, const Settings& settings) {
  const Caustic caustic(machine.spotDiameter_m / 2, machine.M2, machine.wavelength_m);
  const double radius = caustic.radiusAt_m(settings.focusOffset_m);
  const double peak = SpotProfile(machine.beamProfile).peakPerWatt_1_m2(radius);

  BeamResult beam;
  beam.spotDiameter_m = 2 * radius;
  beam.rayleighRange_m = caustic.rayleighRange_m();
  double power = settings.powerFraction * fullPower_W(machine);
  if (machine.kind == MachineKind::Pulsed) {
    const double f = settings.repetitionRate_Hz;
    power = std::min(power, largestPulseEnergy_J(machine, settings.pulseDuration_s) * f);
    beam.pulseEnergy_J = power / f;
    beam.peakPower_W = *beam.pulseEnergy_J / settings.pulseDuration_s;
    beam.peakFluence_J_m2 = *beam.pulseEnergy_J * peak;
  } else {
    beam.peakPower_W = power;
  }
  beam.meanPower_W = power * settings.dutyFraction;
  beam.peakIrradiance_W_m2 = beam.peakPower_W * peak;
  return beam;
}

}  // namespace bw
