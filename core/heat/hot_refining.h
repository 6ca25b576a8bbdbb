// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/heat/hot_moments.h"

#include <algorithm>
#include <cmath>

namespace bw {

/// Somewhere at some time, with frames of some phase.
struct HeatTrial {
  std::size_t stroke = 0;
  Point place = Point::Zero();
  double time_s = 0;
  FrameShift frames = {};
  double spreading = 1;
  double value_C = -1e300;
};

/// The exact temperatures of trials, and the way to hotter ones.
class Refining {
 public:
  Refining(const WorkHeat& heat, double framePeriod_s, double pulsePeriod_s)
      : m_heat(heat), m_tour(heat.near().tour()), m_frame(framePeriod_s), m_pulse(pulsePeriod_s) {}

  const HandTour& tour() const { return m_tour; }

  HeatTrial trialOf(const HotMoment& moment) const {
    const double since = moment.time_s - m_tour.strokes[moment.stroke].clock_s - moment.inFrame_s;
    const double phase = since - m_frame * std::floor(since / m_frame);
    return {moment.stroke, moment.place, moment.time_s, {phase, phase}, m_heat.spreading(moment.place, moment.time_s)};
  }

  HeatQuery queryOf(const HeatTrial& trial) const {
    HeatQuery query{trial.place, trial.time_s, m_pulse};
    query.frames = trial.frames;
    query.spreading = trial.spreading;
    return query;
  }

  double point_C(const HeatTrial& trial) const {
    const HeatQuery query = queryOf(trial);
    return m_heat.with(query.place, query.time_s, m_heat.near().rise_K_W(query)).front_C;
  }
  Faces patch_C(const HeatTrial& trial) const {
    return m_heat.with(trial.place, trial.time_s, patchMean(m_heat.near(), trial.place, trial.time_s, trial.spreading, trial.frames));
  }

  /// How far a trial is moved at first.
  struct Steps {
    double along_s;  // with the hand: later, further, the same beam in its frame
    double across_m;
    double beside_m;  // along the travel, the hand where it is
    double later_s;   // the same place
    double phase_s;   // of the stroke's frames, or of those of the strokes before and after it
    double hand_s;    // the hand further, the same beam in its frame, the same place
  };

  /// Each way in turn, in steps ever shorter, while that makes it hotter. `value(trial)` is the temperature; a pulse stays a pulse: time
  /// and phase move by whole periods, or together.
  template <class Value>
  HeatTrial hotter(HeatTrial trial, Steps steps, int halvings, const Value& value) const {
    for (int halving = 0; halving < halvings; ++halving) {
      for (int round = 0; round < mostRounds; ++round) {
        const double before = trial.value_C;
        eachWay(trial, steps, value);
        if (trial.value_C - before < worthAnother * trial.value_C) break;
      }
      for (double* step : {&steps.along_s, &steps.across_m, &steps.beside_m, &steps.later_s, &steps.phase_s, &steps.hand_s}) *step /= 2;
    }
    return trial;
  }

  /// Just after a turn, with the phase of the frames before it that makes it hottest.
  template <class Value>
  HeatTrial withFramesBefore(const HeatTrial& trial, const Value& value) const {
    constexpr int phases = 6;
    HeatTrial best = trial;
    if (!justTurned(trial)) return best;
    for (int i = 1; i < phases; ++i) {
      HeatTrial other = trial;
      take(other, {.other_s = wholePulses_s(i * m_frame / phases)}, value);
      if (other.value_C > best.value_C) best = other;
    }
    return best;
  }

  /// With the hand by a share of the trial's stroke, else as given.
  Steps stepsFor(const HeatTrial& trial, double across_m, double beside_m, double later_s, double phase_s) const {
    const TourStroke& stroke = m_tour.strokes[trial.stroke];
    return {0.04 * (stroke.end_s - stroke.begin_s),
            across_m,
            beside_m,
            later_s,
            phase_s,
            m_heat.near().spotRadius_m() / std::max(std::abs(stroke.speed_m_s), 1e-9)};
  }

 private:
  double wholePulses_s(double time_s) const { return m_pulse > 0 ? std::max(1.0, std::round(time_s / m_pulse)) * m_pulse : time_s; }

  static constexpr int mostRounds = 2;          // of steps as long
  static constexpr double worthAnother = 0.01;  // of the temperature, won in a round

  /// What of a trial is changed.
  struct Move {
    Point way = Point::Zero();
    double later_s = 0;
    double own_s = 0;    // the frames of its stroke later
    double other_s = 0;  // those of its neighbours
  };

  /// A step of each kind, there and back.
  template <class Value>
  void eachWay(HeatTrial& trial, const Steps& steps, const Value& value) const {
    const double speed = m_tour.strokes[trial.stroke].speed_m_s;
    for (const double way : {-1.0, 1.0}) {
      const double along = way * steps.along_s, phase = way * wholePulses_s(steps.phase_s), hand = way * steps.hand_s;
      take(trial, {.way = Point(0, speed * along), .later_s = along, .own_s = along, .other_s = along}, value);
      take(trial, {.way = Point(way * steps.across_m, 0)}, value);
      take(trial, {.way = Point(0, way * steps.beside_m)}, value);
      take(trial, {.later_s = way * wholePulses_s(steps.later_s)}, value);
      take(trial, {.own_s = phase}, value);
      take(trial, {.later_s = hand, .own_s = hand}, value);
      if (justTurned(trial)) take(trial, {.other_s = phase}, value);
    }
  }

  /// The frames before the turn are near enough to count.
  bool justTurned(const HeatTrial& trial) const {
    constexpr double near = 4;  // frames
    const TourStroke& stroke = m_tour.strokes[trial.stroke];
    return (trial.time_s - stroke.begin_s) * std::abs(stroke.speed_m_s) <
           near * m_heat.near().boxes().all.size.y() + near * m_frame * std::abs(stroke.speed_m_s);
  }

  /// Moves the trial where that is hotter.
  template <class Value>
  void take(HeatTrial& trial, const Move& move, const Value& value) const {
    HeatTrial moved = trial;
    moved.place = (trial.place + move.way).cwiseMax(Point::Zero()).cwiseMin(m_tour.part_m);
    moved.time_s += move.later_s;
    const bool odd = trial.stroke % 2 == 1;
    (odd ? moved.frames.odd_s : moved.frames.even_s) += move.own_s;
    (odd ? moved.frames.even_s : moved.frames.odd_s) += move.other_s;
    if (moved.place == trial.place && move.later_s == 0 && move.own_s == 0 && move.other_s == 0) return;
    moved.value_C = value(moved);
    if (moved.value_C > trial.value_C) trial = moved;
  }

  const WorkHeat& m_heat;
  const HandTour& m_tour;
  double m_frame;
  double m_pulse;
};

}  // namespace bw
