// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scan/frame.h"
#include "core/scan/wander.h"
#include "core/values/stopped.h"

namespace bw {

/// One stroke of the hand. As it stands: endless, steady, from the origin on, as the steady state wants it.
struct Stroke {
  Point start = Point::Zero();                              // of the head's middle, (across, along)
  double wait_s = 0;                                        // the hand stands before it moves
  double move_s = std::numeric_limits<double>::infinity();  // and stands again after moving for so long
  bool backwards = false;
  std::optional<Wander> wander;
};

/// How the hand moves the head over the part. Axes of the part: `across` the travel and `along` it; for a travel angle of 90 degrees
/// across is the head's x, along its y.
class Travel {
 public:
  Travel(double speed_m_s, double angle_rad, Stroke stroke = {});  // angle from +x

  double speed_m_s() const { return m_speed; }

  /// Head position at time t of the stroke, as (across, along) on the part.
  Point onPart(const Point& head, double t_s) const {
    return m_stroke.start + Point(m_across.dot(head), m_along.dot(head) + progress_m(t_s));
  }
  /// How far along the hand has come.
  double progress_m(double t_s) const;

 private:
  double m_speed;
  Point m_across;
  Point m_along;
  Stroke m_stroke;
};

/// When a frame is drawn: it begins at begin_s of the stroke and is cut off at end_s.
struct Showing {
  double begin_s = 0;
  double end_s = std::numeric_limits<double>::infinity();
};

/// One dab of energy on the part: a pulse, or a short piece of a continuous beam.
struct Dab {
  Point position;     // (across, along), metres
  double time_s = 0;  // from the frame's beginning
  double energy_J = 0;
};

/// A straight row of like dabs, evenly spaced in place and time: what a straight piece of the path gives. A single dab is a row of one.
struct DabRow {
  Point first = Point::Zero();  // middle of the first dab, (across, along), metres
  Point step = Point::Zero();   // from one dab to the next
  std::int64_t count = 1;
  bool smeared = false;  // each dab spread evenly over its step, as a continuous beam spreads it; else each is one spot
  double energy_J = 0;   // of each dab
  double first_s = 0;    // from the frame's beginning
  double interval_s = 0;

  Point last() const { return first + step * static_cast<double>(count - 1); }
};

/// When the beam gives energy. Pulsed: at k / rate, the clock restarting with each frame. Continuous: all the time, or gated: on for
/// `duty` of each period of the gate, from the frame's beginning. The gate does not wait for the frame, so that its share is the duty
/// on the whole: a frame's energy is held at mean power x lit time.
struct Emission {
  bool pulsed = true;
  double rate_Hz = 0;      // pulsed only
  double meanPower_W = 0;  // while lit, duty included
  double gate_Hz = 0;      // continuous only; 0: not gated, or so fast that it does not show
  double duty = 1;

  bool isGated() const { return !pulsed && gate_Hz > 0 && duty > 0 && duty < 1; }
  double onPower_W() const { return isGated() ? meanPower_W / duty : meanPower_W; }
};

/// How many dabs one frame gives when a continuous beam is cut in pieces of half the spot radius.
double dabCount(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m);

/// The dabs of one frame in the order of time. A continuous beam is cut into pieces no longer than half a spot radius, each taken at
/// its middle in time: a row of Gaussians h apart ripples by 2 exp(-pi^2 w^2 / (2 h^2)), 5e-9 for h = w/2 (Poisson sum).
/// Throws Stopped.
std::vector<Dab> dabsOf(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m, std::stop_token stop = {});

/// The same energy as rows: straight pieces whole and exactly, however many pulses they hold. Along curved pieces pulses stand singly;
/// where they follow closer than a twentieth of the spot radius, and under a continuous beam, a curve becomes pairs of dabs at the
/// two-point Gauss places of pieces a third of a spot radius long (end error h^4 max|g'''|/4320, 2.5e-5 of one line's peak). Throws
/// Stopped.
std::vector<DabRow> rowsOf(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m,
                           const Showing& showing = {}, std::stop_token stop = {});

/// How many rows that would be; cheap to ask for any rate.
double rowCount(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m);

/// The same, every pulse along a curve singly: what a place feels one after the other. Throws Stopped.
std::vector<DabRow> strikesOf(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m,
                              std::stop_token stop = {});

/// How many rows those would be.
double strikeCount(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m);

double energyOf(const std::vector<DabRow>& rows);

/// The rectangle that lit beam centres stay within, (across, along), overshoot included, the hand held still. Nothing lit: low > high.
struct LitBounds {
  Point low = Point::Zero();
  Point high = Point::Zero();
};

LitBounds litBounds(const Frame& frame, const Travel& travel);

}  // namespace bw
