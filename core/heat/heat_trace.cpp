// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/heat_trace.h"

#include "core/heat/tint.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

namespace bw {

namespace {

/// When the frame's middle is nearest to a place along the travel.
double nearestTime(const TourStroke& stroke, const Point& place) {
  if (stroke.speed_m_s == 0) return stroke.begin_s;
  return std::clamp(stroke.clock_s + (place.y() - stroke.start.y()) / stroke.speed_m_s, stroke.begin_s, stroke.end_s);
}

/// How long a stroke's frame takes to go over a place.
double timeOver(const TourStroke& stroke, const FrameBoxes& boxes) {
  const double along = boxes.all.size.y() / std::max(std::abs(stroke.speed_m_s), 1e-9);
  return std::min(std::max(along, boxes.period_s), std::max(stroke.end_s - stroke.begin_s, boxes.period_s));
}

bool goesOver(const TourStroke& stroke, const FrameBoxes& boxes, const Point& place) {
  return std::abs(place.x() - stroke.start.x() - boxes.all.middle.x()) <= 0.55 * boxes.all.size.x() + 1e-6;
}

constexpr int passesShown = 6;  // at the beginning and at the end
constexpr int quietStrokes = 240;

}  // namespace

std::vector<double> traceTimes(const HandTour& tour, const FrameBoxes& boxes, const Point& place, double cooling_s) {
  std::vector<double> times;
  const int last = tour.strokes.empty() ? 0 : tour.strokes.back().pass;
  const std::size_t every = tour.strokes.size() / quietStrokes + 1;
  for (std::size_t i = 0; i < tour.strokes.size(); ++i) {
    const TourStroke& stroke = tour.strokes[i];
    const bool shown = stroke.pass < passesShown || stroke.pass > last - passesShown;
    const double middle = nearestTime(stroke, place);
    if (shown && goesOver(stroke, boxes, place)) {
      const double over = timeOver(stroke, boxes);
      for (int k = -8; k <= 8; ++k) times.push_back(middle + over * k / 12);
      for (double late = 0.75 * over; late < std::max(4 * over, 0.5 * (stroke.end_s - stroke.begin_s)); late *= 1.35)
        times.push_back(middle + late);
    } else if (i % every == 0) {
      times.insert(times.end(),
                   {std::lerp(stroke.begin_s, stroke.end_s, 0.33), std::lerp(stroke.begin_s, stroke.end_s, 0.67), stroke.end_s});
    }
  }
  const double end = tour.end_s();
  for (double late = std::min(1.0, cooling_s / 100); late < cooling_s; late *= 1.35) times.push_back(end + late);
  times.push_back(end + cooling_s);
  std::erase_if(times, [&](double t) { return t <= 0 || t > end + cooling_s; });
  std::ranges::sort(times);
  const auto same = [&](double a, double b) { return b - a < 1e-9 * (end + 1); };
  times.erase(std::unique(times.begin(), times.end(), same), times.end());
  return times;
}

namespace {

/// Whether a stroke's frame is over the place, or has just been.
class Crossings {
 public:
  Crossings(const HandTour& tour, const FrameBoxes& boxes, const Point& place) {
    constexpr double settles_s = 0.05;
    for (const TourStroke& stroke : tour.strokes) {
      if (!goesOver(stroke, boxes, place)) continue;
      const double middle = nearestTime(stroke, place), over = timeOver(stroke, boxes);
      m_begin.push_back(middle - 0.7 * over);
      m_end.push_back(middle + 0.7 * over + settles_s);
    }
  }
  bool at(double time_s) const {
    const auto after = std::ranges::upper_bound(m_begin, time_s);
    return after != m_begin.begin() && time_s < m_end[static_cast<std::size_t>(after - m_begin.begin()) - 1];
  }

 private:
  std::vector<double> m_begin, m_end;
};

/// Passes that repeat: the first moment whose past is just that of another, as far back as near heat goes.
class Repeats {
 public:
  explicit Repeats(const PathHeat& near) : m_past(near.oldest_s()), m_end(near.tour().end_s()) {
    const std::vector<TourStroke>& strokes = near.tour().strokes;
    const auto first = static_cast<std::size_t>(std::ranges::count(strokes, 0, &TourStroke::pass)), every = first + first % 2;
    if (every >= strokes.size()) return;
    const double after = strokes[every].begin_s - strokes.front().begin_s;
    for (std::size_t i = every; i < strokes.size(); ++i) {
      const TourStroke &now = strokes[i], &then = strokes[i - every];
      const bool alike = now.start == then.start && now.speed_m_s == then.speed_m_s && now.share == then.share &&
                         std::abs(now.begin_s - then.begin_s - after) < 1e-9 * m_end;
      if (!alike) return;
    }
    m_every = after;
  }

  double firstLike(double time_s) const {
    if (m_every == 0 || time_s > m_end || time_s < m_past) return time_s;
    return time_s - m_every * std::floor((time_s - m_past) / m_every);
  }

 private:
  double m_past, m_end;
  double m_every = 0;  // one pass, or two where the second goes the other way; 0: nothing repeats
};

/// Near heat under the frame, no more than once where it repeats and the metal spreads heat as quickly.
class UnderFrame {
 public:
  UnderFrame(const WorkHeat& heat, const Point& place) : m_heat(heat), m_place(place), m_repeats(heat.near()) {
    const FrameBoxes& boxes = heat.near().boxes();
    m_smeared = boxes.longRows && boxes.rowInterval_s <= patchTime_s;
  }

  /// Which of the rises is that of a time.
  std::size_t wanted(double time_s) {
    constexpr double same = 0.01;
    const double spreading = m_heat.spreading(m_place, time_s), first = m_repeats.firstLike(time_s);
    const auto known = m_known.find(std::llround(first * 1e6));
    if (known != m_known.end() && std::abs(spreading - m_moments[known->second].spreading) <= same * spreading) return known->second;
    m_moments.push_back({first, spreading});
    return m_known[std::llround(first * 1e6)] = m_moments.size() - 1;
  }

  std::vector<FacesRise> rises(const Crew& crew) const {
    std::vector<FacesRise> rises(m_moments.size());
    crew.share(rises.size(), [&](std::size_t i) { rises[i] = rise(m_moments[i]); });
    return rises;
  }

 private:
  struct Moment {
    double time_s;
    double spreading;
  };

  FacesRise rise(const Moment& at) const {
    if (!m_smeared) return patchMean(m_heat.near(), m_place, at.time_s, at.spreading);
    HeatQuery query{m_place, at.time_s, 0, m_heat.near().spotRadius_m() * m_heat.near().spotRadius_m() / 4, Smear::Lines};
    query.spreading = at.spreading;
    return m_heat.near().rise_K_W(query);
  }

  const WorkHeat& m_heat;
  Point m_place;
  Repeats m_repeats;
  bool m_smeared;
  std::vector<Moment> m_moments;
  std::map<long long, std::size_t> m_known;  // by the microsecond
};

FacesRise farRise(const WorkHeat& heat, const Point& place, double time_s) {
  HeatQuery query{place, time_s, 0, heat.near().spotRadius_m() * heat.near().spotRadius_m() / 4, Smear::Frames};
  query.spreading = heat.spreading(place, time_s);
  return heat.near().rise_K_W(query);
}

void add(FaceHistory& history, const WorkHeat& heat, const Point& place, double time_s, const FacesRise& rise) {
  const Faces faces = heat.with(place, time_s, rise);
  history.front_C.push_back(faces.front_C);
  history.back_C.push_back(faces.back_C);
  history.part_C.push_back(heat.part_C(place, time_s));
  history.near.push_back(rise);
}

}  // namespace

FaceHistory traceAt(const WorkHeat& heat, const Point& place, std::vector<double> times, const Crew& crew) {
  const Crossings crossings(heat.near().tour(), heat.near().boxes(), place);
  UnderFrame under(heat, place);
  std::map<double, std::size_t> wanted;
  for (const double time : times)
    if (crossings.at(time)) wanted[time] = under.wanted(time);
  const std::vector<FacesRise> rises = under.rises(crew);
  FaceHistory history;
  history.time_s = std::move(times);
  for (const double time : history.time_s) {
    const auto near = wanted.find(time);
    add(history, heat, place, time, near != wanted.end() ? rises[near->second] : farRise(heat, place, time));
  }
  return history;
}

FaceHistory tracedAnew(const WorkHeat& heat, const Point& place, const FaceHistory& whole) {
  const std::vector<TourStroke>& strokes = heat.near().tour().strokes;
  FaceHistory history;
  history.time_s = whole.time_s;
  for (std::size_t i = 0; i < whole.time_s.size(); ++i) {
    const auto after = std::ranges::upper_bound(strokes, whole.time_s[i], {}, &TourStroke::begin_s);
    const double share = after == strokes.begin() ? 1 : std::prev(after)->share;
    const FacesRise& rise = whole.near[i];
    add(history, heat, place, whole.time_s[i], {share * rise.front_K, share * rise.back_K, rise.spreading});
  }
  return history;
}

void raiseAt(const std::vector<double>& times_s, std::vector<double>& curve_C, double time_s, double peak_C) {
  if (times_s.empty()) return;
  const auto nearest = std::ranges::min_element(times_s, {}, [time_s](double time) { return std::abs(time - time_s); });
  double& value = curve_C[static_cast<std::size_t>(nearest - times_s.begin())];
  value = std::max(value, peak_C);
}

FineHistory fineHistory(const PathHeat& near, const Frame& frame, double travelAngle_rad, const HeatQuery& at, const TourStroke& stroke,
                        double from_s, double to_s, int evenly) {
  constexpr std::size_t mostPassages = 24;
  auto passages = passagesAt(frame, travelAngle_rad, stroke, at.place, 1.5 * near.spotRadius_m(), from_s, to_s);
  std::ranges::stable_sort(passages, {}, &Passage::distance_m);
  if (passages.size() > mostPassages) passages.resize(mostPassages);
  FineHistory history;
  auto& times = history.time_s;
  for (int i = 0; i <= evenly; ++i) times.push_back(std::lerp(from_s, to_s, static_cast<double>(i) / evenly));
  for (const Passage& passage : passages) {
    const double unit = near.spotRadius_m() / std::max(passage.speed_m_s, 1e-9);
    for (const double late : {-1.5, -0.7, -0.3, 0.0, 0.3, 0.7, 1.5, 3.0, 7.0, 15.0, 40.0}) times.push_back(passage.time_s + late * unit);
  }
  if (at.time_s >= from_s && at.time_s <= to_s) times.push_back(at.time_s);
  std::erase_if(times, [&](double t) { return t < from_s || t > to_s; });
  std::ranges::sort(times);
  times.erase(std::unique(times.begin(), times.end()), times.end());
  HeatQuery query = at;
  for (const double time : times) {
    query.time_s = time;
    history.rise.push_back(near.rise_K_W(query));
  }
  return history;
}

double grownFilm_m2(const WorkHeat& heat, const FaceHistory& trace, const FineHistory& crossing, const Point& place, double crossing_s,
                    double melting_C, double repeats) {
  const auto rateAt = [&](double temperature_C) { return temperature_C < melting_C ? tintRate_m2_s(temperature_C) : 0; };
  double grown = 0;
  struct Window {
    double from, to;
  };
  std::vector<Window> windows;
  const double before = crossing.time_s.empty() ? 0 : crossing_s - crossing.time_s.front();
  const double after = crossing.time_s.empty() ? 0 : crossing.time_s.back() - crossing_s;
  int pass = -1;
  for (const TourStroke& stroke : heat.near().tour().strokes) {
    if (stroke.pass == pass || !goesOver(stroke, heat.near().boxes(), place)) continue;
    pass = stroke.pass;
    const double now = nearestTime(stroke, place);
    windows.push_back({now - before, now + after});
    double last = 0;
    for (std::size_t i = 0; i < crossing.time_s.size(); ++i) {
      const double rate = rateAt(heat.with(place, now + crossing.time_s[i] - crossing_s, crossing.rise[i]).front_C);
      if (i > 0) grown += repeats * 0.5 * (rate + last) * (crossing.time_s[i] - crossing.time_s[i - 1]);
      last = rate;
    }
  }
  const auto inWindow = [&](double t) { return std::ranges::any_of(windows, [t](const Window& w) { return t > w.from && t < w.to; }); };
  for (std::size_t i = 1; i < trace.time_s.size(); ++i) {
    if (inWindow(0.5 * (trace.time_s[i] + trace.time_s[i - 1]))) continue;
    grown += 0.5 * (rateAt(trace.front_C[i]) + rateAt(trace.front_C[i - 1])) * (trace.time_s[i] - trace.time_s[i - 1]);
  }
  return grown;
}

}  // namespace bw
