// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/profile.h"

namespace bw::test {

inline constexpr double radius_m = 60e-6;
inline const SpotProfile gaussian(BeamProfile::Gaussian);

}  // namespace bw::test
