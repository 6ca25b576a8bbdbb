// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// The bare metal under single pulses of constant irradiance, one-dimensional, constant properties.
/// Not modelled: latent heat of melting, melt flow, the plume's shadow. Etch is uncertain by /3 to x1.5 for the plume's sake.
struct BareMetal {
  double absorptance = 0;
  double conductivity_W_mK = 0;
  double heatCapacity_J_m3K = 0;  // density x specific heat
  double melting_C = 0;
  double boiling_C = 0;
  double vaporisation_J_m3 = 0;  // to heat and boil a volume away
  double before_C = 20;          // just before the pulse
  double start_C = 20;           // of the part, before the work

  bool operator==(const BareMetal&) const = default;

  double diffusivity_m2_s() const { return conductivity_W_mK / heatCapacity_J_m3K; }

  /// Surface reaches melting: Fm = (Tm - T0) sqrt(pi k rho c tau) / (2A). Carslaw and Jaeger 2nd ed. section 2.9. Zero or less: molten.
  double meltFluence_J_m2(double pulseDuration_s) const;

  /// Deepest point that reaches melting: 2 u sqrt(alpha tau) with sqrt(pi) ierfc(u) = Fm/F (same solution, at the pulse's end).
  double meltDepth_m(double fluence_J_m2, double pulseDuration_s) const;

  /// From which it boils: Fv = Fm (Tb - T0)/(Tm - T0).
  double boilFluence_J_m2(double pulseDuration_s) const;

  /// Metal boiled away by one pulse: A max(0, F - Fv)/(rho Hv).
  double etchPerPulse_m(double fluence_J_m2, double pulseDuration_s) const;

  /// Rise of the surface by one pulse of absorbed irradiance q: 2 q sqrt(tau / (pi k rho c)).
  double flashRise_K(double absorbedIrradiance_W_m2, double pulseDuration_s) const;
};

}  // namespace bw
