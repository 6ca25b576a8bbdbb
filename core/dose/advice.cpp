// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/advice.h"

#include "core/dose/edge_on.h"
#include "core/dose/stripes.h"

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

constexpr double worthwhile = 0.9;  // of the present ripple
constexpr double unseen = 0.01;     // a ripple that needs no mending

double rounded(double value, double unit) { return std::round(value / unit) * unit; }

/// Down to where a person can set it: hundredths of a millimetre per second below 10 mm/s, tenths above.
double settableTravel(double speed_m_s) { return rounded(speed_m_s, speed_m_s < 0.01 ? 1e-5 : 1e-4); }

bool stacksAlongTravel(const Settings& s) {
  return (s.pattern == Pattern::Raster || s.pattern == Pattern::Crossed) && std::abs(std::sin(s.travelAngle_rad)) > 0.999;
}

}  // namespace

EvennessAdvice::EvennessAdvice(const Settings& settings, const ScanHead& head, const Emission& emission, BeamProfile shape,
                               double spotRadius_m, std::stop_token stop)
    : m_settings(settings),
      m_head(head),
      m_emission(emission),
      m_profile(shape),
      m_radius(spotRadius_m),
      m_stop(std::move(stop)),
      m_now(of(settings)) {}

double EvennessAdvice::framePeriod_s(const Settings& s) const { return buildFrame(s, m_head).period_s(); }

Unevenness EvennessAdvice::of(const Settings& s) const {
  throwIfStopped(m_stop);
  const Frame frame = buildFrame(s, m_head);
  const auto rows = rowsOf(frame, Travel(s.travelSpeed_m_s, s.travelAngle_rad), m_emission, m_radius);
  return {rippleOf(foldedEdgeOn(rows, Axis::Across, m_profile, m_radius, s.stepOver_m)),
          rippleOf(foldedEdgeOn(rows, Axis::Along, m_profile, m_radius, s.travelSpeed_m_s * frame.period_s()))};
}

template <class Better>
std::optional<Settings> EvennessAdvice::best(const std::vector<Settings>& candidates, Better figure) const {
  double least = worthwhile * figure(m_now);
  std::optional<Settings> found;
  if (figure(m_now) < unseen) return found;
  for (const Settings& candidate : candidates) {
    const double value = figure(of(candidate));
    if (value >= least) continue;
    least = value;
    found = candidate;
  }
  return found;
}

std::optional<Settings> EvennessAdvice::stepOver() const {
  const Frame frame = buildFrame(m_settings, m_head);
  const auto rows = rowsOf(frame, Travel(m_settings.travelSpeed_m_s, m_settings.travelAngle_rad), m_emission, m_radius);
  if (rows.empty() || m_now.across < unseen) return std::nullopt;
  const Extent extent = extentOf(rows, Axis::Across);
  const double lit = extent.high_m - extent.low_m, unit = lit > 5e-3 ? 1e-4 : 1e-5;
  double least = worthwhile * m_now.across;
  std::optional<Settings> found;
  constexpr int tried = 60;
  for (int i = tried; i >= 0; --i) {  // the widest first: of two alike it is the faster
    Settings settings = m_settings;
    settings.stepOver_m = std::floor(lit * (1.0 / 3 + i * (2.0 / 3) / tried) / unit) * unit;
    if (settings.stepOver_m <= 0) continue;
    const double ripple = rippleOf(foldedEdgeOn(rows, Axis::Across, m_profile, m_radius, settings.stepOver_m));
    if (ripple >= 0.98 * least) continue;
    least = ripple;
    found = settings;
  }
  return found;
}

std::optional<Settings> EvennessAdvice::edgeTrim() const {
  if (isRound(m_settings.pattern)) return std::nullopt;
  const double most = std::min(m_settings.width_m / 10, 12 * m_radius);
  std::vector<Settings> candidates;
  for (double i = 1; i <= 8; ++i) {
    candidates.push_back(m_settings);
    candidates.back().edgeTrim_m = std::max(1e-5, rounded(most * i / 8, 1e-5));
  }
  return best(candidates, [](const Unevenness& u) { return u.across; });
}

std::optional<double> EvennessAdvice::framesOnAPlace(const Settings& s, double framePeriod_s) {
  const double advance = s.travelSpeed_m_s * framePeriod_s;
  if (!stacksAlongTravel(s) || !(advance > 0)) return std::nullopt;
  return lineCount(s) * s.lineSpacing_m / advance + 1;
}

std::optional<Settings> EvennessAdvice::lineSpacing() const {
  const double period = framePeriod_s(m_settings), advance = m_settings.travelSpeed_m_s * period;
  const auto frames = framesOnAPlace(m_settings, period);
  if (!frames) return std::nullopt;
  std::vector<Settings> candidates;
  for (const double whole : {std::floor(*frames), std::ceil(*frames)}) {
    const double lines = lineCount(m_settings), spacing = (whole - 1) * advance / lines;
    if (spacing < 0.75 * m_settings.lineSpacing_m || spacing > 1.25 * m_settings.lineSpacing_m) continue;
    candidates.push_back(m_settings);
    candidates.back().lineSpacing_m = rounded(spacing, 1e-7);
    candidates.back().height_m = rounded((lines - 1) * spacing, 1e-5);
    if (lineCount(candidates.back()) != lines) candidates.back().height_m += 1e-5;
  }
  return best(candidates, [](const Unevenness& u) { return u.along; });
}

std::optional<Settings> EvennessAdvice::travelSpeed() const {
  if (m_now.along < unseen) return std::nullopt;
  const double now = m_settings.travelSpeed_m_s, period = framePeriod_s(m_settings);
  std::vector<double> speeds;
  if (const auto frames = framesOnAPlace(m_settings, period)) {
    const double stack = lineCount(m_settings) * m_settings.lineSpacing_m;
    for (double whole = std::max(2.0, std::floor((*frames - 1) / 2)); whole <= 2 * *frames && speeds.size() < 20; ++whole)
      speeds.push_back(stack / ((whole - 1) * period));
  } else {
    for (double i = 0; i <= 16; ++i) speeds.push_back(now * std::pow(2.0, i / 8 - 1));
  }
  std::ranges::sort(speeds, {}, [&](double speed) { return std::abs(std::log(speed / now)); });  // the smallest change first
  std::vector<Settings> candidates;
  for (const double speed : speeds) {
    if (speed < now / 2 || speed > now * 2) continue;
    candidates.push_back(m_settings);
    candidates.back().travelSpeed_m_s = settableTravel(speed);
  }
  // Of those that are nearly alike the smallest change.
  std::optional<Settings> found;
  double least = worthwhile * m_now.along;
  for (const Settings& candidate : candidates) {
    const double value = of(candidate).along;
    if (value >= (found ? 0.5 * least : least)) continue;
    least = value;
    found = candidate;
  }
  return found;
}

}  // namespace bw
