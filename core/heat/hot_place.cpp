// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hot_place.h"

#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <future>
#include <map>
#include <optional>
#include <tuple>

namespace bw {

namespace {

double topSpeedOf(const Frame& frame) {
  double speed = 0;
  for (const Stretch& stretch : frame.stretches()) speed = std::max(speed, stretch.topSpeed_m_s());
  return speed;
}

/// Pieces of the frame worth trying, group by group: lit ones near its beginning, middle and end; of two swings also near the quarters,
/// where the slow one turns back.
std::vector<std::vector<const Stretch*>> candidates(const Frame& frame) {
  std::vector<const Stretch*> lit;
  for (const Stretch& stretch : frame.stretches()) {
    if (stretch.lit) lit.push_back(&stretch);
  }
  const std::size_t count = lit.size(), run = 4;
  std::vector<std::size_t> from{0, count / 2, count > run ? count - run : 0};
  if (count > 2 * run && lit.front()->rate_rad_s > 0 && !lit.front()->isArc())
    from.insert(from.end(), {count / 4 - run / 2, 3 * count / 4 - run / 2});
  std::ranges::sort(from);
  std::vector<std::vector<const Stretch*>> groups;
  std::size_t tried = 0;
  for (const std::size_t first : from) {
    std::vector<const Stretch*> group;
    for (std::size_t i = std::max(first, tried); i < std::min(first + run, count); ++i) group.push_back(lit[i]);
    tried = std::max(tried, std::min(first + run, count));
    if (!group.empty()) groups.push_back(std::move(group));
  }
  return groups;
}

/// Ends of lines and their middles; turns and swings from the apex on, where the head is slow and comes back over what it has just heated;
/// arcs are much the same all along.
std::vector<double> sharesOf(const Stretch& stretch) {
  if (stretch.isStraight()) return {0.01, 0.04, 0.1, 0.5, 0.97};
  if (stretch.rate_rad_s == 0) return {0.5, 0.55, 0.6, 0.65, 0.7, 0.77, 0.97};
  if (stretch.isArc()) return {0.5, 0.97};
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
  std::vector<HotSpot> spots;
  for (const std::vector<const Stretch*>& group : candidates(frame)) {
    HotSpot right, left;
    for (const Stretch* stretch : group) {
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
    spots.push_back(right);
    spots.push_back(left);
  }
  std::ranges::stable_sort(spots, std::greater(), &HotSpot::point_K_W);
  std::erase_if(spots, [](const HotSpot& spot) { return spot.point_K_W <= 0; });
  return spots;
}

namespace {

/// A place under the frame, from its middle, and the time in its frame at which it is looked at.
struct Offset {
  Point fromMiddle;
  double inFrame_s = 0;
};

/// A spot of the frame somewhere on its way.
struct Moment {
  std::size_t stroke = 0;
  Point place = Point::Zero();
  double time_s = 0;
  double inFrame_s = 0;
  Faces seen;  // frames smeared evenly
};

/// Worth a closer look: by the front face, and by the back.
struct HotMoments {
  std::vector<Moment> front, back;
};

/// Where the beam crosses a line along the travel, on its way out and on its way back: of each group of lines the first of either.
std::vector<Offset> crossingsOf(const Frame& frame, double travelAngle_rad, const Emission& emission, double across_m) {
  const Travel turned(0, travelAngle_rad);
  std::vector<Offset> crossings;
  for (const std::vector<const Stretch*>& group : candidates(frame)) {
    bool taken[2] = {false, false};
    for (const Stretch* stretch : group) {
      const auto at = [&](double t) { return turned.onPart(stretch->at(t), 0); };
      const int pieces = stretch->isStraight() ? 1 : std::clamp(static_cast<int>(16 * stretch->turns()), 8, 256);
      for (int i = 0; i < pieces; ++i) {
        double from = stretch->duration_s * i / pieces, to = stretch->duration_s * (i + 1) / pieces;
        const bool outwards = at(to).x() > at(from).x();
        if ((at(from).x() < across_m) == (at(to).x() < across_m) || taken[outwards]) continue;
        for (int halving = 0; halving < 40; ++halving) {
          const double middle = 0.5 * (from + to);
          ((at(middle).x() < across_m) == outwards ? from : to) = middle;
        }
        double time = stretch->begin_s + to;
        if (emission.pulsed) time = pulseAt(time, frame, emission.rate_Hz);
        crossings.push_back({Point(across_m, at(to).y()), time});
        taken[outwards] = true;
      }
    }
  }
  return crossings;
}

/// The way a tour's strokes lead the frame's spots over the part.
class SpotTour {
 public:
  SpotTour(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const Emission& emission, const std::vector<HotSpot>& spots)
      : m_heat(heat), m_frame(frame), m_angle(travelAngle_rad), m_emission(emission), m_spots(spots), m_tour(heat.near().tour()) {}

  /// Of every spot and stretch of way, the moment that looks hottest over all the strokes looked along, on either face.
  HotMoments moments(const std::stop_token& stop) {
    for (const std::size_t stroke : spreadOverWork()) {
      throwIfStopped(stop);
      look(stroke);
    }
    for (const std::size_t middle : hottestStrokes())
      for (std::size_t i = middle - std::min(middle, nearStrokes); i <= std::min(m_tour.strokes.size() - 1, middle + nearStrokes); ++i)
        look(i);
    return {listed(m_front), listed(m_back)};
  }

 private:
  static constexpr std::size_t mostStrokes = 8;  // looked along at first
  static constexpr std::size_t nearStrokes = 1;  // before and after the hottest of them
  static constexpr std::size_t atSide = 2;       // and from either side of the part

  /// Spot, whether it comes on to the part, is on its way or leaves it, and whether it is near the part's side.
  using Kind = std::tuple<int, int, bool>;
  using Hottest = std::map<Kind, Moment>;

  static std::vector<Moment> listed(const Hottest& hottest) {
    std::vector<Moment> moments;
    for (const auto& [kind, moment] : hottest) moments.push_back(moment);
    return moments;
  }

  /// Evenly over the work, the last, and of its first, middle and last pass the swaths next to the part's sides.
  std::vector<std::size_t> spreadOverWork() const {
    const std::size_t count = m_tour.strokes.size(), every = (count + mostStrokes - 1) / mostStrokes;
    std::vector<std::size_t> chosen;
    for (std::size_t i = (count - 1) % every; i < count; i += every) chosen.push_back(i);
    const int last = m_tour.strokes.back().pass;
    for (const int pass : {0, last / 2, last}) {
      std::vector<std::size_t> across;
      for (std::size_t i = 0; i < count; ++i)
        if (m_tour.strokes[i].pass == pass) across.push_back(i);
      std::ranges::stable_sort(across, {}, [&](std::size_t i) { return m_tour.strokes[i].start.x(); });
      for (std::size_t k = 0; k < across.size(); ++k)
        if ((k < atSide || k + atSide >= across.size()) && std::ranges::find(chosen, across[k]) == chosen.end())
          chosen.push_back(across[k]);
    }
    return chosen;
  }

  /// Two by the front face, one by the back.
  std::vector<std::size_t> hottestStrokes() const {
    std::vector<std::size_t> strokes;
    const auto add = [&](std::vector<Moment> moments, double Faces::*face, std::size_t until) {
      std::ranges::stable_sort(moments, std::greater(), [face](const Moment& moment) { return moment.seen.*face; });
      for (const Moment& moment : moments)
        if (strokes.size() < until && std::ranges::find(strokes, moment.stroke) == strokes.end()) strokes.push_back(moment.stroke);
    };
    add(listed(m_front), &Faces::front_C, 2);
    add(listed(m_back), &Faces::back_C, 3);
    return strokes;
  }

  void look(std::size_t index) {
    if (std::ranges::find(m_looked, index) != m_looked.end()) return;
    m_looked.push_back(index);
    int spot = 0;
    bool right = false, left = false;
    for (const HotSpot& hot : m_spots) {  // the hottest first: the first of each half stands for the others on the way
      bool& seen = hot.fromMiddle.x() > 0 ? right : left;
      along(index, {hot.fromMiddle, hot.inFrame_s}, spot++, seen ? ends : ends | way);
      seen = true;
    }
    for (const double side : {0.0, m_tour.part_m.x()}) {
      for (const Offset& offset : crossingsAt(side - m_tour.strokes[index].start.x())) along(index, offset, spot++, ends | middle);
      spot = static_cast<int>(m_spots.size()) + 100;
    }
    overlap(index, overlapSpot);
  }

  /// Strokes of one swath have the same.
  const std::vector<Offset>& crossingsAt(double across_m) {
    const auto known = std::ranges::find_if(m_crossings, [&](const auto& one) { return std::abs(one.first - across_m) < 1e-9; });
    if (known != m_crossings.end()) return known->second;
    return m_crossings.emplace_back(across_m, crossingsOf(m_frame, m_angle, m_emission, across_m)).second;
  }

  static constexpr unsigned ends = 1, middle = 2, way = 4;
  static constexpr int overlapSpot = 1000;  // beyond the others

  /// From where the spot comes on to the part to where it leaves it, or the stroke begins and ends.
  void along(std::size_t index, const Offset& offset, int spot, unsigned where) {
    const TourStroke& stroke = m_tour.strokes[index];
    const double x = stroke.start.x() + offset.fromMiddle.x(), width = m_tour.part_m.x(), length = m_tour.part_m.y();
    if (x < -1e-9 || x > width + 1e-9) return;
    const double y = stroke.start.y() + offset.fromMiddle.y(), speed = stroke.speed_m_s;
    const double atLow = stroke.clock_s - y / speed, atHigh = stroke.clock_s + (length - y) / speed;
    const double begin = std::max(stroke.begin_s, std::min(atLow, atHigh)), end = std::min(stroke.end_s, std::max(atLow, atHigh));
    if (begin >= end) return;
    const std::pair<double, unsigned> looked[] = {{0.0, ends}, {0.05, way}, {0.35, way}, {0.5, middle},
                                                  {0.65, way}, {0.95, way}, {1.0, ends}};
    for (const auto& [share, kind] : looked)
      if ((where & kind) != 0) consider(index, offset, {spot, share == 0 ? 0 : share == 1 ? 2 : 1}, std::lerp(begin, end, share));
  }

  /// Where swaths overlap the second finds what the first has left, the more the sooner it comes: near where the strokes meet.
  void overlap(std::size_t index, int spot) {
    if (index == 0) return;
    const TourStroke& stroke = m_tour.strokes[index];
    const Point frame = m_heat.near().boxes().all.size;
    const double toLast = m_tour.strokes[index - 1].start.x() - stroke.start.x();
    if (toLast == 0 || std::abs(toLast) >= frame.x()) return;
    int stretch = 0;
    for (const double frames : {0.25, 0.75, 1.25, 2.0, 3.0}) {
      const double time = stroke.begin_s + frames * frame.y() / std::abs(stroke.speed_m_s);
      if (time < stroke.end_s) consider(index, {Point(toLast / 2, 0), 0}, {spot, stretch++}, time);
    }
  }

  void consider(std::size_t index, const Offset& offset, const std::pair<int, int>& spotAndStretch, double time) {
    const TourStroke& stroke = m_tour.strokes[index];
    const double w = m_heat.near().spotRadius_m();
    const Point at = (stroke.middleAt(time) + offset.fromMiddle).cwiseMax(Point::Zero()).cwiseMin(m_tour.part_m);
    Moment moment{index, at, time, offset.inFrame_s, {}};
    const double patch = w * w + m_heat.near().boxes().all.size.squaredNorm() / 200;
    moment.seen = m_heat.with(at, time, m_heat.near().rise_K_W({at, time, 0, patch, Smear::Frames}));
    const Kind kind{spotAndStretch.first, spotAndStretch.second, std::min(at.x(), m_tour.part_m.x() - at.x()) < 5 * w};
    keepHotter(m_front, kind, moment, &Faces::front_C);
    keepHotter(m_back, kind, moment, &Faces::back_C);
  }

  static void keepHotter(Hottest& hottest, const Kind& kind, const Moment& moment, double Faces::*face) {
    const auto [known, isNew] = hottest.try_emplace(kind, moment);
    if (!isNew && moment.seen.*face > known->second.seen.*face) known->second = moment;
  }

  const WorkHeat& m_heat;
  const Frame& m_frame;
  double m_angle;
  const Emission& m_emission;
  const std::vector<HotSpot>& m_spots;
  const HandTour& m_tour;
  std::vector<std::size_t> m_looked;
  std::deque<std::pair<double, std::vector<Offset>>> m_crossings;
  Hottest m_front, m_back;
};

/// Somewhere at some time, with frames of some phase.
struct HeatTrial {
  std::size_t stroke = 0;
  Point place = Point::Zero();
  double time_s = 0;
  double frameShift_s = 0;
  double spreading = 1;
  double value_C = -1e300;
};

/// The exact temperatures of trials, and the way to hotter ones.
class Refining {
 public:
  Refining(const WorkHeat& heat, double framePeriod_s, double pulsePeriod_s)
      : m_heat(heat), m_tour(heat.near().tour()), m_frame(framePeriod_s), m_pulse(pulsePeriod_s) {}

  HeatTrial trialOf(const Moment& moment) const {
    const double since = moment.time_s - m_tour.strokes[moment.stroke].clock_s - moment.inFrame_s;
    return {moment.stroke, moment.place, moment.time_s, since - m_frame * std::floor(since / m_frame),
            m_heat.spreading(moment.place, moment.time_s)};
  }

  HeatQuery queryOf(const HeatTrial& trial) const {
    HeatQuery query{trial.place, trial.time_s, m_pulse};
    query.frameShift_s = trial.frameShift_s;
    query.spreading = trial.spreading;
    return query;
  }

  double point_C(const HeatTrial& trial) const {
    const HeatQuery query = queryOf(trial);
    return m_heat.with(query.place, query.time_s, m_heat.near().rise_K_W(query)).front_C;
  }
  Faces patch_C(const HeatTrial& trial) const {
    return m_heat.with(trial.place, trial.time_s, patchMean(m_heat.near(), trial.place, trial.time_s, trial.spreading, trial.frameShift_s));
  }

  /// How far a trial is moved at first.
  struct Steps {
    double along_s;  // with the hand: later, further, the same beam in its frame
    double across_m;
    double beside_m;  // along the travel, the hand where it is
    double later_s;   // the same place
    double phase_s;   // of the frames
  };

  /// Each way in turn, in steps ever shorter, while that makes it hotter. `value(trial)` is the temperature; a pulse stays a pulse: time
  /// and phase move by whole periods, or together.
  template <class Value>
  HeatTrial hotter(HeatTrial trial, Steps steps, int halvings, const Value& value) const {
    for (int halving = 0; halving < halvings; ++halving) {
      for (const double way : {-1.0, 1.0}) {
        const double speed = m_tour.strokes[trial.stroke].speed_m_s, along = way * steps.along_s;
        take(trial, Point(0, speed * along), along, along, value);
        take(trial, Point(way * steps.across_m, 0), 0, 0, value);
        take(trial, Point(0, way * steps.beside_m), 0, 0, value);
        take(trial, Point::Zero(), way * wholePulses_s(steps.later_s), 0, value);
        take(trial, Point::Zero(), 0, way * wholePulses_s(steps.phase_s), value);
      }
      for (double* step : {&steps.along_s, &steps.across_m, &steps.beside_m, &steps.later_s, &steps.phase_s}) *step /= 2;
    }
    return trial;
  }

  /// With the hand by a share of the trial's stroke, else as given.
  Steps stepsFor(const HeatTrial& trial, double across_m, double beside_m, double later_s, double phase_s) const {
    const TourStroke& stroke = m_tour.strokes[trial.stroke];
    return {0.04 * (stroke.end_s - stroke.begin_s), across_m, beside_m, later_s, phase_s};
  }

 private:
  double wholePulses_s(double time_s) const { return m_pulse > 0 ? std::max(1.0, std::round(time_s / m_pulse)) * m_pulse : time_s; }

  /// Moves the trial so much further where that is hotter.
  template <class Value>
  void take(HeatTrial& trial, const Point& way, double later_s, double shift_s, const Value& value) const {
    HeatTrial moved = trial;
    moved.place = (trial.place + way).cwiseMax(Point::Zero()).cwiseMin(m_tour.part_m);
    moved.time_s += later_s;
    moved.frameShift_s += shift_s;
    if (moved.place == trial.place && later_s == 0 && shift_s == 0) return;
    moved.value_C = value(moved);
    if (moved.value_C > trial.value_C) trial = moved;
  }

  const WorkHeat& m_heat;
  const HandTour& m_tour;
  double m_frame;
  double m_pulse;
};

/// Hottest first, as many as asked for, so far apart across that they are not all the same hot spot along its way.
std::vector<HeatTrial> someOf(std::vector<HeatTrial> trials, std::size_t most, double apart_m) {
  std::ranges::stable_sort(trials, std::greater(), &HeatTrial::value_C);
  std::vector<HeatTrial> some;
  for (const HeatTrial& trial : trials) {
    const bool known = std::ranges::any_of(some, [&](const HeatTrial& one) { return std::abs(one.place.x() - trial.place.x()) < apart_m; });
    if (!known && some.size() < most) some.push_back(trial);
  }
  return some;
}

/// The hottest of all trials: the hottest few, coarsely refined, and the hottest of these finely. `steps(trial)` to begin with.
template <class Value, class StepsOf>
HeatTrial hottestOf(std::vector<HeatTrial> trials, const Refining& refining, const StepsOf& steps, double apart_m, const Value& value,
                    bool finely, const std::stop_token& stop) {
  constexpr std::size_t coarsely = 4;
  constexpr int halvings = 5;
  for (HeatTrial& trial : trials) {
    throwIfStopped(stop);
    trial.value_C = value(trial);
  }
  trials = someOf(std::move(trials), finely ? coarsely : 1, apart_m);
  for (HeatTrial& trial : trials) {
    throwIfStopped(stop);
    trial = refining.hotter(trial, steps(trial), apart_m > 0 ? 2 : 1, value);
  }
  const HeatTrial best = *std::ranges::max_element(trials, {}, &HeatTrial::value_C);
  return finely ? refining.hotter(best, steps(best), halvings, value) : best;
}

PatchMoment momentOf(const HeatTrial& trial) { return {trial.place, trial.time_s, trial.frameShift_s}; }

}  // namespace

HotPlace hottestPlace(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const Emission& emission,
                      const std::vector<HotSpot>& spots, const std::stop_token& stop, bool finely) {
  const HotMoments moments = SpotTour(heat, frame, travelAngle_rad, emission, spots).moments(stop);
  const Refining refining(heat, frame.period_s(), emission.pulsed ? 1 / emission.rate_Hz : 0);
  const double w = heat.near().spotRadius_m(),
               through = std::pow(heat.near().plate().thickness_m, 2) / heat.near().plate().diffusivity_m2_s();
  const auto trialsOf = [&](const std::vector<Moment>& seen, double late_s) {
    std::vector<HeatTrial> trials;
    for (const Moment& moment : seen) trials.push_back(refining.trialOf(moment));
    if (trials.empty()) trials.push_back({0, heat.near().tour().part_m / 2, heat.near().tour().strokes.front().end_s});
    for (HeatTrial& trial : trials) trial.time_s += late_s;
    return trials;
  };
  const double passing = 2 * w / std::max(topSpeedOf(frame), 1e-9), inside = heat.near().boxes().all.size.x() / 16;
  const auto front = [&](const HeatTrial& trial) { return refining.patch_C(trial).front_C; };
  const auto back = [&](const HeatTrial& trial) { return refining.patch_C(trial).back_C; };
  auto backs = std::async(std::launch::async, [&] {
    const double slow = std::max(patchTime_s, 0.3 * through);
    return hottestOf(
        trialsOf(moments.back, patchTime_s + 0.3 * through), refining,
        [&](const HeatTrial& t) { return refining.stepsFor(t, inside, 4 * w, slow, slow); }, inside, back, finely, stop);
  });
  const HeatTrial point = hottestOf(
      trialsOf(moments.front, 0), refining, [&](const HeatTrial& t) { return refining.stepsFor(t, w, w, passing, passing); }, 0,
      [&](const HeatTrial& t) { return refining.point_C(t); }, finely, stop);
  std::vector<HeatTrial> patches = trialsOf(moments.front, 0.4 * patchTime_s);
  for (const double share : {0.2, 0.4, 0.7}) {  // a patch is often hottest where a point is
    patches.push_back(point);
    patches.back().time_s += share * patchTime_s;
  }
  const HeatTrial hotFront = hottestOf(
      patches, refining, [&](const HeatTrial& t) { return refining.stepsFor(t, 2 * w, 2 * w, patchTime_s, patchTime_s); }, 0, front, finely,
      stop);

  HotPlace hot;
  hot.query = refining.queryOf(point);
  hot.stroke = static_cast<int>(point.stroke);
  hot.pointRise = heat.near().rise_K_W(hot.query);
  hot.point_C = point.value_C;
  hot.part_C = heat.part_C(hot.query.place, hot.query.time_s);
  const HeatTrial hotBack = backs.get();
  hot.patch = {hotFront.value_C, hotBack.value_C};
  hot.front = momentOf(hotFront);
  hot.back = momentOf(hotBack);
  return hot;
}

}  // namespace bw
