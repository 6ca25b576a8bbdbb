// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/plate.h"
#include "core/scan/frame.h"

namespace bw {

struct FacesRise {
  double front_K = 0;
  double back_K = 0;
  double spreading = 1;  // that the query had
};

/// A short while of a tour's past: light that lay evenly over a box or a circle, or that ran straight along a way meanwhile.
struct HeatPiece {
  double age_s = 0;  // of its middle
  double root = 0;   // integral of 1/sqrt(age)
  double duration_s = 0;
  Point middle = Point::Zero();
  Point size = Point::Zero();  // of the box; zero for the beam itself
  double share = 1;            // of the beam's power
  double forgotten_s = 0;      // interval within which it is not told when the light came
  Point way = Point::Zero();   // from where it was when oldest to where it was when youngest; zero for what stood
  double span_s = 0;           // how much older the light is at the way's beginning than at its end
  double ring_m = 0;           // radius of a circle round the middle on which it lay; 0: none
};

/// What a piece gives at one place of a plate, per watt of the beam.
///
/// An instantaneous Gaussian on the face of a plate that is insulated at its edges and loses heat to the air:
///   dT = 2 Q / (rho c sqrt(4 pi alpha t)) sum_m exp(-(z - 2 m L)^2 / (4 alpha t)) exp(-r^2 / (2 s^2)) / (2 pi s^2) exp(-loss t),
///   s^2 = s0^2 + 2 alpha t
/// (Carslaw and Jaeger 2nd ed. section 10.3 with images). From alpha t = L^2/4 on the images are summed as cosines through the thickness
/// (both right to 1e-7 there).
///
/// Of a way all light is taken as old as its part that matters at the place is in the mean, the mean of the spot's Gaussian cut off at the
/// way's ends; so its error is of second order in the way's duration over its age, wherever along the way the place is.
///
/// Of a circle's light exp(-(r^2 + R^2) / (2 s^2)) I0(r R / s^2) / (2 pi s^2) arrives at a distance r from its middle: the Gaussian's mean
/// over the angle, which is the integral that defines the Bessel function (Abramowitz and Stegun 9.6.16). All of it lies on the part.
///
/// A mean over a window of time sees each piece, as old as it is at the window's end, at all the ages it has had meanwhile. With age = t0
/// sinh^2(y), t0 = s0^2 / (2 alpha), what a line gives right under it is even in y and what a point gives goes as 1/cosh(y): Gauss and
/// Legendre's five nodes in y do (1 %).
class PieceKernel {
 public:
  /// `variance0_m2`: of spot and patch, per axis. `part_m` may be infinite. `window_s`: up to now, over which is averaged; 0: now.
  PieceKernel(const Plate& plate, const Point& part_m, const Point& place, double variance0_m2, double diffusivity_m2_s,
              double window_s = 0)
      : m_plate(plate), m_part(part_m), m_place(place), m_variance0(variance0_m2), m_alpha(diffusivity_m2_s), m_window(window_s) {}

  FacesRise faces_K_W(const HeatPiece& piece) const;

  /// Below the front face, now.
  double atDepth_K_W(const HeatPiece& piece, double depth_m) const;

  /// The mean through the thickness, now.
  double mean_K_W(const HeatPiece& piece) const;

  double variance_m2(double age_s) const { return m_variance0 + 2 * m_alpha * age_s; }

 private:
  /// Share of the piece's light that arrives per square metre, and how old what arrives is in the mean.
  struct Arrival {
    double share_1_m2 = 0;
    double age_s = 0;
  };
  struct Way;
  FacesRise now_K_W(const HeatPiece& piece) const;
  FacesRise meanwhile_K_W(const HeatPiece& piece) const;
  Arrival arrivalOf(const HeatPiece& piece) const;
  Arrival alongWay(const Way& way, const Point& place) const;
  Arrival ofWay(const HeatPiece& piece, double variance_m2) const;
  double ofRing_1_m2(const HeatPiece& piece, double variance_m2) const;
  template <class At>
  void eachImage(double near_m, At at) const;
  double atPlace_1_m2(const HeatPiece& piece, double variance_m2) const;
  double through(const HeatPiece& piece, double age_s) const;

  const Plate& m_plate;
  Point m_part;
  Point m_place;
  double m_variance0;
  double m_alpha;
  double m_window;
};

}  // namespace bw
