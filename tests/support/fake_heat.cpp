// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/fake_heat.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

namespace bw::fake {

namespace {

constexpr double start_C = 20;
constexpr double strippingShare = 0.86;

std::vector<double> scaled(const std::vector<double>& curve, double share) {
  std::vector<double> made;
  for (const double value : curve) made.push_back(start_C + share * (value - start_C));
  return made;
}

std::optional<double> firstAt(const std::vector<double>& time_s, const std::vector<double>& curve, double limit_C) {
  for (std::size_t i = 0; i < time_s.size(); ++i)
    if (curve[i] >= limit_C) return time_s[i];
  return std::nullopt;
}

bool isBack(const LimitResult& limit) { return limit.where.starts_with("back"); }

/// Rows of lines that come near and go again: each a little hotter until the frame starts anew.
FrameTrace frame(double begin_s, double base_C) {
  FrameTrace made;
  made.begin_s = begin_s;
  constexpr double period_s = 0.36;
  constexpr int points = 900, lines = 24;
  for (int i = 0; i <= points; ++i) {
    const double share = static_cast<double>(i) / points;
    const double near = std::exp(-std::pow((share - 0.45) / 0.12, 2)), line = std::pow(std::sin(share * lines * std::numbers::pi), 12);
    made.time_s.push_back(share * period_s);
    made.near_C.push_back(base_C + 55 * near * (0.35 + 0.65 * line) + 6 * share);
    made.back_C.push_back(base_C - 4 + 14 / (1 + std::exp(-(share - 0.5) * 14)));
  }
  return made;
}

StillHandHeat stillHand(double base_C) {
  StillHandHeat made;
  for (int i = 0; i <= 120; ++i) {
    const double time = 0.01 * std::pow(1000.0, i / 120.0);
    made.time_s.push_back(time);
    made.front_C.push_back(base_C + 62 * std::sqrt(time));
    made.back_C.push_back(base_C - 6 + 60 * std::sqrt(time) * (1 - std::exp(-time / 0.1)));
  }
  return made;
}

struct Job {
  std::vector<double> passStart_s;
  double passTime_s;
  double end_s;
};

Job jobOf(const HeatTrace& trace) {
  const double all_s = trace.time_s.back(), passes = static_cast<double>(trace.passStart_s.size());
  return {trace.passStart_s, 0.85 * all_s / passes, all_s};
}

/// The hand goes up and down in swaths from left to right; nothing in the pause after a pass.
std::optional<std::array<double, 2>> handAt(const Job& job, double time_s) {
  constexpr int swaths = 17;
  const auto pass = std::ranges::upper_bound(job.passStart_s, time_s) - job.passStart_s.begin() - 1;
  const double share = pass < 0 ? 2 : (time_s - job.passStart_s[static_cast<std::size_t>(pass)]) / job.passTime_s;
  if (share > 1) return std::nullopt;
  const double along = share * swaths, swath = std::min(swaths - 1.0, std::floor(along));
  return std::array{0.6 * (swath + 0.5) / swaths, 0.4 * std::clamp(along - swath, 0.0, 1.0)};
}

void coolTowards(std::vector<float>& field, double step_s) {
  for (float& value : field) value = static_cast<float>(start_C + (static_cast<double>(value) - start_C) * std::exp(-step_s / 900));
}

void warmAround(std::vector<float>& field, const PartMap& map, const std::array<double, 2>& hand, double rise_K) {
  std::size_t cell = 0;
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column, ++cell) {
      const double x = (column + 0.5) * map.cellX_m - hand[0], y = (row + 0.5) * map.cellY_m - hand[1];
      field[cell] += static_cast<float>(rise_K * std::exp(-(x * x + y * y) / (2 * 0.03 * 0.03)));
    }
  }
}

PartMap partMap(const HeatTrace& trace) {
  constexpr int moments = 160;
  const Job job = jobOf(trace);
  PartMap map{60, 40, 0.01, 0.01, {}, {}, {}, {}, {}};
  std::vector<float> field(2400, static_cast<float>(start_C));
  map.highest_C = field;
  map.highestAt_s.assign(2400, 0);
  const double step_s = job.end_s * 1.2 / moments;
  for (int i = 0; i <= moments; ++i) {
    const double time = i * step_s;
    const auto hand = i == 0 || time > job.end_s ? std::nullopt : handAt(job, time);
    coolTowards(field, step_s);
    if (hand) warmAround(field, map, *hand, 78);
    map.time_s.push_back(time);
    map.temperature_C.push_back(field);
    map.hand_m.push_back(hand);
    for (std::size_t cell = 0; cell < field.size(); ++cell) {
      if (field[cell] <= map.highest_C[cell]) continue;
      map.highest_C[cell] = field[cell];
      map.highestAt_s[cell] = static_cast<float>(time);
    }
  }
  return map;
}

}  // namespace

void fillHeat(ThermalResult& thermal) {
  HeatTrace& trace = thermal.trace;
  trace.frontBare_C = trace.front_C;
  trace.backBare_C = trace.back_C;
  trace.frontStripping_C = scaled(trace.front_C, strippingShare);
  trace.backStripping_C = scaled(trace.back_C, strippingShare);
  trace.part_C = scaled(trace.back_C, 0.4);
  trace.x_m = 0.52;
  trace.y_m = 0.2;
  const auto peak = std::ranges::max_element(trace.front_C) - trace.front_C.begin();
  thermal.lastFrame = frame(trace.time_s[static_cast<std::size_t>(peak)], 0.8 * *thermal.front_C);
  for (LimitResult& limit : thermal.limits)
    limit.reached_s = firstAt(trace.time_s, isBack(limit) ? trace.back_C : trace.front_C, limit.limit_C);
  thermal.backTrace = trace;
  thermal.flatness = FlatnessTerms{0.7, 0.42, 0.18, 86, 0.034};
}

void deepenHeat(ThermalResult& thermal) {
  if (thermal.trace.time_s.size() < 2) return;
  thermal.stillHand = stillHand(0.8 * thermal.front_C.value_or(start_C));
  for (LimitResult& limit : thermal.limits) {
    limit.stillHand_s =
        firstAt(thermal.stillHand->time_s, isBack(limit) ? thermal.stillHand->back_C : thermal.stillHand->front_C, limit.limit_C);
    const double rise = limit.predicted_C - start_C;
    limit.predictedRange_C = Spread{start_C + 0.85 * rise, limit.predicted_C, start_C + 1.25 * rise};
  }
  thermal.map = std::make_shared<const PartMap>(partMap(thermal.trace));
}

PartMap smallPart() {
  PartMap map{3, 2, 0.01, 0.01, {0, 60, 600}, {}, {}, {}, {}};
  map.temperature_C = {std::vector<float>(6, 20), {20, 30, 40, 50, 60, 70}, std::vector<float>(6, 30)};
  map.hand_m = {std::nullopt, std::array{0.025, 0.015}, std::nullopt};
  map.highest_C = {30, 30, 40, 50, 60, 70};
  map.highestAt_s = {600, 60, 60, 60, 60, 60};
  return map;
}

}  // namespace bw::fake
