// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/beam/profile.h"
#include "core/dose/dose_map.h"
#include "core/dose/gaussian_canvas.h"
#include "core/values/crew.h"

#include <stop_token>

namespace bw {

/// The rectangle after which the steady pattern of dose repeats: the step-over across the travel, travel speed x frame period along it.
struct RepeatCell {
  double across_m = 0;
  double along_m = 0;
};

/// How finely a map is cut: no side longer than asked, and counts without a factor above five, over which Fourier sums are quick.
struct Grid {
  int columns = 0;
  int rows = 0;
};

Grid gridOf(const RepeatCell& cell, double longestStep_m);

/// Cells that gridOf would make; asked before anything is allocated.
double cellCount(const RepeatCell& cell, double longestStep_m);

/// The footprint of a spot on a face square to the beam.
inline Footprint roundSpot(double radius_m) { return {radius_m, radius_m}; }

/// Zeroes for every point of the grid, in large pages of memory where the system has them: a fresh map of millions of points otherwise
/// takes longer to get than to sum (measured).
std::vector<float> blankCells(const CanvasGrid& grid);

/// Sums the rows on the grid's points, in bands at the same time; the sum is the same whatever the machine. Throws Stopped.
DoseMap sumOnto(const CanvasGrid& grid, const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot,
                std::stop_token stop = {}, const Crew& crew = {});

/// What sumOnto has to do, in cells gone over: rows of pulses that may be taken whole count once, the rest pulse by pulse. Cells of a spot
/// that is no Gaussian count twenty times (measured).
double cellsToVisit(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const Point& step_m);

/// Dose of one pass in the endless steady state: the rows of one frame folded into the repeat cell, which adds the frames before and after
/// it and the neighbouring swaths. Periods along the travel shorter than half a Gaussian's radius (a 32nd of another spot's)
/// leave an even dose and are taken so.
DoseMap steadyMap(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const RepeatCell& cell, Grid grid,
                  std::stop_token stop = {}, const Crew& crew = {});

/// cellsToVisit of the map that steadyMap would make.
double steadyCost(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, const RepeatCell& cell, Grid grid);

/// Dose of one frame by a still hand: the same sum over a rectangle that holds the whole frame with its spots.
DoseMap stillMap(const std::vector<DabRow>& rows, const SpotProfile& profile, const Footprint& spot, double longestStep_m,
                 std::stop_token stop = {}, const Crew& crew = {});

}  // namespace bw
