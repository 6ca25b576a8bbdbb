// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hot_moments.h"

#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <tuple>

namespace bw {

namespace {

/// A place under the frame, from its middle, and the time in its frame at which it is looked at.
struct Offset {
  Point fromMiddle;
  double inFrame_s = 0;
};

/// Where the beam crosses a line along the travel, on its way out and on its way back: of each group of lines the first of either.
std::vector<Offset> crossingsOf(const Frame& frame, double travelAngle_rad, const Emission& emission, double across_m) {
  const Travel turned(0, travelAngle_rad);
  std::vector<Offset> crossings;
  for (const std::vector<const Stretch*>& group : tellingPieces(frame)) {
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
        if (emission.pulsed) time = pulseInFrame_s(time, frame, emission.rate_Hz);
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
    return {listed(m_front), listed(m_overlaps), listed(m_back)};
  }

 private:
  static constexpr std::size_t mostStrokes = 8;  // looked along at first
  static constexpr std::size_t nearStrokes = 1;  // before and after the hottest of them
  static constexpr std::size_t atSide = 2;       // and from either side of the part

  /// Spot; whether it comes on to the part, is on its way or leaves it, and how it is at that edge; whether it is near the part's side; and
  /// whether the hand travels up.
  using Kind = std::tuple<int, int, bool, bool>;
  using Hottest = std::map<Kind, HotMoment>;

  static std::vector<HotMoment> listed(const Hottest& hottest) {
    std::vector<HotMoment> moments;
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
    const auto add = [&](std::vector<HotMoment> moments, double Faces::*face, std::size_t until) {
      std::ranges::stable_sort(moments, std::greater(), [face](const HotMoment& moment) { return moment.seen.*face; });
      for (const HotMoment& moment : moments)
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
    enum OnWay : int { Coming, Going, Leaving, ComingInset, LeavingInset };
    const std::pair<double, unsigned> looked[] = {{0.0, ends}, {0.05, way}, {0.35, way}, {0.5, middle},
                                                  {0.65, way}, {0.95, way}, {1.0, ends}};
    // At an end of the part the light of its very edge is half lost over it: once so, and once with the hand as much further on the part
    // that it is not, the place the edge.
    const double inset = std::min(m_heat.near().spotRadius_m() / std::abs(speed), 0.5 * (end - begin));
    for (const auto& [share, kind] : looked) {
      if ((where & kind) == 0) continue;
      const double time = std::lerp(begin, end, share);
      const Point at = stroke.middleAt(time) + offset.fromMiddle;
      const bool comes = share == 0, leaves = share == 1;
      HotMoment moment{index, at, time, offset.inFrame_s};
      moment.atEdge = comes || leaves;
      consider(moment, {spot, comes ? Coming : leaves ? Leaving : Going});
      if (!moment.atEdge) continue;
      moment.time_s += comes ? inset : -inset;
      moment.atEdge = false;
      moment.inset = true;
      consider(moment, {spot, comes ? ComingInset : LeavingInset});
    }
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
      if (time >= stroke.end_s) return;
      consider({index, stroke.middleAt(time) + Point(toLast / 2, 0), time}, {spot, stretch++});
      for (const Offset& offset : crossingsAt(toLast / 2)) {
        consider({index, stroke.middleAt(time) + offset.fromMiddle, time, offset.inFrame_s}, {spot, stretch}, true);
        ++stretch;
      }
    }
  }

  void consider(HotMoment moment, const std::pair<int, int>& spotAndStretch, bool overlap = false) {
    const double w = m_heat.near().spotRadius_m();
    moment.place = moment.place.cwiseMax(Point::Zero()).cwiseMin(m_tour.part_m);
    const double patch = w * w + m_heat.near().boxes().all.size.squaredNorm() / 200;
    moment.seen = m_heat.with(moment.place, moment.time_s, m_heat.near().rise_K_W({moment.place, moment.time_s, 0, patch, Smear::Frames}));
    const bool atSide = std::min(moment.place.x(), m_tour.part_m.x() - moment.place.x()) < 5 * w;
    const Kind kind{spotAndStretch.first, spotAndStretch.second, atSide, m_tour.strokes[moment.stroke].speed_m_s > 0};
    keepHotter(overlap ? m_overlaps : m_front, kind, moment, &Faces::front_C);
    keepHotter(m_back, kind, moment, &Faces::back_C);
  }

  static void keepHotter(Hottest& hottest, const Kind& kind, const HotMoment& moment, double Faces::*face) {
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
  Hottest m_front, m_overlaps, m_back;
};

}  // namespace

HotMoments hotMoments(const WorkHeat& heat, const Frame& frame, double travelAngle_rad, const Emission& emission,
                      const std::vector<HotSpot>& spots, const std::stop_token& stop) {
  return SpotTour(heat, frame, travelAngle_rad, emission, spots).moments(stop);
}

}  // namespace bw
