// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/curves.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace bw {
namespace {

/// p0 + p1 theta + p2 theta^2 + p3 theta^3 + q / (theta - pole), valid up to a temperature.
struct Segment {
  double upTo_C;
  std::array<double, 4> power;
  double poleStrength = 0;
  double pole_C = 0;

  double at(double t) const {
    const double polynomial = power[0] + t * (power[1] + t * (power[2] + t * power[3]));
    return poleStrength == 0 ? polynomial : polynomial + poleStrength / (t - pole_C);
  }
  double antiderivative(double t) const {
    const double polynomial = t * (power[0] + t * (power[1] / 2 + t * (power[2] / 3 + t * power[3] / 4)));
    return poleStrength == 0 ? polynomial : polynomial + poleStrength * std::log(std::abs(t - pole_C));
  }
};

using Curve = std::vector<Segment>;  // lowest first

constexpr double lowest_C = 20;

const Curve& conductivityCurve(ThermalCurve curve) {
  static const Curve carbonSteel = {{800, {54, -3.33e-2, 0, 0}}, {1200, {27.3, 0, 0, 0}}};
  static const Curve stainlessSteel = {{1200, {14.6, 1.27e-2, 0, 0}}};
  static const Curve aluminium3xxx6xxx = {{500, {190, 0.07, 0, 0}}};
  static const Curve aluminium5xxx7xxx = {{500, {140, 0.1, 0, 0}}};
  static const Curve one = {{lowest_C, {1, 0, 0, 0}}};
  switch (curve) {
    case ThermalCurve::CarbonSteel:
      return carbonSteel;
    case ThermalCurve::StainlessSteel:
      return stainlessSteel;
    case ThermalCurve::Aluminium3xxx6xxx:
      return aluminium3xxx6xxx;
    case ThermalCurve::Aluminium5xxx7xxx:
      return aluminium5xxx7xxx;
    case ThermalCurve::Constant:
      break;
  }
  return one;
}

const Curve& specificHeatCurve(ThermalCurve curve) {
  // Both poles give 5000 at 735 degrees, where ferrite turns to austenite. A transcription with 1820 for 17820 is in circulation;
  // the curve would then jump there.
  static const Curve carbonSteel = {{600, {425, 0.773, -1.69e-3, 2.22e-6}},
                                    {735, {666, 0, 0, 0}, -13002, 738},
                                    {900, {545, 0, 0, 0}, 17820, 731},
                                    {1200, {650, 0, 0, 0}}};
  static const Curve stainlessSteel = {{1200, {450, 0.280, -2.91e-4, 1.34e-7}}};
  static const Curve aluminium = {{500, {903, 0.41, 0, 0}}};
  static const Curve one = {{lowest_C, {1, 0, 0, 0}}};
  switch (curve) {
    case ThermalCurve::CarbonSteel:
      return carbonSteel;
    case ThermalCurve::StainlessSteel:
      return stainlessSteel;
    case ThermalCurve::Aluminium3xxx6xxx:
    case ThermalCurve::Aluminium5xxx7xxx:
      return aluminium;
    case ThermalCurve::Constant:
      break;
  }
  return one;
}

double valueAt(const Curve& curve, double temperature_C) {
  const double inside_C = std::clamp(temperature_C, lowest_C, curve.back().upTo_C);
  const auto segment = std::ranges::find_if(curve, [&](const Segment& s) { return inside_C < s.upTo_C; });
  return segment == curve.end() ? curve.back().at(inside_C) : segment->at(inside_C);
}

double integralTo(const Curve& curve, double temperature_C) {
  if (temperature_C <= lowest_C) return valueAt(curve, lowest_C) * (temperature_C - lowest_C);
  double sum = 0;
  double from_C = lowest_C;
  for (const Segment& segment : curve) {
    const double to_C = std::clamp(temperature_C, from_C, segment.upTo_C);
    if (to_C > from_C) sum += segment.antiderivative(to_C) - segment.antiderivative(from_C);  // the next one's pole may lie here
    from_C = to_C;
  }
  return sum + curve.back().at(curve.back().upTo_C) * (temperature_C - from_C);
}

double scaledTo(double at20, const Curve& curve) { return at20 / valueAt(curve, lowest_C); }

}  // namespace

double conductivity_W_mK(ThermalCurve curve, double at20_W_mK, double temperature_C) {
  const Curve& shape = conductivityCurve(curve);
  return scaledTo(at20_W_mK, shape) * valueAt(shape, temperature_C);
}

double specificHeat_J_kgK(ThermalCurve curve, double at20_J_kgK, double temperature_C) {
  const Curve& shape = specificHeatCurve(curve);
  return scaledTo(at20_J_kgK, shape) * valueAt(shape, temperature_C);
}

double enthalpy_J_kg(ThermalCurve curve, double specificHeatAt20_J_kgK, double temperature_C) {
  const Curve& shape = specificHeatCurve(curve);
  return scaledTo(specificHeatAt20_J_kgK, shape) * integralTo(shape, temperature_C);
}

}  // namespace bw
