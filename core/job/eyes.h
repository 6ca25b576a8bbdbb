// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/job_result.h"
#include "core/values/machine.h"
#include "core/values/plan.h"

#include <optional>

namespace bw {

/// A beam that falls into the eye, still, for ten seconds.
struct EyeExposure {
  double wavelength_m = 0;
  double rate_Hz = 0;          // 0: continuous
  double pulseDuration_s = 0;  // pulsed only
};

/// The guides that set limits of exposure for the eye between 700 and 1400 nm, small source (C_E = 1), J/m2 over the pupil of 7 mm:
///   IEC 60825-1:2014 and ICNIRP, Health Phys. 105 (2013) 271, tables 3 to 5 and 8: 0.02 C_C up to T_i 13 us, then 90 C_C t^0.75;
///     pulses within T_i count as one; a train of N such pulses 5 N^-0.25, at most 1 times that (1 where each is longer than T_i).
///     The floor of 0.4 that IEC 60825-1 puts under that factor is left out: the Directive is stricter in any case.
///   Directive 2006/25/EC, annex II, tables 2.2 to 2.6: 0.05 C_C up to T_min 50 us, then 90 C_C t^0.75; pulses within T_min count as
///     one; a train of N of them N^-0.25 times that.
/// From ten seconds on both have 50 C_C W/m2, below 1050 nm 10 C_A.
/// Below 1050 nm the constants are 2e-3 C_A up to 5 us, 5e-3 C_A up to 18 us, 18 C_A t^0.75 (from memory).
/// In both the exposure of a whole train may not exceed that of its length (rule 2), of any one pulse that of a pulse (rule 1).
enum class EyeGuide { Icnirp2013, Directive2006 };

/// Exposure of one pulse, or of a steady beam for that time. Nothing outside 700 to 1400 nm or below a nanosecond.
std::optional<double> eyeLimit_J_m2(EyeGuide guide, double wavelength_m, double duration_s);

/// Largest mean irradiance in ten seconds that the three rules allow, and the lower of the two guides.
std::optional<double> eyeLimit_W_m2(EyeGuide guide, const EyeExposure& exposure);
std::optional<double> eyeLimit_W_m2(const EyeExposure& exposure);

/// Beyond this distance from the focus the beam has spread below the limit: sqrt(8 P / (pi E)) / angle, full 1/e2 angle.
/// Width at the focus neglected. ANSI Z136.1 (lens on laser), from memory.
double hazardDistance_m(double power_W, double limit_W_m2, double fullAngle_rad);

/// The same beside a dull white surface: sqrt(P / (pi E)), all of the light returned, seen square on. ANSI Z136.1, from memory.
double diffuseDistance_m(double power_W, double limit_W_m2);

/// Decimal logarithm of all the power through a pupil of 7 mm over the limit, rounded up to the next whole number.
double opticalDensity(double power_W, double limit_W_m2);

/// Distances and eyewear at rated power and the chosen pulses, beam standing still. Not known outside 700 to 1400 nm.
/// The diffuse distance alone is no guide: bare metal throws the beam back as a mirror does.
EyesResult eyes(const Machine& machine, const Settings& settings);

}  // namespace bw
