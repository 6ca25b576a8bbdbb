// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/hot_place.h"
#include "core/heat/passages.h"
#include "core/values/crew.h"

namespace bw {

/// Temperatures of both faces at a place against time.
struct FaceHistory {
  std::vector<double> time_s;
  std::vector<double> front_C;
  std::vector<double> back_C;
  std::vector<double> part_C;  // without near heat
  std::vector<FacesRise> near;  // near heat alone, per watt
};

/// Times of the work worth a look at a place: crowded around each crossing of the frame, a few in every stroke otherwise; of more than
/// twelve passes the first and last six. Then the cooling, ever wider apart. Ascending.
std::vector<double> traceTimes(const HandTour& tour, const FrameBoxes& boxes, const Point& place, double cooling_s);

/// Near heat as means over 10 ms and a spot-sized patch while a frame goes over the place: of lines quicker than that, the lines smeared
/// along themselves. Otherwise frames smeared evenly. Of passes that repeat, as far back as near heat goes, the first serves for all.
FaceHistory traceAt(const WorkHeat& heat, const Point& place, std::vector<double> times_s, const Crew& crew = {});

/// The same place at the same times of the same way, whose strokes now have shares of their own where they had the whole: near heat by the
/// share of the stroke under way.
FaceHistory tracedAnew(const WorkHeat& heat, const Point& place, const FaceHistory& whole);

/// Puts a peak that was found between the times at the nearest of them, where the curve lies below.
void raiseAt(const std::vector<double>& times_s, std::vector<double>& curve_C, double time_s, double peak_C);

/// The place itself through one stroke in fine time, an instant before each pulse: crowded behind each passage of the beam.
/// Near rises per watt, to be put on what the part has.
struct FineHistory {
  std::vector<double> time_s;
  std::vector<FacesRise> rise;
};
FineHistory fineHistory(const PathHeat& near, const Frame& frame, double travelAngle_rad, const HeatQuery& at, const TourStroke& stroke,
                        double from_s, double to_s, int evenly);

/// Heat tint's film, squared, that grows at the hot place while it is bare: in fine time whenever the frame is over it, in each pass on
/// what the part has by then, and by the trace otherwise. What grows above the melting temperature is left out: the oxide of melts is
/// another. `repeats` times the fine part: a hand so slow that more frames alike go over the place. Metres squared.
double grownFilm_m2(const WorkHeat& heat, const FaceHistory& trace, const FineHistory& crossing, const Point& place, double crossing_s,
                    double melting_C, double repeats = 1);

}  // namespace bw
