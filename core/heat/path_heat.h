// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/plate.h"
#include "core/scan/path.h"

namespace bw {

/// Where and when a temperature is asked for.
struct HeatQuery {
  Point place;                // (across, along) on the part, metres
  double time_s = 0;          // of the stroke
  double youngest_s = 0;      // energy younger than this is left out: a pulse period gives "an instant before the pulse"
  double patchVariance_m2 = 0;  // per axis, of the patch over which is averaged; 0 a point
};

struct FacesRise {
  double front_K = 0;
  double back_K = 0;
};

/// Near heat: what scan lines and frames build up locally, per watt of absorbed mean power, from energy younger than the oldest age given.
///
/// Each piece of the past is an instantaneous Gaussian on the face of an infinite plate:
///   dT = 2 Q / (rho c sqrt(4 pi alpha t)) sum_m exp(-(z - 2 m L)^2 / (4 alpha t)) exp(-r^2 / (2 s^2)) / (2 pi s^2),
///   s^2 = w^2/4 + 2 alpha t
/// (Carslaw and Jaeger 2nd ed. section 10.3 with images; along a straight line this is Eagar and Tsai 1983). The further back, the longer
/// the piece: 0.7 s over the head's speed, so that a row of pieces ripples by 2 exp(-2 pi^2 / 0.49), below 1e-17, and never so long that
/// s^2 grows by more than a tenth; the first are shorter; the singular 1/sqrt(t) is integrated exactly in each. What remains is the rounding of line ends to a
/// piece. Of a pulse train the youngest pulses are taken one by one, older ones in whole numbers to a piece.
/// Held to the sum over all pulses and to Eagar and Tsai's table within 1 % in the tests.
class PathHeat {
 public:
  PathHeat(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m, const Plate& plate, double oldest_s);

  /// Rise per absorbed watt of mean power.
  FacesRise rise_K_W(const HeatQuery& query) const;

  /// Rise per absorbed watt at a depth below the front face.
  double riseAtDepth_K_W(const HeatQuery& query, double depth_m) const;

  double oldest_s() const { return m_oldest; }
  double spotRadius_m() const { return m_radius; }

 private:
  template <class Visit>
  void eachPiece(const HeatQuery& query, Visit visit) const;
  double longestPiece_s(double age_s, double patchVariance_m2) const;
  double images(double age_s, double depth_m) const;

  const Frame& m_frame;
  Travel m_travel;
  double m_period;  // between pulses; 0 for a continuous beam
  double m_radius;
  Plate m_plate;
  double m_oldest;
  double m_speed;  // fastest the beam moves over the part
};

}  // namespace bw
