// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"
#include "core/values/plan.h"

#include <Eigen/Core>

#include <vector>

namespace bw {

using Point = Eigen::Vector2d;

/// A piece of the head's motion with one law, t from the piece's beginning, axis by axis:
///   position(t) = start + velocity t + acceleration t^2/2 + (swing + growth t) sin(multiple rate t + phase).
/// A turn is a parabola, a circle two swings a quarter turn apart, an arc of a spiral such a circle that grows or shrinks. In the head's
/// axes, metres: x along the scan lines, y across them, origin in the frame's middle.
struct Stretch {
  double begin_s = 0;
  double duration_s = 0;
  bool lit = true;
  Point start = Point::Zero();
  Point velocity = Point::Zero();
  Point acceleration = Point::Zero();
  Point swing = Point::Zero();
  Point growth_m_s = Point::Zero();  // of the swing
  double rate_rad_s = 0;             // 0: no swing, whatever its size
  Point multiple = Point::Ones();    // of the rate, at which each axis swings
  Point phase_rad = Point::Zero();

  Point at(double t_s) const;

  /// Constant velocity all along.
  bool isStraight() const { return rate_rad_s == 0 && acceleration.isZero(); }

  /// No moment is faster. Exact for lines, turns, sines and circles; a little too high where a swing grows or the axes swing at different
  /// rates.
  double topSpeed_m_s() const;
};

/// What the head draws before it starts again, piece after piece without a gap. The jump from end to start takes no time and is dark.
class Frame {
 public:
  explicit Frame(std::vector<Stretch> stretches);

  const std::vector<Stretch>& stretches() const { return m_stretches; }
  double period_s() const { return m_period; }
  double litFraction() const { return m_lit / m_period; }

  /// The piece under way at a time inside the frame, 0 <= t < period.
  const Stretch& stretchAt(double t_s) const;

 private:
  std::vector<Stretch> m_stretches;
  double m_period = 0;
  double m_lit = 0;
};

/// Whether this version can draw the pattern.
bool canDraw(Pattern pattern);

/// How many pieces the frame would have; to be asked before building it.
double stretchCount(const Settings& settings);

/// Builds the frame of these settings with this head, by the rules of the file format: line, sine, raster and crossed.
/// Precondition: canDraw(settings.pattern), speeds and sizes above zero.
Frame buildFrame(const Settings& settings, const ScanHead& head);

}  // namespace bw
