// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/repeat_cell.h"
#include "core/removal/hit.h"
#include "core/scan/path.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace bw {

/// When the light of a repeat cell comes again, and what a continuous beam's pieces last.
struct HitTiming {
  double framePeriod_s = 0;
  double strokeTime_s = 0;       // between one swath and the next
  double continuousPower_W = 0;  // gives the pieces of a continuous beam their durations; 0 for pulses
};

/// What chance makes of a pass that otherwise has its swaths in step under a steady hand.
/// A hand that wanders further than the lines are apart brings frame after frame over a point with its lines anywhere, and a laser is not
/// fired in step with its scanner. Exactly followed, where they lie hangs on the settings' last digits. So each frame is moved by half the
/// lines' pitch at most, as far as its lines lie at a phase of its own, and the pulses of each line likewise by half of theirs; all else
/// moves smoothly with the settings.
struct PassChance {
  std::uint32_t seed = 1;  // of all phases
  Wander wander;           // of the hand
  double linePitch_m = 0;  // of the frame's lines along the travel; 0: frames are not moved
};

/// Finds the hits of one pass at a still point. Hits weaker than 1e-4 of a pulse's peak are left out. A continuous beam's way is cut into
/// pieces no longer than half a spot radius, each taken at its middle in time: a row of Gaussians h apart ripples by
/// 2 exp(-pi^2 w^2 / (2 h^2)), 5e-9 for h = w/2 (Poisson sum).
class HitFinder {
 public:
  /// `strikes` of one frame (strikesOf) must outlive it. The cell: step-over across the travel, advance from frame to frame along it.
  HitFinder(const std::vector<DabRow>& strikes, const RepeatCell& cell, const SpotProfile& profile, double spotRadius_m,
            const HitTiming& timing);
  ~HitFinder();

  /// In the order of time, from the first on. Without chance: swaths and frames in step, the hand steady.
  std::vector<Hit> at(const Point& point, const PassChance* chance = nullptr) const;

  const RepeatCell& cell() const { return m_cell; }

 private:
  class Tree;
  class Laying;
  std::unique_ptr<const Tree> m_tree;
  RepeatCell m_cell;
  SpotProfile m_profile;
  double m_radius;
  double m_reach;
  HitTiming m_timing;
};

}  // namespace bw
