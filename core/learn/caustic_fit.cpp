// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/caustic_fit.h"

#include "core/learn/entries.h"
#include "core/learn/fit.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

using Eigen::Vector3d;

constexpr std::size_t fewestPlanes = 4;  // three would leave nothing to judge the hyperbola by

/// Positions and diameters made small whole numbers, so that the columns of the fit are alike in size.
struct Scale {
  double middle_m = 0;
  double reach_m = 1;
  double diameter_m = 1;
};

std::string entered(const std::vector<Plane>& planes, double wavelength_m) {
  std::string wrong;
  if (!(wavelength_m > 0 && std::isfinite(wavelength_m))) return "the wavelength is no number above 0; it has to be known";
  std::vector<double> positions;
  std::vector<double> diameters;
  for (std::size_t i = 0; i < planes.size() && wrong.empty(); ++i) {
    wrong = firstOf({notFinite(i, planes[i].position_m, "position"), badReading(i, planes[i].diameter_m, "diameter")});
    positions.push_back(planes[i].position_m);
    diameters.push_back(planes[i].diameter_m.value);
  }
  if (!wrong.empty()) return wrong;
  if (planes.size() < fewestPlanes || differing(positions) < 3) {
    return readings(planes.size()) + " at " + std::to_string(differing(positions)) +
           " places cannot tell M2 and the focus; four are needed, ten are what ISO 11146-1 asks for";
  }
  return differing(diameters) < 2 ? "all diameters are alike: nothing learnt; places further from the focus are needed" : "";
}

Scale scaleOf(const std::vector<Plane>& planes) {
  const auto [near, far] = std::ranges::minmax(planes, {}, &Plane::position_m);
  const auto widest = std::ranges::max(planes, {}, [](const Plane& plane) { return plane.diameter_m.value; });
  return {(near.position_m + far.position_m) / 2, (far.position_m - near.position_m) / 2, widest.diameter_m.value};
}

Fit hyperbola(const std::vector<Plane>& planes, const Scale& scale) {
  Eigen::MatrixXd x(planes.size(), 3);
  std::vector<Measured> diameters;
  for (std::size_t i = 0; i < planes.size(); ++i) {
    const double z = (planes[i].position_m - scale.middle_m) / scale.reach_m;
    x.row(static_cast<Eigen::Index>(i)) << 1, z, z * z;
    Measured d = planes[i].diameter_m;
    d.value /= scale.diameter_m;
    if (d.uncertainty) *d.uncertainty /= scale.diameter_m;
    diameters.push_back(d);
  }
  return fitSquare(x, diameters);
}

/// Conditions are put so that what is no number, as from places that rounding makes one, fails them.
std::string noBeam(const Fit& fit) {
  const double a = fit.values[0];
  const double b = fit.values[1];
  const Range c = fit.range(2);
  if (c.likely <= 0) return "the diameters do not grow away from a focus: nothing learnt; are the positions along the beam?";
  if (!(c.low > 0)) return "the diameters change too little for how they scatter: nothing learnt; places further from the focus are needed";
  const double q = 4 * a * c.likely - b * b;
  if (!(fit.half(Vector3d(4 * c.likely, -2 * b, 4 * a)) < q)) {
    return "the spot at the focus is too small to be told from these places; some nearer to the focus are needed";
  }
  return "";
}

CausticFit beamOf(const Fit& fit, const Scale& scale, double wavelength_m) {
  const double a = fit.values[0];
  const double b = fit.values[1];
  const double c = fit.values[2];
  const double q = 4 * a * c - b * b;
  const Vector3d halfLogQ = Vector3d(4 * c, -2 * b, 4 * a) / (2 * q);
  const Vector3d logC(0, 0, 1 / c);
  const double angle = scale.diameter_m / scale.reach_m;
  const Range place = [&] {
    const double half = fit.half(Vector3d(0, -1 / (2 * c), b / (2 * c * c)));
    return Range{-b / (2 * c) - half, -b / (2 * c), -b / (2 * c) + half} * scale.reach_m;
  }();
  CausticFit beam;
  beam.waistDiameter_m = factorRange(scale.diameter_m * std::sqrt(q / c) / 2, fit.half(halfLogQ - logC / 2));
  beam.waistPosition_m = {place.low + scale.middle_m, place.likely + scale.middle_m, place.high + scale.middle_m};
  beam.rayleighRange_m = factorRange(scale.reach_m * std::sqrt(q) / (2 * c), fit.half(halfLogQ - logC));
  beam.fullAngle_rad = factorRange(angle * std::sqrt(c), fit.half(logC / 2));
  beam.M2 = factorRange(std::numbers::pi / (8 * wavelength_m) * std::sqrt(q) * scale.diameter_m * angle, fit.half(halfLogQ));
  return beam;
}

FittedCurve curveOf(const Fit& fit, const Scale& scale, double waist_m) {
  constexpr int steps = 60;
  const double waist = (waist_m - scale.middle_m) / scale.reach_m;
  const double from = std::min(-1.0, waist), to = std::max(1.0, waist);
  FittedCurve curve;
  for (int i = 0; i <= steps; ++i) {
    const double z = std::lerp(from, to, static_cast<double>(i) / steps);
    const Vector3d row(1, z, z * z);
    const double square = row.dot(fit.values), half = fit.half(row);
    const auto diameter_m = [&](double d2) { return scale.diameter_m * std::sqrt(std::max(0.0, d2)); };
    curve.push_back({scale.middle_m + z * scale.reach_m, {diameter_m(square - half), diameter_m(square), diameter_m(square + half)}});
  }
  return curve;
}

/// No beam has M2 below 1; a range that reaches below it is cut there.
std::string keepBeamPhysical(Range& M2, std::vector<std::string>& remarks) {
  if (M2.high < 1) {
    return "M2 comes out as " + text::number(M2.likely) + " (" + text::number(M2.low) + " to " + text::number(M2.high) +
           "), below 1, which no beam can have: a unit, the wavelength or a position is wrong, or the widths are no 1/e2 diameters";
  }
  if (M2.low < 1) remarks.push_back("M2 cannot be below 1; its range is cut there");
  M2 = {std::max(1.0, M2.low), std::max(1.0, M2.likely), M2.high};
  return "";
}

/// Clause 9 of the standard: at least ten planes, about half in each zone. "About half" is taken as four in ten.
void adviseOnPlanes(const std::vector<Plane>& planes, CausticFit& beam, std::vector<std::string>& remarks) {
  for (const Plane& plane : planes) {
    const double away = std::abs(plane.position_m - beam.waistPosition_m.likely) / beam.rayleighRange_m.likely;
    beam.planesInside += away <= 1;
    beam.planesOutside += away >= 2;
  }
  const int count = static_cast<int>(planes.size());
  const bool asAsked = count >= 10 && 10 * beam.planesInside >= 4 * count && 10 * beam.planesOutside >= 4 * count;
  remarks.push_back(std::to_string(count) + " places, " + std::to_string(beam.planesInside) +
                    " within one Rayleigh length of the focus and " + std::to_string(beam.planesOutside) + " beyond two" +
                    (asAsked ? ", as ISO 11146-1 asks" : "; ISO 11146-1 asks for at least ten, about half of them in each"));
  const auto [near, far] = std::ranges::minmax(planes, {}, &Plane::position_m);
  if (beam.waistPosition_m.likely < near.position_m || beam.waistPosition_m.likely > far.position_m) {
    remarks.push_back("the focus lies outside the places measured: some on its other side narrow the range");
  }
}

}  // namespace

Learnt<CausticFit> fitCaustic(const std::vector<Plane>& planes, double wavelength_m) {
  Learnt<CausticFit> learnt;
  learnt.problem = entered(planes, wavelength_m);
  if (!learnt.problem.empty()) return learnt;
  const Scale scale = scaleOf(planes);
  const Fit fit = hyperbola(planes, scale);
  learnt.remarks = remarksOn(fit);
  learnt.problem = noBeam(fit);
  if (!learnt.problem.empty()) return learnt;
  CausticFit beam = beamOf(fit, scale, wavelength_m);
  beam.curve = curveOf(fit, scale, beam.waistPosition_m.likely);
  adviseOnPlanes(planes, beam, learnt.remarks);
  learnt.problem = keepBeamPhysical(beam.M2, learnt.remarks);
  if (learnt.problem.empty()) learnt.value = beam;
  return learnt;
}

}  // namespace bw
