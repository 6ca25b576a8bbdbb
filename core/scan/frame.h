// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"
#include "core/values/plan.h"

#include <Eigen/Core>

#include <cmath>
#include <numbers>
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

  /// A circle or a piece of a spiral, around `start`.
  bool isArc() const {
    return rate_rad_s > 0 && swing.x() == swing.y() && growth_m_s.x() == growth_m_s.y() && multiple.x() == multiple.y() &&
           velocity.isZero();
  }

  /// Once round.
  bool isCircle() const { return isArc() && growth_m_s.isZero() && std::abs(rate_rad_s * duration_s - 2 * std::numbers::pi) < 1e-6; }

  /// How many times the faster axis swings; 0 without a swing.
  double turns() const { return rate_rad_s * multiple.maxCoeff() * duration_s / (2 * std::numbers::pi); }

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

constexpr bool swings(Pattern p) { return p == Pattern::Sine || p == Pattern::TwoSine; }  // at a rate, the others at a scan speed
constexpr bool isRound(Pattern p) { return p == Pattern::Circles || p == Pattern::Spiral; }
constexpr bool needsTwoAxes(Pattern p) { return p != Pattern::Line && p != Pattern::Sine; }
constexpr bool hasHeight(Pattern p) { return needsTwoAxes(p) && !isRound(p); }

/// Lines that stack along y, for the patterns with a height: floor(height/spacing + 1e-9) + 1, by the file format.
double lineCount(const Settings& settings);

/// How many pieces the frame has at most; to be asked before building it.
double stretchCount(const Settings& settings);

/// The fastest the pattern asks the head to move outside its turns: the scan speed, or the true maximum along sine and two-sine.
double topScanSpeed_m_s(const Settings& settings);

/// On circles tighter than this the head slows down; 0: an ideal head. Constant acceleration a = 2 v/T, the one that turns the head round
/// within T, bounds v^2/R: R = v T/2, and below it the speed is sqrt(a R) = v sqrt(R / (v T/2)).
double slowRadius_m(const Settings& settings, const ScanHead& head);

/// Radius of the last of the circles, or where the spiral ends.
double innerRadius_m(const Settings& settings);

/// Builds the frame of these settings with this head. Line, sine, raster and crossed follow the file format; the others extend it:
///
/// - circles: a disc of diameter `width`, the height ignored. Radii width/2 - i spacing, i = 0, 1, ..., the last at least spacing/4, one
///   circle at least; each drawn once round from +x towards +y at scan speed. From one to the next the head moves straight inwards in the
///   turnaround time, at constant speed; that step is dark with `beam_off_in_turns` or an edge trim. The head slows on tight circles
///   (slowRadius_m).
/// - spiral: Archimedean, from radius width/2 inwards by the spacing each turn to spacing/4 (to width/4 where that is less), at scan speed,
///   slowed as on circles of that radius. Pieces of an eighth of a turn at most, each at constant angular rate: the law is exact in place,
///   its mean speed over each piece in time. Nothing in it is dark.
/// - two-sine: x = W/2 sin(2 pi f t), y = H/2 sin(2 pi f t / n + phase), n = max(1, floor(H/spacing + 1e-9)); a frame is the n periods of x
///   in one of y. Dark where x is nearer to its ends than the edge trim. The phase is pi/(2n) for odd n and 0 for even n: the way back in y
///   then is the mirror image in x of the way forth. Without it an odd n would draw every point twice; with it alone the unevenness that
///   is as long as one period of x cancels for every x, and only shorter ones are left, which the spot blurs.
///
/// Precondition: speeds and sizes above zero.
Frame buildFrame(const Settings& settings, const ScanHead& head);

}  // namespace bw
