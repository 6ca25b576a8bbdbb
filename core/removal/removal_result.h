// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace bw {

struct LayerResult {
  std::string name;
  double thickness_m = 0;
  double removed_m = 0;                         // after the plan's passes, mean over the places
  std::optional<double> thresholdFluence_J_m2;  // of one cold pulse; pulsed only
  std::optional<int> passes;                    // from the start until this layer is clear
  bool kept = false;
  std::string stallReason;               // empty unless it never clears
  double reachableShare = 0;             // of the surface that is clear of it after the most passes
  bool lost = false;                     // it should stay, and the plan's passes take it
  std::optional<double> clearsUpTo_rad;  // tilt beyond which the plan's passes no longer clear it; nothing where they don't square on
};

/// One class of place and what the passes do there.
struct PlaceHistory {
  double share = 0;             // of the surface that this place stands for
  double dose_J_m2 = 0;         // of one pass, mean over those of the plan
  std::vector<double> depth_m;  // coat gone after pass 0, 1, 2, ...
  std::optional<int> passesToClear;
  double work = 0;  // that following it took, as in PlaceRun
};

/// What the passes take off the coat, over as much as the repeat cell. Values stand as in a DoseMap of the same size; layers go from the
/// top. Passes fall as they may; as much of it is gone as of the places, this deep and that.
struct RemovedMap {
  int columns = 0;
  int rows = 0;
  double cellAcross_m = 0;
  double cellAlong_m = 0;
  std::vector<std::vector<float>> depth_m;  // coat gone at each point after pass 0, 1, 2, ... of the plan
};

/// Time in frame of a hand that stands still, until the coat is off.
struct StillHand {
  std::optional<double> first_s;  // where it goes first
  std::optional<double> most_s;   // over 95 % of the frame; nothing where the time followed does not do
  double followed_s = 60;         // at every point of the frame
};

struct RemovalResult {
  bool computed = false;
  std::optional<int> passesNeeded;
  std::optional<double> clearedFraction;  // after the plan's passes
  std::vector<LayerResult> layers;
  std::optional<double> rate_m2_s;
  std::optional<double> heatIntoPartFraction;   // energy that ends in the metal, of what the beam delivers
  std::vector<double> heatIntoPartByPass = {};  // the same of each pass of the plan
  std::vector<PlaceHistory> places;             // the last to clear first
  std::vector<double> clearedAfter = {};        // share of the surface that is clear after pass 0, 1, 2, ...
  std::shared_ptr<const RemovedMap> map = {};   // found in depth
  std::optional<StillHand> stillHand = {};      // found in depth
};

struct FinishResult {
  std::optional<double> meltFluence_J_m2;  // pulsed only
  std::optional<bool> melts;
  std::optional<double> meltDepth_m;
  std::optional<double> etch_m;
};

}  // namespace bw
