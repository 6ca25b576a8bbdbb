// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/strikes.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double mostChords = 3e5;  // a few milliseconds

/// Which dabs of a row lie within a circle, counted along it as real numbers: the chord |first + k step - centre| <= radius.
struct Chord {
  double from = 0;
  double to = -1;
  bool isEmpty() const { return to < from; }
};

Chord chordOf(const DabRow& row, const Point& centre, double radius_m) {
  const Point toFirst = row.first - centre;
  const double square = row.step.squaredNorm(), rest = toFirst.squaredNorm() - radius_m * radius_m;
  const double reach = row.smeared ? 0.5 : 0;  // its dabs cover their step
  if (square == 0) return rest <= 0 ? Chord{0, 0} : Chord{};
  const double middle = -toFirst.dot(row.step) / square, inside = middle * middle - rest / square;
  if (inside < 0) return {};
  const double half = std::sqrt(inside);
  return {std::max(-reach, middle - half), std::min(static_cast<double>(row.count - 1) + reach, middle + half)};
}

/// Whole numbers from lowest to highest by which a period can be shifted and still reach from `low` to `high`.
struct Shifts {
  double lowest;
  double highest;
  double count() const { return std::max(0.0, highest - lowest + 1); }
};

Shifts shiftsOf(double low, double high, double place, double period) {
  return {std::ceil((low - place) / period), std::floor((high - place) / period)};
}

class Counter {
 public:
  Counter(const RepeatCell& cell, double radius_m, const Point& place, double pulseEnergy_J)
      : m_cell(cell), m_radius(radius_m), m_place(place), m_pulseEnergy(pulseEnergy_J) {}

  /// False once it has become too much.
  bool add(const DabRow& row) {
    const Point spread = row.step.cwiseAbs() * (row.smeared ? 0.5 : 0) + Point::Constant(m_radius);
    const Point low = row.first.cwiseMin(row.last()) - spread, high = row.first.cwiseMax(row.last()) + spread;
    const Shifts across = shiftsOf(low.x(), high.x(), m_place.x(), m_cell.across_m);
    const Shifts along = shiftsOf(low.y(), high.y(), m_place.y(), m_cell.along_m);
    m_chords += 1 + across.count() * along.count();
    if (m_chords > mostChords) return false;
    std::vector<Shift> staying;
    for (double i = across.lowest; i <= across.highest; ++i)
      for (double j = along.lowest; j <= along.highest; ++j)
        if (meet(row, {i, j})) staying.push_back({i, j});
    m_staying = std::move(staying);
    return true;
  }

  Strikes total() const { return m_total; }

 private:
  using Shift = std::pair<double, double>;  // of the place, in cells

  /// True where the beam is still so near when the row ends: the next one that begins there is the same passage.
  bool meet(const DabRow& row, const Shift& shift) {
    Chord chord = chordOf(row, m_place + Point(shift.first * m_cell.across_m, shift.second * m_cell.along_m), m_radius);
    if (!row.smeared) chord = {std::ceil(chord.from), std::floor(chord.to)};
    if (chord.isEmpty()) return false;
    if (!row.smeared && m_pulseEnergy > 0) m_total.pulses += (chord.to - chord.from + 1) * row.energy_J / m_pulseEnergy;
    const bool stayed = chord.from <= 0 && std::ranges::find(m_staying, shift) != m_staying.end();
    if (!stayed) ++m_total.lines;
    return chord.to >= static_cast<double>(row.count - 1);
  }

  RepeatCell m_cell;
  double m_radius;
  Point m_place;
  double m_pulseEnergy;
  double m_chords = 0;
  std::vector<Shift> m_staying;  // where the row before ended near
  Strikes m_total;
};

}  // namespace

std::optional<Strikes> strikesAt(const std::vector<DabRow>& rows, const RepeatCell& cell, double radius_m, const Point& place,
                                 double pulseEnergy_J) {
  Counter counter(cell, radius_m, place, pulseEnergy_J);
  for (const DabRow& row : rows)
    if (!counter.add(row)) return std::nullopt;
  return counter.total();
}

}  // namespace bw
