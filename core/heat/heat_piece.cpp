// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/heat_piece.h"

#include "core/heat/blurred_strip.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

using std::numbers::pi;
constexpr double evenFrom = 0.25;  // alpha t/L^2: images before, cosines from there on
constexpr double reach = 6.4;      // standard deviations: exp(-20) beyond
constexpr double modesFrom = 0.2;  // of the part's size: heat spread wider is summed as modes, which know of no way
constexpr double longAgo = 6;      // windows: one age does for the mean, to 0.4 %
constexpr double endless = std::numeric_limits<double>::infinity();

double normal(double x) { return std::abs(x) > reach ? 0 : std::exp(-x * x / 2) / std::sqrt(2 * pi); }
double upTo(double x) { return std::abs(x) > reach ? (x > 0 ? 1 : 0) : 0.5 * (1 + std::erf(x / std::numbers::sqrt2)); }

/// The lit part of [-1/2, 1/2] that lies within [0, length] of one axis.
void clip(double middle, double way, double length, double& from, double& to) {
  if (std::isinf(length)) return;
  if (way == 0) {
    if (middle < 0 || middle > length) to = from;
    return;
  }
  const double a = -middle / way, b = (length - middle) / way;
  from = std::max(from, std::min(a, b));
  to = std::min(to, std::max(a, b));
}

/// exp(-x) I0(x), x >= 0. Abramowitz and Stegun 9.8.1 and 9.8.2, to 1.9e-7.
double scaledBesselI0(double x) {
  if (x < 3.75) {
    const double t = x * x / (3.75 * 3.75);
    return std::exp(-x) * (1 + t * (3.5156229 + t * (3.0899424 + t * (1.2067492 + t * (0.2659732 + t * (0.0360768 + t * 0.0045813))))));
  }
  const double t = 3.75 / x;
  return (0.39894228 +
          t * (0.01328592 +
               t * (0.00225319 +
                    t * (-0.00157565 + t * (0.00916281 + t * (-0.02057706 + t * (0.02635537 + t * (-0.01647633 + t * 0.00392377)))))))) /
         std::sqrt(x);
}

}  // namespace

/// A way as its own axis sees it, what lies beyond the part cut off.
struct PieceKernel::Way {
  Point middle, along;       // the axis, of length 1
  double from_m, to_m;       // of the light on the part, from the middle
  double length_m;           // of the whole
  double beside_m, width_m;  // the strip across the axis: its middle and width
  double alongVariance_m2;   // that the light's own size along the way adds
  double age_s, span_s, variance_m2;
};

/// The Gaussian's mass over the way and the place of its mean; across, with the variance of that age.
PieceKernel::Arrival PieceKernel::alongWay(const Way& way, const Point& place) const {
  const Point from = place - way.middle;
  const double at = from.dot(way.along), beside = from.x() * way.along.y() - from.y() * way.along.x();
  const double s = std::sqrt(way.variance_m2 + way.alongVariance_m2), low = (way.from_m - at) / s, high = (way.to_m - at) / s;
  if (low > reach || high < -reach) return {};
  const double mass = upTo(high) - upTo(low);
  if (mass <= 0) return {};
  const double mean = std::clamp(at + s * (normal(low) - normal(high)) / mass, way.from_m, way.to_m);
  const double age = way.age_s - mean / way.length_m * way.span_s, variance = variance_m2(age);
  return {mass / way.length_m * blurredShare_1_m(beside, way.beside_m, way.width_m, variance, endless), age};
}

/// The place, and its images in those of the part's edges that are so near.
template <class At>
void PieceKernel::eachImage(double near_m, At at) const {
  const auto mirrors = [near_m](double x, double length) {
    const bool ends = !std::isinf(length);
    return std::array{x, ends && x < near_m ? -x : endless, ends && length - x < near_m ? 2 * length - x : endless};
  };
  for (const double x : mirrors(m_place.x(), m_part.x()))
    for (const double y : mirrors(m_place.y(), m_part.y()))
      if (x != endless && y != endless) at(Point(x, y));
}

double PieceKernel::ofRing_1_m2(const HeatPiece& piece, double variance_m2) const {
  double share = 0;
  eachImage(reach * std::sqrt(variance_m2), [&](const Point& place) {
    const double away = (place - piece.middle).norm(), off = away - piece.ring_m;
    if (off * off > reach * reach * variance_m2) return;
    share += std::exp(-off * off / (2 * variance_m2)) * scaledBesselI0(away * piece.ring_m / variance_m2) / (2 * pi * variance_m2);
  });
  return share;
}

/// The way and its images in the part's edges, seen as images of the place.
PieceKernel::Arrival PieceKernel::ofWay(const HeatPiece& piece, double variance_m2) const {
  Way way{piece.middle, piece.way.normalized(), -0.5, 0.5, piece.way.norm(), 0, 0, 0, piece.age_s, piece.span_s, variance_m2};
  clip(piece.middle.y(), piece.way.y(), m_part.y(), way.from_m, way.to_m);
  if (piece.size.isZero()) {
    clip(piece.middle.x(), piece.way.x(), m_part.x(), way.from_m, way.to_m);
  } else {  // a strip that goes along y
    const double half = piece.size.x() / 2, least = std::isinf(m_part.x()) ? -endless : 0;
    const double low = std::max(least, piece.middle.x() - half), high = std::min(m_part.x(), piece.middle.x() + half);
    if (high <= low) return {};
    const double turned = way.along.y();  // beside counts towards +x where it goes up
    way.beside_m = turned * (0.5 * (low + high) - piece.middle.x());
    way.width_m = high - low;
    way.alongVariance_m2 = piece.size.y() * piece.size.y() / 12;
  }
  if (way.to_m <= way.from_m) return {};
  way.from_m *= way.length_m;
  way.to_m *= way.length_m;

  Arrival sum;
  eachImage(reach * std::sqrt(variance_m2 + way.alongVariance_m2), [&](const Point& place) {
    const Arrival one = alongWay(way, place);
    sum.share_1_m2 += one.share_1_m2;
    sum.age_s += one.share_1_m2 * one.age_s;
  });
  if (sum.share_1_m2 > 0) sum.age_s /= sum.share_1_m2;
  if (piece.size.isZero()) return sum;
  sum.share_1_m2 *= way.width_m / piece.size.x();
  return sum;
}

double PieceKernel::atPlace_1_m2(const HeatPiece& piece, double variance_m2) const {
  const Point size = piece.size + piece.way.cwiseAbs() + Point::Constant(std::sqrt(6) * piece.ring_m);
  const double across = blurredShare_1_m(m_place.x(), piece.middle.x(), size.x(), variance_m2, m_part.x());
  return across > 0 ? across * blurredShare_1_m(m_place.y(), piece.middle.y(), size.y(), variance_m2, m_part.y()) : 0;
}

PieceKernel::Arrival PieceKernel::arrivalOf(const HeatPiece& piece) const {
  const double variance = variance_m2(piece.age_s), least = modesFrom * m_part.minCoeff();
  if (piece.ring_m > 0 && variance <= least * least) return {ofRing_1_m2(piece, variance), piece.age_s};
  if (piece.way.isZero() || variance > least * least) return {atPlace_1_m2(piece, variance), piece.age_s};
  return ofWay(piece, variance);
}

/// Integral over the piece of 1/sqrt(age): a way's is that of its mean age.
double PieceKernel::through(const HeatPiece& piece, double age_s) const {
  return piece.way.isZero() && piece.ring_m == 0 ? piece.root : piece.duration_s / std::sqrt(age_s);
}

FacesRise PieceKernel::faces_K_W(const HeatPiece& piece) const {
  if (m_window == 0) return now_K_W(piece);
  if (piece.age_s < longAgo * m_window) return meanwhile_K_W(piece);
  HeatPiece middling = piece;
  middling.age_s -= m_window / 2;
  middling.root = piece.duration_s / std::sqrt(middling.age_s);
  return now_K_W(middling);
}

FacesRise PieceKernel::meanwhile_K_W(const HeatPiece& piece) const {
  constexpr std::array place{-0.9061798459386640, -0.5384693101056831, 0.0, 0.5384693101056831, 0.9061798459386640};
  constexpr std::array weight{0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
  const Arrival last = arrivalOf(piece);
  if (last.share_1_m2 <= 0) return {};
  const double unit = m_variance0 / (2 * m_alpha), youngest = std::max(0.0, last.age_s - m_window);
  const double y0 = std::asinh(std::sqrt(youngest / unit)), y1 = std::asinh(std::sqrt(last.age_s / unit));
  if (!(y1 > y0)) return {};  // it only arrives
  FacesRise mean;
  HeatPiece then = piece;
  then.span_s = 0;
  for (std::size_t i = 0; i < place.size(); ++i) {
    const double sinh = std::sinh(0.5 * (y0 + y1) + 0.5 * (y1 - y0) * place[i]), root = std::sqrt(unit) * sinh;
    const double share = 0.5 * (y1 - y0) * weight[i] * 2 * unit * sinh * std::sqrt(1 + sinh * sinh) / m_window;
    then.age_s = root * root;
    then.root = piece.duration_s / root;
    const FacesRise faces = now_K_W(then);
    mean.front_K += share * faces.front_K;
    mean.back_K += share * faces.back_K;
  }
  return mean;
}

FacesRise PieceKernel::now_K_W(const HeatPiece& piece) const {
  const Arrival arrival = arrivalOf(piece);
  if (arrival.share_1_m2 <= 0) return {};
  const double L = m_plate.thickness_m, fourier = m_alpha * arrival.age_s / (L * L);
  const double given = piece.share * arrival.share_1_m2 * std::exp(-m_plate.lossRate_1_s() * arrival.age_s) / m_plate.heatCapacity_J_m3K;
  if (fourier > evenFrom) {
    const double even = given * piece.duration_s / L, first = 2 * std::exp(-pi * pi * fourier),
                 second = 0.125 * first * first * first * first;
    return {even * (1 + first + second), even * (1 - first + second)};
  }
  const double young = given * 2 * through(piece, arrival.age_s) / std::sqrt(4 * pi * m_alpha);
  const double f = fourier > 0.006 ? std::exp(-0.25 / fourier) : 0, f4 = f * f * f * f, f8 = f4 * f4;  // of one thickness away
  return {young * (1 + 2 * f4 * (1 + f4 * f8)), young * 2 * f * (1 + f8)};
}

double PieceKernel::mean_K_W(const HeatPiece& piece) const {
  const Arrival arrival = arrivalOf(piece);
  return piece.share * arrival.share_1_m2 * piece.duration_s * std::exp(-m_plate.lossRate_1_s() * arrival.age_s) /
         (m_plate.heatCapacity_J_m3K * m_plate.thickness_m);
}

double PieceKernel::atDepth_K_W(const HeatPiece& piece, double depth_m) const {
  const Arrival arrival = arrivalOf(piece);
  if (arrival.share_1_m2 <= 0) return 0;
  const double L = m_plate.thickness_m, fourier = m_alpha * arrival.age_s / (L * L);
  const double given = piece.share * arrival.share_1_m2 * std::exp(-m_plate.lossRate_1_s() * arrival.age_s) / m_plate.heatCapacity_J_m3K;
  if (fourier > evenFrom) {
    const double z = pi * depth_m / L, decay = std::exp(-pi * pi * fourier);
    return given * piece.duration_s / L * (1 + 2 * decay * std::cos(z) + 2 * decay * decay * decay * decay * std::cos(2 * z));
  }
  double images = 0;
  for (int m = -2; m <= 2; ++m) images += std::exp(-std::pow(depth_m - 2 * m * L, 2) / (4 * m_alpha * arrival.age_s));
  return given * images * 2 * through(piece, arrival.age_s) / std::sqrt(4 * pi * m_alpha);
}

}  // namespace bw
