// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/repeat_cell.h"

#include <memory>
#include <vector>

namespace bw {

/// One pulse as a place on the part feels it.
struct Hit {
  double time_s = 0;  // from the beginning of the pass
  double fluence_J_m2 = 0;
  double duration_s = 0;  // of a piece of a continuous beam; 0 for a pulse
};

/// A still point that stands for a share of the repeat cell, with the pulses of one pass in the order of time.
struct Place {
  double share = 0;
  double across_m = 0;
  double along_m = 0;
  double dose_J_m2 = 0;
  std::vector<Hit> hits;
};

/// When the light of a repeat cell comes again, and what its dabs are.
struct HitTiming {
  double framePeriod_s = 0;
  double strokeTime_s = 0;         // between one swath and the next
  double continuousPower_W = 0;  // gives the pieces of a continuous beam their durations; 0 for pulses
};

/// Finds the hits of one pass at any point of a repeat cell. Hits weaker than 1e-4 of a pulse's peak are left out.
class HitFinder {
 public:
  /// `dabs` of one frame must outlive it.
  HitFinder(const std::vector<Dab>& dabs, const RepeatCell& cell, const SpotProfile& profile, double spotRadius_m, const HitTiming& timing);
  ~HitFinder();

  /// In the order of time, from the first on.
  std::vector<Hit> at(const Point& point) const;

 private:
  class Index;
  std::unique_ptr<const Index> m_index;
  RepeatCell m_cell;
  SpotProfile m_profile;
  double m_radius;
  double m_reach;
  HitTiming m_timing;
};

/// Still points for classes of place: cells of the map in the order of their dose, cut into a class of the least 1 % and `classes` equal
/// ones, each stood for by its middle cell. Throws Stopped.
std::vector<Place> choosePlaces(const DoseMap& map, const HitFinder& hits, int classes, std::stop_token stop = {});

}  // namespace bw
