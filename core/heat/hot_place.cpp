// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hot_place.h"

#include "core/heat/passages.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <future>
#include <optional>

namespace bw {

namespace {

/// A circle or a piece of a spiral.
bool isArc(const Stretch& s) { return s.rate_rad_s > 0 && s.swing.x() == s.swing.y() && s.multiple.x() == s.multiple.y(); }

/// Pieces of the frame worth trying: lit ones near its beginning, middle and end; of two swings also near the quarters, where the slow one
/// turns back.
std::vector<const Stretch*> candidates(const Frame& frame) {
  std::vector<const Stretch*> lit, chosen;
  for (const Stretch& stretch : frame.stretches()) {
    if (stretch.lit) lit.push_back(&stretch);
  }
  const std::size_t count = lit.size(), run = 4;
  std::vector<std::size_t> from{0, count / 2, count > run ? count - run : 0};
  if (count > 2 * run && lit.front()->rate_rad_s > 0 && !isArc(*lit.front()))
    from.insert(from.end(), {count / 4 - run / 2, 3 * count / 4 - run / 2});
  for (const std::size_t first : from) {
    for (std::size_t i = first; i < std::min(first + run, count); ++i) {
      if (std::ranges::find(chosen, lit[i]) == chosen.end()) chosen.push_back(lit[i]);
    }
  }
  return chosen;
}

/// Ends of lines and their middles; turns and swings from the apex on, where the head is slow and comes back over what it has just heated;
/// arcs are much the same all along.
std::vector<double> sharesOf(const Stretch& stretch) {
  if (stretch.isStraight()) return {0.01, 0.04, 0.1, 0.5, 0.97};
  if (stretch.rate_rad_s == 0) return {0.5, 0.55, 0.6, 0.65, 0.7, 0.77, 0.97};
  if (isArc(stretch)) return {0.5, 0.97};
  return {0.01, 0.04, 0.1, 0.5, 0.55, 0.6, 0.65, 0.7, 0.77, 0.9, 0.97};
}

/// The next pulse, or the frame's last one.
double pulseAt(double time_s, const Frame& frame, double rate_Hz) {
  const double k = std::ceil(time_s * rate_Hz);
  return (k / rate_Hz < frame.period_s() ? k : std::max(0.0, k - 1)) / rate_Hz;
}

/// Under the beam, or `lag_s` behind a continuous one. Nothing where the next pulse is not fired.
std::optional<HeatQuery> queryAt(const Stretch& stretch, double share, double lag_s, const Frame& frame, const Travel& travel,
                                 const Emission& emission) {
  double time = stretch.begin_s + share * stretch.duration_s;
  if (emission.pulsed) time = pulseAt(time, frame, emission.rate_Hz);
  const Stretch& under = emission.pulsed ? frame.stretchAt(time) : stretch;  // pieces may be shorter than a pulse period
  if (!under.lit) return std::nullopt;
  const double inside = std::clamp(time - lag_s - under.begin_s, 0.0, under.duration_s);
  HeatQuery query;
  query.place = travel.onPart(under.at(inside), under.begin_s + inside);
  query.time_s = time;
  query.youngest_s = emission.pulsed ? 1 / emission.rate_Hz : 0;
  return query;
}

}  // namespace

std::vector<HotSpot> hottestSpots(const PathHeat& steady, const Frame& frame, double travelAngle_rad, const Emission& emission) {
  const TourStroke& stroke = steady.tour().strokes.front();
  const Travel travel(stroke.speed_m_s, travelAngle_rad);
  HotSpot right, left;
  for (const Stretch* stretch : candidates(frame)) {
    const double passage = steady.spotRadius_m() / std::max(stretch->topSpeed_m_s(), 1e-9);
    for (const double share : sharesOf(*stretch)) {
      for (const double lag : {0.0, 0.5, 1.0}) {
        if (emission.pulsed && lag > 0) continue;  // the next pulse lands where the beam is
        const auto query = queryAt(*stretch, share, lag * passage, frame, travel, emission);
        if (!query) continue;
        const double rise = steady.rise_K_W(*query).front_K;
        const Point fromMiddle = query->place - stroke.middleAt(query->time_s);
        HotSpot& hot = fromMiddle.x() > 0 ? right : left;
        if (rise > hot.point_K_W) hot = {*query, fromMiddle, query->time_s, rise};
      }
    }
  }
  std::vector<HotSpot> spots{right, left};
  std::ranges::stable_sort(spots, std::greater(), &HotSpot::point_K_W);
  std::erase_if(spots, [](const HotSpot& spot) { return spot.point_K_W <= 0; });
  return spots;
}

namespace {

constexpr std::size_t mostStrokes = 30;  // looked along at first
constexpr std::size_t nearStrokes = 3;   // before and after the hottest of them

/// A place under the frame worth trying, from its middle.
struct Offset {
  Point fromMiddle;
  std::optional<double> inFrame_s;  // when the frame is hottest there; nothing: whenever a line passes
};

/// A moment of the tour and how hot it looks from afar.
struct Moment {
  std::size_t stroke = 0;
  double time_s = 0;
  Offset offset;
  double seen_C = 0;
};

/// The frame's own hot spots, and beside them the frame's rear, which it has just gone over as a whole.
std::vector<Offset> offsetsOf(const std::vector<HotSpot>& spots, const LightBox& frame, double speed_m_s) {
  std::vector<Offset> offsets;
  const double rear = frame.middle.y() - (speed_m_s < 0 ? -0.4 : 0.4) * frame.size.y();
  for (const HotSpot& spot : spots) {
    offsets.push_back({spot.fromMiddle, spot.inFrame_s});
    offsets.push_back({Point(spot.fromMiddle.x(), rear), std::nullopt});
  }
  return offsets;
}

Point onPart(const Point& place, const HandTour& tour) { return place.cwiseMax(Point::Zero()).cwiseMin(tour.part_m); }
bool isOnPart(const Point& place, const HandTour& tour) { return onPart(place, tour) == place; }

/// Moments along one stroke, as seen from afar.
void addMoments(const WorkHeat& heat, const std::vector<HotSpot>& spots, std::size_t index, std::vector<Moment>& moments) {
  const HandTour& tour = heat.near().tour();
  const LightBox& frame = heat.near().boxes().all;
  const double patch = std::pow(heat.near().spotRadius_m(), 2) + frame.size.squaredNorm() / 200;
  const TourStroke& stroke = tour.strokes[index];
  const std::vector<Offset> offsets = offsetsOf(spots, frame, stroke.speed_m_s);
  for (const double share : {0.03, 0.1, 0.3, 0.6, 0.9, 0.97, 0.999}) {
    const double time = std::lerp(stroke.begin_s, stroke.end_s, share);
    for (const Offset& offset : offsets) {
      const Point place = onPart(stroke.middleAt(time) + offset.fromMiddle, tour);
      moments.push_back(
          {index, time, offset, heat.with(place, time, heat.near().rise_K_W({place, time, 0, patch, Smear::Frames})).front_C});
    }
  }
}

void sortHottestFirst(std::vector<Moment>& moments) { std::ranges::stable_sort(moments, std::greater(), &Moment::seen_C); }

/// Along evenly chosen strokes and the last, and then along the neighbours of the hottest two.
std::vector<Moment> momentsAlong(const WorkHeat& heat, const std::vector<HotSpot>& spots, const std::stop_token& stop) {
  const std::size_t count = heat.near().tour().strokes.size(), every = (count + mostStrokes - 1) / mostStrokes;
  std::vector<Moment> moments;
  std::vector<std::size_t> hottest;
  for (std::size_t i = (count - 1) % every; i < count; i += every) {
    throwIfStopped(stop);
    addMoments(heat, spots, i, moments);
  }
  sortHottestFirst(moments);
  for (const Moment& moment : moments)
    if (hottest.size() < 2 && std::ranges::find(hottest, moment.stroke) == hottest.end()) hottest.push_back(moment.stroke);
  const std::size_t near = std::min(every - 1, nearStrokes);
  for (const std::size_t middle : hottest) {
    for (std::size_t i = middle - std::min(middle, near); i <= std::min(count - 1, middle + near); ++i)
      if (std::ranges::find(moments, i, &Moment::stroke) == moments.end()) addMoments(heat, spots, i, moments);
  }
  sortHottestFirst(moments);
  return moments;
}

void tryAt(const WorkHeat& heat, const Moment& moment, const Point& place, double time_s, double youngest_s, HotPlace& hot) {
  HeatQuery query{onPart(place, heat.near().tour()), time_s, youngest_s};
  query.spreading = heat.spreading(query.place, time_s);
  const FacesRise rise = heat.near().rise_K_W(query);
  const double point = heat.with(query.place, time_s, rise).front_C;
  if (point <= hot.point_C) return;
  hot.query = query;
  hot.stroke = static_cast<int>(moment.stroke);
  hot.point_C = point;
  hot.pointRise = rise;
}

/// The frame's hot spot in the frames around a moment; beyond the edge, or at the frame's rear, where lines pass nearest.
void tryFrames(const WorkHeat& heat, const Frame& frame, double angle_rad, double youngest_s, const Moment& moment, HotPlace& hot) {
  const HandTour& tour = heat.near().tour();
  const TourStroke& stroke = tour.strokes[moment.stroke];
  const double period = frame.period_s(), count = std::floor((moment.time_s - stroke.clock_s) / period);
  const double radius = heat.near().spotRadius_m();
  for (const double n : {count - 1, count, count + 1}) {
    const double begin = stroke.clock_s + n * period, time = begin + moment.offset.inFrame_s.value_or(0);
    const Point place = stroke.middleAt(time) + moment.offset.fromMiddle;
    if (moment.offset.inFrame_s && isOnPart(place, tour)) {
      if (time >= stroke.begin_s && time <= stroke.end_s) tryAt(heat, moment, place, time, youngest_s, hot);
      continue;
    }
    auto passages = passagesAt(frame, angle_rad, stroke, onPart(place, tour), radius, begin, begin + period);
    std::ranges::stable_sort(passages, {}, &Passage::distance_m);
    if (passages.size() > 2) passages.resize(2);
    for (const Passage& passage : passages)
      for (const double lag : {0.0, 0.5})
        tryAt(heat, moment, place, passage.time_s + lag * radius / std::max(passage.speed_m_s, 1e-9), youngest_s, hot);
  }
}

/// The hotter of each face.
void keepPatch(const Faces& faces, const PatchMoment& front, const PatchMoment& back, HotPlace& hot) {
  if (faces.front_C > hot.patch.front_C) {
    hot.patch.front_C = faces.front_C;
    hot.front = front;
  }
  if (faces.back_C > hot.patch.back_C) {
    hot.patch.back_C = faces.back_C;
    hot.back = back;
  }
}

/// A trial's faces over a patch and 10 ms; keeps the hottest of each, wherever they are.
void addPatch(const WorkHeat& heat, const HotPlace& trial, HotPlace& hot) {
  const Plate& plate = heat.near().plate();
  const double through = plate.thickness_m * plate.thickness_m / plate.diffusivity_m2_s();  // the back is hottest a little later
  for (const double late : {0.4 * patchTime_s, patchTime_s, patchTime_s + 0.3 * through}) {
    const double time = trial.query.time_s + late;
    const Faces faces = heat.patchAt(trial.query.place, time);
    keepPatch(faces, {trial.query.place, time}, {trial.query.place, time}, hot);
  }
}

}  // namespace

namespace {

/// The hottest from afar, and the hottest of those at the part's edge, where the light's own lines burn deepest.
std::vector<Moment> worthTrying(const std::vector<Moment>& moments, const HandTour& tour) {
  constexpr std::size_t anywhere = 4, atEdge = 2;
  std::vector<Moment> chosen;
  std::size_t edges = 0;
  for (std::size_t i = 0; i < moments.size(); ++i) {
    const Point place = tour.strokes[moments[i].stroke].middleAt(moments[i].time_s) + moments[i].offset.fromMiddle;
    const bool edge = !isOnPart(place, tour) && edges < atEdge;
    if (i >= anywhere && !edge) continue;
    edges += edge ? 1 : 0;
    chosen.push_back(moments[i]);
  }
  return chosen;
}

/// The hotter point of two; the patches stay.
void keepHotter(const HotPlace& trial, HotPlace& hot) {
  if (trial.point_C <= hot.point_C) return;
  const HotPlace before = hot;
  hot = trial;
  hot.patch = before.patch;
  hot.front = before.front;
  hot.back = before.back;
}

}  // namespace

HotPlace hottestPlace(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const std::vector<HotSpot>& spots,
                      const std::stop_token& stop) {
  constexpr double coldest_C = -1e300;
  HotPlace hot;
  hot.point_C = hot.patch.front_C = hot.patch.back_C = coldest_C;
  const std::vector<Moment> moments = momentsAlong(heat, spots, stop);
  const double youngest = spots.front().query.youngest_s;
  const std::vector<Moment> trials = worthTrying(moments, heat.near().tour());
  const auto tryFrom = [&](std::size_t first) {
    HotPlace best;
    best.point_C = best.patch.front_C = best.patch.back_C = coldest_C;
    for (std::size_t i = first; i < trials.size(); i += 2) {
      throwIfStopped(stop);
      HotPlace trial;
      trial.point_C = coldest_C;
      tryFrames(heat, frame, travelAngle_rad, youngest, trials[i], trial);
      if (trial.point_C == coldest_C) continue;
      addPatch(heat, trial, best);
      keepHotter(trial, best);
    }
    return best;
  };
  auto other = std::async(std::launch::async, tryFrom, 1);
  hot = tryFrom(0);
  const HotPlace second = other.get();
  keepPatch(second.patch, second.front, second.back, hot);
  keepHotter(second, hot);
  if (hot.point_C == coldest_C) {  // strokes shorter than a frame
    const Moment& first = moments.front();
    const Point middle = heat.near().tour().strokes[first.stroke].middleAt(first.time_s);
    tryAt(heat, first, middle + first.offset.fromMiddle, first.time_s, youngest, hot);
    addPatch(heat, hot, hot);
  }
  hot.part_C = heat.part_C(hot.query.place, hot.query.time_s);
  return hot;
}

}  // namespace bw
