// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/beam/profile.h"

#include <cmath>
#include <numbers>

namespace bw {

namespace {

// The files name three shapes; how steep the last two fall is our choice, no source.
double exponentOf(BeamProfile shape) {
  switch (shape) {
    case BeamProfile::Gaussian: return 2;
    case BeamProfile::SuperGaussian: return 4;
    case BeamProfile::FlatTop: return 20;
  }
  return 2;
}

}  // namespace

SpotProfile::SpotProfile(BeamProfile shape) : m_exponent(exponentOf(shape)) {}

double SpotProfile::relative(double ratio) const { return std::exp(-2 * std::pow(ratio, m_exponent)); }

double SpotProfile::peakPerWatt_1_m2(double radius_m) const {
  const double m = m_exponent;
  return m * std::pow(2.0, 2 / m) / (2 * std::numbers::pi * radius_m * radius_m * std::tgamma(2 / m));
}

}  // namespace bw
