// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/scan/frame.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

using std::numbers::pi;

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

// Whole numbers as double: they are also asked of settings that would ask for more than an int holds.
double swingCount(double height_m, double spacing_m) { return std::max(1.0, std::floor(height_m / spacing_m + 1e-9)); }
double circleCount(const Settings& s) { return std::max(1.0, std::floor(s.width_m / 2 / s.lineSpacing_m - 0.25 + 1e-9) + 1); }

double slowPhase(double swings) { return std::fmod(swings, 2) == 0 ? 0 : pi / (2 * swings); }

/// `swings` periods of x in one of y.
void addSwings(FrameBuilder& frame, const Settings& settings, double height_m, double swings) {
  const double rate = 2 * pi * settings.oscillationRate_Hz.value_or(0);
  const double half = settings.width_m / 2;
  const double edge = std::asin(std::max(0.0, 1 - std::max(0.0, settings.edgeTrim_m) / half));  // phase where the trim begins
  double turned = slowPhase(swings);
  const auto piece = [&](double from, double to, bool lit) {
    Stretch stretch;
    stretch.swing = Point(half, height_m / 2);
    stretch.rate_rad_s = rate;
    stretch.multiple = Point(1, 1 / swings);
    stretch.phase_rad = Point(from, turned + from / swings);
    stretch.duration_s = (to - from) / rate;
    stretch.lit = lit;
    frame.add(stretch);
  };
  for (int i = 0; i < swings; ++i) {
    turned = slowPhase(swings) + 2 * pi * i / swings;
    piece(0, edge, true);
    piece(edge, pi - edge, false);
    piece(pi - edge, pi + edge, true);
    piece(pi + edge, 2 * pi - edge, false);
    piece(2 * pi - edge, 2 * pi, true);
  }
}

double speedOn(double radius_m, const Settings& settings, const ScanHead& head) {
  return settings.scanSpeed_m_s * std::sqrt(std::min(1.0, radius_m / slowRadius_m(settings, head)));
}

Stretch arc(double fromRadius_m, double toRadius_m, double fromAngle_rad, double angle_rad, double duration_s) {
  Stretch stretch;
  stretch.swing = Point::Constant(fromRadius_m);
  stretch.growth_m_s = Point::Constant((toRadius_m - fromRadius_m) / duration_s);
  stretch.rate_rad_s = angle_rad / duration_s;
  stretch.phase_rad = Point(fromAngle_rad + pi / 2, fromAngle_rad);
  stretch.duration_s = duration_s;
  return stretch;
}

void addCircles(FrameBuilder& frame, const Settings& settings, const ScanHead& head) {
  const auto count = static_cast<int>(circleCount(settings));
  for (int i = 0; i < count; ++i) {
    const double radius = settings.width_m / 2 - i * settings.lineSpacing_m;
    frame.add(arc(radius, radius, 0, 2 * pi, 2 * pi * radius / speedOn(radius, settings, head)));
    if (i + 1 == count || head.turnaround_s <= 0) continue;
    Stretch step;
    step.start = Point(radius, 0);
    step.velocity = Point(-settings.lineSpacing_m / head.turnaround_s, 0);
    step.duration_s = head.turnaround_s;
    step.lit = !settings.beamOffInTurns && settings.edgeTrim_m <= 0;
    frame.add(step);
  }
}

void addSpiral(FrameBuilder& frame, const Settings& settings, const ScanHead& head) {
  const double outer = settings.width_m / 2, inner = innerRadius_m(settings);
  const double angle = 2 * pi * (outer - inner) / settings.lineSpacing_m;
  const auto count = static_cast<int>(std::ceil(angle / (pi / 4)));
  const double share = angle / count, slope = settings.lineSpacing_m / (2 * pi);
  const auto radiusAt = [&](double i) { return outer + (inner - outer) * (i / count); };
  const auto pace = [&](double i) { return std::hypot(radiusAt(i), slope) / speedOn(radiusAt(i), settings, head); };  // s/rad
  for (int i = 0; i < count; ++i) {
    const double duration = share * (pace(i) + 4 * pace(i + 0.5) + pace(i + 1)) / 6;  // Simpson's rule
    frame.add(arc(radiusAt(i), radiusAt(i + 1), i * share, share, duration));
  }
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

double lineCount(const Settings& settings) { return lineCount(settings.height_m, settings.lineSpacing_m); }

double stretchCount(const Settings& settings) {
  const double perLine = settings.oneWay ? 8 : 4;
  switch (settings.pattern) {
    case Pattern::Raster: return perLine * (settings.height_m / settings.lineSpacing_m + 1);
    case Pattern::Crossed: return perLine * ((settings.height_m + settings.width_m) / settings.lineSpacing_m + 2);
    case Pattern::Circles:
      return settings.width_m / settings.lineSpacing_m + 2;
    case Pattern::Spiral:
      return 4 * settings.width_m / settings.lineSpacing_m + 1;
    case Pattern::TwoSine:
      return 5 * (settings.height_m / settings.lineSpacing_m + 1);
    default: return 2 * perLine;
  }
}

double topScanSpeed_m_s(const Settings& settings) {
  const double fast = pi * settings.oscillationRate_Hz.value_or(0) * settings.width_m;
  if (settings.pattern == Pattern::Sine) return fast;
  if (settings.pattern != Pattern::TwoSine) return settings.scanSpeed_m_s;
  const double swings = swingCount(settings.height_m, settings.lineSpacing_m);
  const double slow = pi * settings.oscillationRate_Hz.value_or(0) * settings.height_m / swings, phase = slowPhase(swings);
  const auto speed = [&](double angle) { return std::hypot(fast * std::cos(swings * angle), slow * std::cos(angle + phase)); };
  // It lies between the slow swing's fastest moment and the fast one's next, and rises to one maximum there: the ratio
  // sin(2 n x) / sin(2 x) of the two terms of the derivative falls from n to 0.
  double low = -phase, high = 0;
  for (int i = 0; i < 80; ++i) {
    const double third = (high - low) / 3;
    if (speed(low + third) < speed(high - third))
      low += third;
    else
      high -= third;
  }
  return speed((low + high) / 2);
}

double slowRadius_m(const Settings& settings, const ScanHead& head) { return settings.scanSpeed_m_s * head.turnaround_s / 2; }

double innerRadius_m(const Settings& settings) {
  if (settings.pattern == Pattern::Circles) return settings.width_m / 2 - (circleCount(settings) - 1) * settings.lineSpacing_m;
  return std::min(settings.lineSpacing_m, settings.width_m) / 4;
}

Frame buildFrame(const Settings& settings, const ScanHead& head) {
  FrameBuilder frame;
  const Lines alongX = linesAlong(settings, head, true);
  switch (settings.pattern) {
    case Pattern::Line: addForthAndBack(frame, alongX, settings.oneWay); break;
    case Pattern::Sine:
      addSwings(frame, settings, 0, 1);
      break;
    case Pattern::Raster:
      addRaster(frame, alongX, settings.height_m, settings.lineSpacing_m, settings.oneWay);
      break;
    case Pattern::Crossed:
      addRaster(frame, alongX, settings.height_m, settings.lineSpacing_m, settings.oneWay);
      addRaster(frame, linesAlong(settings, head, false), settings.width_m, settings.lineSpacing_m, settings.oneWay);
      break;
    case Pattern::Circles:
      addCircles(frame, settings, head);
      break;
    case Pattern::Spiral:
      addSpiral(frame, settings, head);
      break;
    case Pattern::TwoSine:
      addSwings(frame, settings, settings.height_m, swingCount(settings.height_m, settings.lineSpacing_m));
      break;
  }
  return frame.build();
}

}  // namespace bw
