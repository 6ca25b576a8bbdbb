// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/flatness.h"
#include "core/values/spread.h"

#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace bw {

struct PartMap;

/// Which temperature a limit is held against. Tint and scorch: the steady temperature that would do in ten minutes what the history does.
enum class Felt { Flash, Near, Front, Back, Tint, TintUnderBeam, Scorch };

struct LimitResult {
  std::string name;
  std::string where;
  double predicted_C = 0;
  double limit_C = 0;
  std::optional<double> margin;  // (limit - predicted) / (limit - start)
  std::string source;
  bool warnOnly = false;
  Felt felt = Felt::Front;
  double limitUpTo_C = 0;                       // limit_C is the careful end; what is spared may bear as much as this
  std::optional<double> reached_s = {};         // from the beginning of the work; nothing where the plan stays below
  std::optional<double> stillHand_s = {};       // how long the hand may stop where it is hottest; nothing where longer than was followed
  std::optional<Spread> predictedRange_C = {};  // found in depth
};

/// Where a face gets hottest.
enum class HeatSite { Front, Back };

/// Temperature of the metal against time where the tour makes one of its faces hottest. Near heat averaged over 10 ms and a spot-sized
/// patch. With what the coat lets through as it leaves, and as if all were bare already; front and back the worse of both. The highest of
/// that face's curve is the number that is told.
struct HeatTrace {
  std::vector<double> time_s;
  std::vector<double> front_C;
  std::vector<double> back_C;
  std::vector<double> passStart_s = {};  // when each pass begins
  std::vector<double> frontBare_C = {};
  std::vector<double> backBare_C = {};
  std::vector<double> frontStripping_C = {};  // empty where there is no coat, or removal was not followed
  std::vector<double> backStripping_C = {};
  std::vector<double> part_C = {};  // bare: without the near heat
  std::vector<double> near_C = {};  // where the front is hottest: front, or the point itself an instant before each pulse
  double x_m = 0;                   // where on the part, from its corner
  double y_m = 0;
};

/// One scan frame in fine time at the hottest place, bare: the point itself, an instant before each pulse, and the back face beneath.
struct FrameTrace {
  double begin_s = 0;          // of the work
  std::vector<double> time_s;  // from then
  std::vector<double> near_C;
  std::vector<double> back_C;
};

/// The hand stops in the middle of the plan's work, where and when the part is hottest, and the beam burns on; bare.
struct StillHandHeat {
  std::vector<double> time_s;  // since it stopped
  std::vector<double> front_C;
  std::vector<double> back_C;
  std::vector<double> near_C;  // the point itself, an instant before a pulse
  double stopped_s = 0;        // when, since the beginning of the work
};

/// No temperature is told above the boiling one: there what is brought more goes into vapour, which this model does not follow.
struct ThermalResult {
  double boiling_C = std::numeric_limits<double>::infinity();
  bool boils(const std::optional<double>& temperature_C) const { return temperature_C && *temperature_C >= boiling_C; }

  std::optional<double> flash_C;
  double flashRise_K = 0;                       // within a pulse, on top of near heat
  std::optional<double> flashExcess_J_m2 = {};  // that a pulse brings the metal beyond boiling; nothing where it does not boil
  std::optional<double> near_C;
  std::optional<double> front_C;
  std::optional<double> back_C;
  std::optional<double> frontStripping_C;
  std::optional<double> frontBare_C;
  std::optional<double> nearBare_C;  // what the bare metal reaches, an instant before a pulse
  std::optional<double> backStripping_C;
  std::optional<double> backBare_C;
  std::optional<double> tintEquivalent_C;  // what would colour the bare metal as much in ten minutes
  std::vector<LimitResult> limits;
  std::optional<double> warpIndex;
  std::optional<FlatnessTerms> flatness;
  std::optional<double> worstMargin;  // without the warn-only limits
  HeatTrace trace;                    // where the front is hottest
  HeatTrace backTrace;                // where the back is
  const HeatTrace& traceAt(HeatSite site) const { return site == HeatSite::Back ? backTrace : trace; }
  FrameTrace lastFrame;
  std::optional<StillHandHeat> stillHand = {};  // found in depth
  std::shared_ptr<const PartMap> map = {};      // found in depth; the worse of stripping and bare
};

}  // namespace bw
