// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/materials/resolve.h"
#include "core/removal/column.h"
#include "core/removal/places.h"
#include "core/removal/removal_result.h"
#include "core/values/crew.h"

#include <limits>

namespace bw {

inline constexpr int mostPasses = 50;       // beyond, a coat counts as never clear
inline constexpr double clearShare = 0.99;  // of the surface that must be bare

/// How hits differ from those that were found: by a wider spot, whose peak is the found one's by `areas`, F = p a (F0/p)^power with the
/// found spot's peak p and a = `areas`; and by a factor on top, as on a slope.
struct HitChange {
  double areas = 1;      // of the found spot over the new
  double power = 1;      // areas^(m/2), m the profile's exponent
  double peak_J_m2 = 0;  // of a pulse in the found spot
  double peak_W_m2 = 0;  // of a continuous beam in it
  double factor = 1;

  double operator()(const Hit& hit) const;
  bool operator==(const HitChange&) const = default;
};

/// How the light of a plan comes again.
struct PassRhythm {
  double pulseDuration_s = 0;  // 0: a continuous beam, whose hits carry their own
  double passTime_s = 0;       // from the beginning of one pass to that of the next, pause included
  int passes = 1;
  double pace = 1;           // of the hand, over the travel the hits were made for: a pass brings 1/pace as many
  bool onlyPlanned = false;  // stop after the passes, clear or not
  HitChange change = {};

  bool operator==(const PassRhythm&) const = default;
};

/// What one place looks like after each pass.
struct PlaceRun {
  std::vector<std::vector<double>> left_m;  // [pass][layer]; pass 0 is the start, the last entry that of the last pass followed
  EnergyAccount plan;                       // after the plan's passes
  std::vector<EnergyAccount> after_J_m2;    // after each of the plan's passes
  double etch_m = 0;
  double clearAfter = std::numeric_limits<double>::infinity();  // in passes and parts of one: nothing that is not kept is left
  double work = 0;                                              // that following it took, in pulses of the ledger

  const std::vector<double>& after(int pass) const { return left_m[std::min(static_cast<std::size_t>(pass), left_m.size() - 1)]; }
};

/// Runs the ledger (pulses) or the coarse column (continuous beam), or such a `column` as is given, at a place, pass after pass: all of the
/// plan, then on until what is not kept is gone there, or the most passes are done. A pass that brings no more than one that has just moved
/// nothing is not followed: it moves nothing either, and its light goes where that one's went. Neighbours of the same stuff are one layer.
/// `kept` says of each layer whether it should stay. Throws Stopped.
PlaceRun runPlace(const CoatedMetal& part, double thickness_m, const std::vector<bool>& kept, const Place& place, const PassRhythm& rhythm,
                  const std::stop_token& stop = {}, const ColumnSettings* column = nullptr);

/// Whether no layer but those to be kept is left.
bool clearOfUnkept(const std::vector<bool>& kept, const std::vector<double>& left_m);

struct PassesOutcome {
  RemovalResult removal;
  double etch_m = 0;          // mean over the most etched twentieth of the surface, after the plan's passes
};

/// The same at all places.
std::vector<PlaceRun> runPlaces(const CoatedMetal& part, double thickness_m, const std::vector<bool>& kept,
                                const std::vector<Place>& places, const PassRhythm& rhythm, const std::stop_token& stop = {},
                                const Crew& crew = {});

/// Puts places and their runs in the order in which they clear, the last first.
void sortLastToClearFirst(std::vector<Place>& places, std::vector<PlaceRun>& runs);

/// What the places tell together. `names` of the layers; one run for each place.
PassesOutcome summed(const CoatedMetal& part, const std::vector<std::string>& names, const std::vector<bool>& kept,
                     const std::vector<Place>& places, const std::vector<PlaceRun>& runs, int passes);

/// All places at likely values; sorts them, the last to clear first.
PassesOutcome runPasses(const std::vector<LayerMaterial>& coat, const BareMetal& metal, double thickness_m, std::vector<Place>& places,
                        const PassRhythm& rhythm, std::stop_token stop = {}, const Crew& crew = {});

/// Single likely values of a layer; the removal temperature as a rise above the start.
CoatLayer coatLayer(const LayerMaterial& material, double start_C);
CoatedMetal coatedMetal(const std::vector<LayerMaterial>& coat, const BareMetal& metal);
std::vector<bool> keptLayers(const std::vector<LayerMaterial>& coat);

}  // namespace bw
