// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/frame.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double pi = std::numbers::pi;

/// Lays pieces end to end.
class FrameBuilder {
 public:
  void add(Stretch stretch) {
    if (stretch.duration_s <= 0) return;
    stretch.begin_s = static_cast<double>(m_now);
    m_now += static_cast<long double>(stretch.duration_s);
    m_stretches.push_back(stretch);
  }
  Frame build() { return Frame(std::move(m_stretches)); }

 private:
  std::vector<Stretch> m_stretches;
  long double m_now = 0;  // ten thousand rounded durations must not shift a boundary past a pulse
};

/// One set of parallel lines: along `lineAxis` from -length/2 to length/2, stacked along `stackAxis`.
struct Lines {
  Point lineAxis;
  Point stackAxis;
  double length_m;
  double speed_m_s;
  double turnaround_s;
  double trim_m;
  bool litInTurns;
};

void addLine(FrameBuilder& frame, const Lines& lines, double stack_m, double direction, bool lit) {
  const double trim = std::min(lines.trim_m, lines.length_m / 2);
  const double half = lines.length_m / 2;
  const auto piece = [&](double from, double to, bool on) {
    Stretch stretch;
    stretch.start = lines.lineAxis * (direction * from) + lines.stackAxis * stack_m;
    stretch.velocity = lines.lineAxis * (direction * lines.speed_m_s);
    stretch.duration_s = (to - from) / lines.speed_m_s;
    stretch.lit = on;
    frame.add(stretch);
  };
  piece(-half, -half + trim, false);
  piece(-half + trim, half - trim, lit);
  piece(half - trim, half, false);
}

/// Reverses at constant acceleration 2 v / T, overshooting by v T / 4, while the stack advances evenly.
void addTurn(FrameBuilder& frame, const Lines& lines, double stack_m, double advance_m, double direction, bool lit) {
  if (lines.turnaround_s <= 0) return;
  Stretch turn;
  turn.duration_s = lines.turnaround_s;
  turn.start = lines.lineAxis * (direction * lines.length_m / 2) + lines.stackAxis * stack_m;
  turn.velocity = lines.lineAxis * (direction * lines.speed_m_s) + lines.stackAxis * (advance_m / lines.turnaround_s);
  turn.acceleration = lines.lineAxis * (-direction * 2 * lines.speed_m_s / lines.turnaround_s);
  turn.lit = lit;
  frame.add(turn);
}

Lines linesAlong(const Settings& settings, const ScanHead& head, bool alongX) {
  const Point x = Point::UnitX(), y = Point::UnitY();
  const bool trimmed = settings.edgeTrim_m > 0;
  return {alongX ? x : y,        alongX ? y : x,      alongX ? settings.width_m : settings.height_m,
          settings.scanSpeed_m_s, head.turnaround_s, settings.edgeTrim_m,
          !settings.beamOffInTurns && !trimmed && !settings.oneWay};
}

int lineCount(double stack_m, double spacing_m) { return static_cast<int>(std::floor(stack_m / spacing_m + 1e-9)) + 1; }

void addRaster(FrameBuilder& frame, const Lines& lines, double stack_m, double spacing_m, bool oneWay) {
  const int count = lineCount(stack_m, spacing_m);
  const double first = -0.5 * (count - 1) * spacing_m;
  for (int i = 0; i < count; ++i) {
    const double at = first + i * spacing_m;
    const double direction = oneWay || i % 2 == 0 ? 1 : -1;
    addLine(frame, lines, at, direction, true);
    addTurn(frame, lines, at, spacing_m, direction, lines.litInTurns);
    if (!oneWay) continue;
    addLine(frame, lines, at + spacing_m, -direction, false);
    addTurn(frame, lines, at + spacing_m, 0, -direction, false);
  }
}

void addForthAndBack(FrameBuilder& frame, const Lines& lines, bool oneWay) {
  for (const double direction : {1.0, -1.0}) {
    addLine(frame, lines, 0, direction, direction > 0 || !oneWay);
    addTurn(frame, lines, 0, 0, direction, lines.litInTurns);
  }
}

/// x = W/2 sin(2 pi f t), dark where it comes nearer to the ends than the trim.
void addSine(FrameBuilder& frame, const Settings& settings) {
  const double rate = 2 * pi * settings.oscillationRate_Hz.value_or(0);
  const double half = settings.width_m / 2;
  const double edge = std::asin(std::max(0.0, 1 - std::max(0.0, settings.edgeTrim_m) / half));  // phase where the trim begins
  const auto piece = [&](double from, double to, bool lit) {
    Stretch stretch;
    stretch.swing = Point(half, 0);
    stretch.rate_rad_s = rate;
    stretch.phase_rad = Point(from, 0);
    stretch.duration_s = (to - from) / rate;
    stretch.lit = lit;
    frame.add(stretch);
  };
  piece(0, edge, true);
  piece(edge, pi - edge, false);
  piece(pi - edge, pi + edge, true);
  piece(pi + edge, 2 * pi - edge, false);
  piece(2 * pi - edge, 2 * pi, true);
}

/// Largest length of (a cos(u), b cos(u - lag)) over all u: the long half-axis of that ellipse; hypot(a, b) without a lag.
double topOfSwings(const Point& speed, double lag_rad) {
  const double a2 = speed.x() * speed.x(), b2 = speed.y() * speed.y();
  const double spread2 = (a2 - b2) * (a2 - b2) + 4 * a2 * b2 * std::pow(std::cos(lag_rad), 2);
  return std::sqrt((a2 + b2 + std::sqrt(spread2)) / 2);
}

}  // namespace

Point Stretch::at(double t_s) const {
  const Point straight = start + velocity * t_s + acceleration * (0.5 * t_s * t_s);
  if (rate_rad_s == 0) return straight;
  const Point angle = multiple * (rate_rad_s * t_s) + phase_rad;
  return straight + (swing + growth_m_s * t_s).cwiseProduct(Point(std::sin(angle.x()), std::sin(angle.y())));
}

double Stretch::topSpeed_m_s() const {
  const double straight = std::max(velocity.norm(), (velocity + acceleration * duration_s).norm());
  if (rate_rad_s == 0) return straight;
  const Point amplitude = swing.cwiseAbs().cwiseMax((swing + growth_m_s * duration_s).cwiseAbs());
  const Point speed = amplitude.cwiseProduct(multiple) * rate_rad_s;
  return straight + growth_m_s.norm() + topOfSwings(speed, multiple.x() == multiple.y() ? phase_rad.x() - phase_rad.y() : 0);
}

Frame::Frame(std::vector<Stretch> stretches) : m_stretches(std::move(stretches)) {
  if (!m_stretches.empty()) m_period = m_stretches.back().begin_s + m_stretches.back().duration_s;
  for (const Stretch& stretch : m_stretches) m_lit += stretch.lit ? stretch.duration_s : 0;
}

const Stretch& Frame::stretchAt(double t_s) const {
  const auto next = std::ranges::upper_bound(m_stretches, t_s, {}, &Stretch::begin_s);
  return next == m_stretches.begin() ? m_stretches.front() : *std::prev(next);
}

bool canDraw(Pattern pattern) {
  return pattern == Pattern::Line || pattern == Pattern::Sine || pattern == Pattern::Raster || pattern == Pattern::Crossed;
}

double stretchCount(const Settings& settings) {
  const double perLine = settings.oneWay ? 8 : 4;
  switch (settings.pattern) {
    case Pattern::Raster: return perLine * (settings.height_m / settings.lineSpacing_m + 1);
    case Pattern::Crossed: return perLine * ((settings.height_m + settings.width_m) / settings.lineSpacing_m + 2);
    default: return 2 * perLine;
  }
}

Frame buildFrame(const Settings& settings, const ScanHead& head) {
  assert(canDraw(settings.pattern));
  FrameBuilder frame;
  const Lines alongX = linesAlong(settings, head, true);
  switch (settings.pattern) {
    case Pattern::Line: addForthAndBack(frame, alongX, settings.oneWay); break;
    case Pattern::Sine: addSine(frame, settings); break;
    case Pattern::Crossed:
      addRaster(frame, alongX, settings.height_m, settings.lineSpacing_m, settings.oneWay);
      addRaster(frame, linesAlong(settings, head, false), settings.width_m, settings.lineSpacing_m, settings.oneWay);
      break;
    default: addRaster(frame, alongX, settings.height_m, settings.lineSpacing_m, settings.oneWay);
  }
  return frame.build();
}

}  // namespace bw
