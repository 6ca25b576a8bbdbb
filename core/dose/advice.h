// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/profile.h"
#include "core/scan/path.h"

#include <optional>
#include <stop_token>

namespace bw {

/// How uneven settings come out, from one-dimensional sums: cheap enough to try many.
struct Unevenness {
  double across = 0;  // ripple of the dose averaged along the travel
  double along = 0;   // ripple of the dose averaged across it
};

/// Looks for the settings of least ripple by one knob at a time. Whatever it proposes is to be assessed in full. Throws Stopped.
class EvennessAdvice {
 public:
  /// Precondition: a travel speed and a step-over above zero, a frame that can be drawn.
  EvennessAdvice(const Settings& settings, const ScanHead& head, const Emission& emission, BeamProfile shape, double spotRadius_m,
                 std::stop_token stop = {});

  Unevenness now() const { return m_now; }
  Unevenness of(const Settings& settings) const;

  // Each gives the settings with the knob turned to the least ripple in its reach; nothing where that is no tenth better than now.

  /// From a third of the lit extent to all of it.
  std::optional<Settings> stepOver() const;
  /// Beam off near the lines' ends, up to a tenth of their length or six spots.
  std::optional<Settings> edgeTrim() const;
  /// A spacing within a quarter of the present one at which a whole number of frames lies on every place, the frame's height with it.
  std::optional<Settings> lineSpacing() const;
  /// Half to twice the present speed; where lines stack along the travel, the speeds at which a whole number of frames lies on every place.
  std::optional<Settings> travelSpeed() const;

  /// How many frames lie on every place: the stack and what the hand adds to it, over the advance. Nothing where no lines stack.
  static std::optional<double> framesOnAPlace(const Settings& settings, double framePeriod_s);

 private:
  template <class Better>
  std::optional<Settings> best(const std::vector<Settings>& candidates, Better figure) const;
  double framePeriod_s(const Settings& settings) const;

  Settings m_settings;
  ScanHead m_head;
  Emission m_emission;
  SpotProfile m_profile;
  double m_radius;
  std::stop_token m_stop;
  Unevenness m_now;
};

}  // namespace bw
