// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/path.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw {

namespace {

double pieceCount(const Stretch& stretch, double duration_s, const Travel& travel, double longest_m) {
  return std::max(1.0, std::ceil((stretch.topSpeed_m_s() + travel.speed_m_s()) * duration_s / longest_m));
}

/// Calls on(from, to) for the times between begin and end at which a continuous beam is on.
template <class On>
void whileOn(const Emission& emission, double begin_s, double end_s, On on) {
  if (!emission.isGated()) return on(begin_s, end_s);
  const double period = 1 / emission.gate_Hz;
  for (double k = std::floor(begin_s * emission.gate_Hz); k * period < end_s; ++k) {
    const double from = std::max(begin_s, k * period), to = std::min(end_s, (k + emission.duty) * period);
    if (to - from > 1e-9 * period) on(from, to);
  }
}

/// Power while the gate is open: such that a whole frame gets mean power x lit time, wherever the frame cuts the gate's last period.
double gatedPower_W(const Frame& frame, const Emission& emission) {
  if (!emission.isGated()) return emission.meanPower_W;
  double open = 0;
  for (const Stretch& stretch : frame.stretches()) {
    if (stretch.lit)
      whileOn(emission, stretch.begin_s, stretch.begin_s + stretch.duration_s, [&](double from, double to) { open += to - from; });
  }
  return open > 0 ? emission.meanPower_W * frame.litFraction() * frame.period_s() / open : 0;
}

std::vector<Dab> pulsesOf(const Frame& frame, const Travel& travel, const Emission& emission, const std::stop_token& stop) {
  std::vector<Dab> dabs;
  dabs.reserve(static_cast<std::size_t>(frame.period_s() * frame.litFraction() * emission.rate_Hz) + 16);
  const double energy = emission.meanPower_W / emission.rate_Hz;
  std::int64_t k = 0;
  for (const Stretch& stretch : frame.stretches()) {
    const double end = stretch.begin_s + stretch.duration_s;
    // The tolerance keeps a pulse that falls on a boundary from being fired twice or lost to rounding.
    for (double t = static_cast<double>(k) / emission.rate_Hz; t < end * (1 - 1e-13); t = static_cast<double>(++k) / emission.rate_Hz) {
      if ((k & 0xfff) == 0) throwIfStopped(stop);
      if (stretch.lit) dabs.push_back({travel.onPart(stretch.at(t - stretch.begin_s), t), t, energy});
    }
  }
  return dabs;
}

std::vector<Dab> piecesOf(const Frame& frame, const Travel& travel, const Emission& emission, double longest_m,
                          const std::stop_token& stop) {
  std::vector<Dab> dabs;
  const double power = gatedPower_W(frame, emission);
  for (const Stretch& stretch : frame.stretches()) {
    throwIfStopped(stop);
    if (!stretch.lit) continue;
    whileOn(emission, stretch.begin_s, stretch.begin_s + stretch.duration_s, [&](double from, double to) {
      const auto count = static_cast<int>(pieceCount(stretch, to - from, travel, longest_m));
      const double dt = (to - from) / count;
      for (int i = 0; i < count; ++i) {
        const double t = from + (i + 0.5) * dt;
        dabs.push_back({travel.onPart(stretch.at(t - stretch.begin_s), t), t, power * dt});
      }
    });
  }
  return dabs;
}

/// Number of the first pulse that falls at `end_s` or later. The tolerance keeps a pulse on a boundary from being fired twice or lost.
std::int64_t pulsesBefore(double end_s, double rate_Hz) {
  const double end = end_s * (1 - 1e-13);
  auto k = static_cast<std::int64_t>(std::ceil(end * rate_Hz));
  while (k > 0 && static_cast<double>(k - 1) / rate_Hz >= end) --k;
  while (static_cast<double>(k) / rate_Hz < end) ++k;
  return k;
}

constexpr double blended = 1.0 / 20;  // pulses closer than this share of the spot radius make a curve as smooth as a continuous beam
constexpr double curvePiece = 1.0 / 3;

/// Lays the rows of a frame down, piece by piece.
class RowWriter {
 public:
  RowWriter(const Travel& travel, double spotRadius_m, double blended_m, double begin_s, double count)
      : m_travel(travel), m_radius(spotRadius_m), m_blended(blended_m), m_begin(begin_s) {
    m_rows.reserve(static_cast<std::size_t>(count) + 16);
  }

  /// `count` dabs from `first_s` on inside the frame, `interval_s` apart.
  void add(const Stretch& stretch, double first_s, double interval_s, std::int64_t count, double energy_J, bool smeared) {
    if (count <= 0) return;
    if (stretch.isStraight()) return addStraight(stretch, first_s, interval_s, count, energy_J, smeared);
    const double pitch = (stretch.topSpeed_m_s() + m_travel.speed_m_s()) * interval_s;
    if (smeared || pitch < m_blended)
      addCurve(stretch, first_s - interval_s / 2, interval_s * static_cast<double>(count), energy_J * static_cast<double>(count));
    else
      for (std::int64_t i = 0; i < count; ++i) addOne(stretch, first_s + static_cast<double>(i) * interval_s, energy_J);
  }

  std::vector<DabRow> take() { return std::move(m_rows); }

 private:
  Point place(const Stretch& stretch, double t_s) const { return m_travel.onPart(stretch.at(t_s - stretch.begin_s), m_begin + t_s); }

  void addStraight(const Stretch& stretch, double first_s, double interval_s, std::int64_t count, double energy_J, bool smeared) {
    const double steps = static_cast<double>(std::max<std::int64_t>(1, count - 1));
    const Point first = place(stretch, first_s), far = place(stretch, first_s + steps * interval_s);
    m_rows.push_back({first, (far - first) / steps, count, smeared, energy_J, first_s, interval_s});
  }
  void addOne(const Stretch& stretch, double t_s, double energy_J) {
    m_rows.push_back({place(stretch, t_s), Point::Zero(), 1, false, energy_J, t_s, 0});
  }
  void addCurve(const Stretch& stretch, double begin_s, double duration_s, double energy_J) {
    const double pieces = pieceCount(stretch, duration_s, m_travel, curvePiece * m_radius);
    const double length = duration_s / pieces, aside = length / (2 * std::sqrt(3.0));
    for (double i = 0; i < pieces; ++i) {
      const double middle = begin_s + (i + 0.5) * length;
      for (const double t : {middle - aside, middle + aside}) addOne(stretch, t, energy_J / (2 * pieces));
    }
  }

  const Travel& m_travel;
  double m_radius;
  double m_blended;  // pulses on a curve that follow closer are taken together
  double m_begin;
  std::vector<DabRow> m_rows;
};

std::vector<DabRow> rowsOf(const Frame& frame, const Emission& emission, const Showing& showing, const std::stop_token& stop,
                           RowWriter writer) {
  const double cutOff = showing.end_s - showing.begin_s, power = emission.pulsed ? 0 : gatedPower_W(frame, emission);
  std::int64_t fired = 0;
  for (const Stretch& stretch : frame.stretches()) {
    if (stretch.begin_s >= cutOff) break;
    throwIfStopped(stop);
    const double duration = std::min(stretch.duration_s, cutOff - stretch.begin_s);
    if (!emission.pulsed) {
      if (stretch.lit)
        whileOn(emission, stretch.begin_s, stretch.begin_s + duration,
                [&](double from, double to) { writer.add(stretch, (from + to) / 2, to - from, 1, power * (to - from), true); });
      continue;
    }
    const std::int64_t end = pulsesBefore(stretch.begin_s + duration, emission.rate_Hz);
    const double interval = 1 / emission.rate_Hz;
    if (stretch.lit)
      writer.add(stretch, static_cast<double>(fired) / emission.rate_Hz, interval, end - fired, emission.meanPower_W * interval, false);
    fired = std::max(fired, end);
  }
  return writer.take();
}

double countRows(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m, double blended_m) {
  double count = 0;
  for (const Stretch& stretch : frame.stretches()) {
    if (!stretch.lit) continue;
    const double dashes = emission.isGated() ? stretch.duration_s * emission.gate_Hz + 1 : 1;
    const double pieces = 2 * pieceCount(stretch, stretch.duration_s, travel, curvePiece * spotRadius_m) + 2 * (dashes - 1);
    const double pitch = emission.pulsed ? (stretch.topSpeed_m_s() + travel.speed_m_s()) / emission.rate_Hz : 0;
    if (stretch.isStraight())
      count += dashes;
    else
      count += !emission.pulsed || pitch < blended_m ? pieces : stretch.duration_s * emission.rate_Hz;
  }
  return count;
}

}  // namespace

Travel::Travel(double speed_m_s, double angle_rad, Stroke stroke)
    : m_speed(speed_m_s),
      m_across(std::sin(angle_rad), -std::cos(angle_rad)),
      m_along(std::cos(angle_rad), std::sin(angle_rad)),
      m_stroke(std::move(stroke)) {}

double Travel::progress_m(double t_s) const {
  const bool always = m_stroke.wait_s == 0 && std::isinf(m_stroke.move_s);  // the steady state reaches back before the frame began
  double moving = always ? t_s : std::clamp(t_s - m_stroke.wait_s, 0.0, m_stroke.move_s);
  if (m_stroke.wander) moving += m_stroke.wander->ahead_s(moving);
  return (m_stroke.backwards ? -m_speed : m_speed) * moving;
}

double dabCount(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m) {
  if (emission.pulsed) return frame.period_s() * emission.rate_Hz;
  double count = 0;
  for (const Stretch& stretch : frame.stretches()) {
    if (!stretch.lit) continue;
    count += pieceCount(stretch, stretch.duration_s, travel, spotRadius_m / 2) +
             (emission.isGated() ? stretch.duration_s * emission.gate_Hz : 0);
  }
  return count;
}

std::vector<Dab> dabsOf(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m, std::stop_token stop) {
  return emission.pulsed ? pulsesOf(frame, travel, emission, stop) : piecesOf(frame, travel, emission, spotRadius_m / 2, stop);
}

std::vector<DabRow> rowsOf(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m, const Showing& showing,
                           std::stop_token stop) {
  return rowsOf(frame, emission, showing, stop,
                {travel, spotRadius_m, blended * spotRadius_m, showing.begin_s, rowCount(frame, travel, emission, spotRadius_m)});
}

std::vector<DabRow> strikesOf(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m,
                              std::stop_token stop) {
  return rowsOf(frame, emission, {}, stop, {travel, spotRadius_m, 0, 0, strikeCount(frame, travel, emission, spotRadius_m)});
}

double rowCount(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m) {
  return countRows(frame, travel, emission, spotRadius_m, blended * spotRadius_m);
}

double strikeCount(const Frame& frame, const Travel& travel, const Emission& emission, double spotRadius_m) {
  return countRows(frame, travel, emission, spotRadius_m, 0);
}

double energyOf(const std::vector<DabRow>& rows) {
  double energy = 0;
  for (const DabRow& row : rows) energy += row.energy_J * static_cast<double>(row.count);
  return energy;
}

LitBounds litBounds(const Frame& frame, const Travel& travel) {
  LitBounds bounds{Point::Constant(std::numeric_limits<double>::infinity()), Point::Constant(-std::numeric_limits<double>::infinity())};
  for (const Stretch& stretch : frame.stretches()) {
    // Even: the summit of a turn is one of them. A swing's summit lies within 8e-5 of its amplitude of one.
    const int samples = 8 * static_cast<int>(1 + std::min(1e5, std::ceil(32 * stretch.turns())));
    for (int i = 0; i <= samples && stretch.lit; ++i) {
      const Point place = travel.onPart(stretch.at(stretch.duration_s * i / samples), 0);
      bounds.low = bounds.low.cwiseMin(place);
      bounds.high = bounds.high.cwiseMax(place);
    }
  }
  return bounds;
}

}  // namespace bw
