// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/hit_finder.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

/// A share of one by chance, always the same for the same numbers. S. Vigna's splitmix64 (from memory).
double shareOf(std::uint32_t seed, std::int64_t first, std::int64_t second = 0, std::int64_t third = 0) {
  std::uint64_t mixed = seed;
  for (const std::int64_t number : {first, second, third}) {
    mixed += 0x9e3779b97f4a7c15U + static_cast<std::uint64_t>(number);
    mixed = (mixed ^ (mixed >> 30U)) * 0xbf58476d1ce4e5b9U;
    mixed = (mixed ^ (mixed >> 27U)) * 0x94d049bb133111ebU;
    mixed ^= mixed >> 31U;
  }
  return static_cast<double>(mixed >> 11U) * 0x1p-53;
}

/// From a position to the nearest that lies at a phase, both in pitches.
double toPhase(double position, double phase) { return std::round(position - phase) - (position - phase); }

}  // namespace

/// The rows of one frame, in the order of time, under boxes and boxes of boxes: what follows in time lies near in place.
class HitFinder::Tree {
 public:
  explicit Tree(const std::vector<DabRow>& rows) : m_rows(rows) {
    std::vector<Box> boxes;
    for (std::size_t first = 0; first < rows.size(); first += fan) boxes.push_back(boxOf(first, std::min(first + fan, rows.size())));
    while (boxes.size() > 1) {
      m_levels.push_back(std::move(boxes));
      boxes = parentsOf(m_levels.back());
    }
    m_levels.push_back(std::move(boxes));
  }

  bool isEmpty() const { return m_rows.empty(); }
  const Point& low() const { return m_levels.back().front().low; }
  const Point& high() const { return m_levels.back().front().high; }

  /// Calls `visit(row)` for the rows that may lie within reach of a point; `sway(box)` tells how far a box is shifted along, and how much
  /// more or less of its rows may be.
  template <class Sway, class Visit>
  void near(const Point& point, double reach_m, const Sway& sway, const Visit& visit) const {
    near(m_levels.size() - 1, 0, point, reach_m, sway, visit);
  }

  struct Box {
    Point low = Point::Constant(std::numeric_limits<double>::infinity());
    Point high = Point::Constant(-std::numeric_limits<double>::infinity());
    double begin_s = std::numeric_limits<double>::infinity();
    double end_s = -std::numeric_limits<double>::infinity();

    void add(const Box& other) {
      low = low.cwiseMin(other.low);
      high = high.cwiseMax(other.high);
      begin_s = std::min(begin_s, other.begin_s);
      end_s = std::max(end_s, other.end_s);
    }
  };

 private:
  static constexpr std::size_t fan = 8;

  Box boxOf(std::size_t first, std::size_t end) const {
    Box box;
    for (std::size_t i = first; i < end; ++i) {
      const DabRow& row = m_rows[i];
      const Point beyond = row.smeared ? Point(row.step / 2) : Point(Point::Zero());
      const Point from = row.first - beyond, to = row.last() + beyond;
      box.add({from.cwiseMin(to), from.cwiseMax(to), row.first_s, row.first_s + row.interval_s * static_cast<double>(row.count)});
    }
    return box;
  }

  static std::vector<Box> parentsOf(const std::vector<Box>& boxes) {
    std::vector<Box> parents((boxes.size() + fan - 1) / fan);
    for (std::size_t i = 0; i < boxes.size(); ++i) parents[i / fan].add(boxes[i]);
    return parents;
  }

  template <class Sway, class Visit>
  void near(std::size_t level, std::size_t index, const Point& point, double reach_m, const Sway& sway, const Visit& visit) const {
    const Box& box = m_levels[level][index];
    if (point.x() < box.low.x() - reach_m || point.x() > box.high.x() + reach_m) return;
    const auto [shift, more] = sway(box);
    if (point.y() < box.low.y() + shift - more - reach_m || point.y() > box.high.y() + shift + more + reach_m) return;
    const std::size_t first = index * fan, end = std::min(first + fan, level > 0 ? m_levels[level - 1].size() : m_rows.size());
    for (std::size_t i = first; i < end; ++i) {
      if (level > 0)
        near(level - 1, i, point, reach_m, sway, visit);
      else
        visit(m_rows[i]);
    }
  }

  const std::vector<DabRow>& m_rows;
  std::vector<std::vector<Box>> m_levels;  // of rows first
};

/// Lays the frames of a pass over a point.
class HitFinder::Laying {
 public:
  Laying(const HitFinder& finder, const Point& point, const PassChance* chance)
      : m_finder(finder),
        m_point(point),
        m_chance(chance),
        m_speed(finder.m_cell.along_m / finder.m_timing.framePeriod_s),
        m_peakPerJoule(finder.m_profile.peakPerWatt_1_m2(finder.m_radius)) {}

  std::vector<Hit> hits() {
    const Tree& tree = *m_finder.m_tree;
    const double across = m_finder.m_cell.across_m, reach = m_finder.m_reach;
    if (tree.isEmpty()) return {};
    for (double j = std::ceil((m_point.x() - tree.high().x() - reach) / across); j * across <= m_point.x() - tree.low().x() + reach; ++j)
      swath(j);
    std::ranges::sort(m_hits, {}, &Hit::time_s);
    const double start = m_hits.empty() ? 0 : m_hits.front().time_s;
    for (Hit& hit : m_hits) hit.time_s -= start;
    return std::move(m_hits);
  }

 private:
  /// How far ahead of a steady hand.
  double sway_m(double time_s) const { return m_chance ? m_speed * m_chance->wander.ahead_s(time_s) : 0; }

  void swath(double j) {
    const Tree& tree = *m_finder.m_tree;
    const double along = m_finder.m_cell.along_m;
    const double ahead = m_chance ? shareOf(m_chance->seed, static_cast<std::int64_t>(j)) * along : 0;
    const double aside = m_finder.m_reach + (m_chance ? m_speed * m_chance->wander.mostAhead_s() + m_chance->linePitch_m : 0);
    const double y = m_point.y() - ahead;
    for (double k = std::ceil((y - tree.high().y() - aside) / along); k * along <= y - tree.low().y() + aside; ++k)
      frame(j, k, Point(m_point.x() - j * m_finder.m_cell.across_m, y - k * along));
  }

  /// A row that may come near a point, and the point as a hand that does not sway would have it.
  struct Near {
    const DabRow* row;
    Point point;
  };

  /// Frame k of swath j comes j swaths and k frames later.
  void frame(double j, double k, const Point& place) {
    const double begin = k * m_finder.m_timing.framePeriod_s;
    const auto sway = [&](const Tree::Box& box) {
      const double half = 0.5 * (box.end_s - box.begin_s);
      return std::pair(sway_m(begin + box.begin_s + half), m_chance ? m_speed * m_chance->wander.mostRate() * half : 0.0);
    };
    m_near.clear();
    m_finder.m_tree->near(place, m_finder.m_reach + (m_chance ? m_chance->linePitch_m : 0), sway, [&](const DabRow& row) {
      const double middle = row.first_s + 0.5 * row.interval_s * static_cast<double>(row.count - 1);
      m_near.push_back({&row, Point(place.x(), place.y() - sway_m(begin + middle))});
    });
    if (m_near.empty()) return;
    const double phase = m_chance ? shareOf(m_chance->seed, static_cast<std::int64_t>(j), static_cast<std::int64_t>(k), 1) : 0;
    const double shift = lineShift_m(phase), time = begin + j * m_finder.m_timing.strokeTime_s;
    for (Near& near : m_near) {
      near.point.y() += shift;
      if (near.row->smeared)
        pieces(*near.row, near.point, time);
      else
        pulses(*near.row, near.point, time, pulsePhase(near, phase, j, k));
    }
  }

  /// How far along from its line a point lies, in pitches; nothing of a pulse by itself, or a line along the travel.
  std::optional<double> fromLine(const Near& near) const {
    const Point& step = near.row->step;
    if ((near.row->count < 2 && !near.row->smeared) || std::abs(step.x()) < 1e-3 * step.norm()) return std::nullopt;
    const Point way = near.point - near.row->first;
    return (way.y() - way.x() * step.y() / step.x()) / m_chance->linePitch_m;
  }

  /// As much of the nearest way to the frame's phase as the hand wanders.
  double lineShift_m(double phase) const {
    if (!m_chance || !(m_chance->linePitch_m > 0)) return 0;
    std::optional<double> nearest;
    for (const Near& near : m_near)
      if (const auto lines = fromLine(near); lines && (!nearest || std::abs(*lines) < std::abs(*nearest))) nearest = lines;
    const double pitch = m_chance->linePitch_m;
    return nearest ? std::min(1.0, 2 * m_speed * m_chance->wander.spread_s() / pitch) * pitch * toPhase(*nearest, phase) : 0;
  }

  /// Of the pulses of a line: the same for the same line beside the point, while all of them move. Nothing: as they are.
  std::optional<double> pulsePhase(const Near& near, double linePhase, double j, double k) const {
    if (!m_chance || near.row->count < 2) return std::nullopt;
    const auto lines = m_chance->linePitch_m > 0 ? fromLine(near) : std::nullopt;
    const auto line = lines ? std::lround(*lines - linePhase) : 1000 + std::lround(near.row->first_s * 1e6);
    return shareOf(m_chance->seed, line, static_cast<std::int64_t>(j), static_cast<std::int64_t>(k));
  }

  /// Where along a row a point lies, in steps, and how far beside it.
  struct Foot {
    double steps;
    double aside_m;
    double half;  // of the chord within reach, in steps
  };
  Foot footOn(const DabRow& row, const Point& point) const {
    const Point way = point - row.first;
    const double length = row.step.norm(), reach = m_finder.m_reach;
    if (length == 0) return {0, way.norm(), way.norm() <= reach ? 0.0 : -1.0};
    const double steps = way.dot(row.step) / (length * length);
    const double aside = (way - steps * row.step).norm();
    return {steps, aside, aside <= reach ? std::sqrt(reach * reach - aside * aside) / length : -1};
  }

  void pulses(const DabRow& row, const Point& point, double time_s, std::optional<double> phase) {
    const Foot foot = footOn(row, point);
    if (foot.half < 0) return;
    const double length = row.step.norm(), steps = foot.steps + (phase ? toPhase(foot.steps, *phase) : 0);
    const double last = static_cast<double>(row.count - 1);
    for (double n = std::max(0.0, std::ceil(steps - foot.half)); n <= std::min(last, std::floor(steps + foot.half)); ++n)
      add(row.energy_J, std::hypot(foot.aside_m, (n - steps) * length), time_s + row.first_s + n * row.interval_s);
  }

  void pieces(const DabRow& row, const Point& point, double time_s) {
    const Foot foot = footOn(row, point);
    const double length = row.step.norm();
    const double from = std::max(-0.5, foot.steps - foot.half), to = std::min(static_cast<double>(row.count) - 0.5, foot.steps + foot.half);
    if (foot.half < 0 || (to < from && length > 0)) return;
    if (length == 0) return add(row.energy_J, foot.aside_m, time_s + row.first_s);
    const double count = std::max(1.0, std::ceil((to - from) * length / (m_finder.m_radius / 2))), piece = (to - from) / count;
    for (double i = 0; i < count; ++i) {
      const double at = from + (i + 0.5) * piece;
      add(row.energy_J * piece, std::hypot(foot.aside_m, (at - foot.steps) * length), time_s + row.first_s + at * row.interval_s);
    }
  }

  void add(double energy_J, double distance_m, double time_s) {
    if (distance_m > m_finder.m_reach) return;
    const double power = m_finder.m_timing.continuousPower_W;
    m_hits.push_back({time_s, energy_J * m_peakPerJoule * m_finder.m_profile.relative(distance_m / m_finder.m_radius),
                      power > 0 ? energy_J / power : 0});
  }

  const HitFinder& m_finder;
  Point m_point;
  const PassChance* m_chance;
  double m_speed;
  double m_peakPerJoule;
  std::vector<Near> m_near;  // of the frame at hand
  std::vector<Hit> m_hits;
};

HitFinder::HitFinder(const std::vector<DabRow>& strikes, const RepeatCell& cell, const SpotProfile& profile, double spotRadius_m,
                     const HitTiming& timing)
    : m_tree(std::make_unique<const Tree>(strikes)),
      m_cell(cell),
      m_profile(profile),
      m_radius(spotRadius_m),
      m_reach(spotRadius_m * std::pow(std::log(1e4) / 2, 1 / profile.exponent())),
      m_timing(timing) {}

HitFinder::~HitFinder() = default;

std::vector<Hit> HitFinder::at(const Point& point, const PassChance* chance) const { return Laying(*this, point, chance).hits(); }

}  // namespace bw
