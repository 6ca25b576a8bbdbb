// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/work.h"
#include "core/heat/heat_trace.h"
#include "core/heat/hot_place.h"
#include "core/heat/part_heat.h"

namespace bw {

/// What differs between a plan and a variation of it that only the heat feels.
struct HeatInput {
  PartSheet sheet;
  TourPlan tour;
  double power_W = 0;  // of the beam while lit
  double spotRadius_m = 0;

  bool operator==(const HeatInput&) const = default;
};

/// The plan's own; likely values.
HeatInput heatInput(const Work& work, double spotRadius_m, double power_W);

/// One tour heated: near heat, part heat, and the two joined. Shares stand in the tour's strokes, or are one for all.
class HeatedTour {
 public:
  HeatedTour(const Work& work, const HeatInput& input, HandTour tour, double cells, double cooling_s);
  HeatedTour(const HeatedTour&) = delete;

  const PathHeat& near() const { return m_near; }
  const HandTour& tour() const { return m_near.tour(); }
  const WorkHeat& heat() const { return m_heat; }
  const PartRun& run() const { return m_run; }
  double cooling_s() const { return m_cooling; }

 private:
  std::shared_ptr<const ScanWork> m_scan;  // whose frame the near heat follows
  double m_cooling;
  PartHeat m_part;
  PathHeat m_near;
  PartRun m_run;
  WorkHeat m_heat;
};

/// The hot place across the travel, frames smeared evenly: how far it stands above the sheet within 150 mm and how wide it is at half that.
struct Bump {
  double rise_K = 0;
  double width_m = 0;
};

/// What one tour of bare metal comes to.
struct BareHeat {
  HeatInput input;
  std::shared_ptr<const HeatedTour> tour;
  std::vector<HotSpot> spots;
  HotPlace hot;
  FaceHistory trace;           // where the front is hottest
  FaceHistory backTrace;       // where the back is
  std::vector<double> near_C;  // along the trace, an instant before each pulse where the frame is over the place
  FineHistory lastFrame;       // of the hottest point: the frame that makes it so
  FineHistory crossing;        // and some more on either side
  double crossingRepeats = 1;  // as many go over it
  Bump bump;
  bool coarse = false;  // the way winds so much that the hottest place was refined only coarsely
};

/// What is asked of it: everything, or only the hottest place and its temperatures.
enum class HeatWanted { Whole, Peaks };

/// Longer tours are not followed: nobody means them.
inline constexpr double longestFollowed_s = 1e6;

/// Nothing where there is no frame, the hand stands still, or the tour takes longer than is followed.
std::shared_ptr<const BareHeat> bareHeat(const Work& work, const HeatInput& input, double cells, HeatWanted wanted = HeatWanted::Whole);

/// That of the plan at quick resolution, from the memo where it is known.
std::shared_ptr<const BareHeat> bareFound(const Work& work);

/// The same while the coat comes off.
std::shared_ptr<const HeatedTour> strippingFound(const Work& work, const RemovalResult& removal);

/// The same tour with the share of each pass that reaches the metal while the coat comes off; shares are over the bare metal's.
HandTour strippingTour(HandTour tour, const RemovalResult& removal, const Metal& metal);

/// What is found in depth: what a hand that stops does, the map over the part. Both of `bare`'s resolution.
StillHandHeat stillHandHeat(const Work& work, const BareHeat& bare);
/// The hand never moves: in the part's middle, the beam on from the start. Nothing where nothing is lit.
std::optional<StillHandHeat> standingHeat(const Work& work, const HeatInput& input);
PartMap heatMap(const Work& work, const BareHeat& bare, const Assessment& first);

/// Heat and limits of a plan whose travel is 0; does nothing for others.
void assessStandingHand(const Work& work, Assessment& assessment);

/// How long the cooling after the work is followed.
double coolingTime_s(const PartSheet& sheet);

/// A plate for near heat at the temperature that strokes are laid on, about.
Plate nearPlate(const HeatInput& input, double litFraction);

inline constexpr double quickCells = 500, deepCells = 1600;  // 500: within 2 % of the rise of 3600 on every sample

}  // namespace bw
