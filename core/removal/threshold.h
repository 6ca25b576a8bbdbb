// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// exp(x^2) erfc(x) without overflow, x >= 0. Relative error below 1e-10 (held to scipy.special.erfcx in the tests).
double erfcx(double x);

/// Fluence of one cold pulse at which the surface of a thick layer just reaches its removal enthalpy while heat leaks inwards:
/// F = (H d / A) s / (2 sqrt(s/pi) + erfcx(sqrt s) - 1), s = alpha tau / d^2. Tends to H d / A for short pulses.
/// Source: half-space heated by exponentially absorbed light, Carslaw and Jaeger 2nd ed. section 2.11 (constant flux).
double thresholdFluence_J_m2(double removalEnthalpy_J_m3, double opticalDepth_m, double absorptance, double diffusivity_m2_s,
                             double pulseDuration_s);

/// The same over H d / A, at least 1: how many optical depths deep the heat lies at the end of a pulse, s = alpha tau / d^2.
double heatedDepths(double s);

}  // namespace bw
