// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_heat.h"

#include "core/heat/blurred_strip.h"
#include "core/heat/chebyshev_step.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace bw {

namespace {

constexpr double stefanBoltzmann = 5.670374419e-8;  // W/m2K4, exact since 2019 (CODATA)
constexpr double absoluteZero_C = -273.15;
constexpr double handedOver = 2;  // cells that heat has spread by then
constexpr double framesOld = 10;

double fourth(double celsius) {
  const double kelvin = celsius - absoluteZero_C;
  return kelvin * kelvin * kelvin * kelvin;
}

/// Share of a box's light that lands on a bar.
double landed(double middle, double size, double length) {
  if (size <= 0) return middle >= 0 && middle <= length ? 1 : 0;
  return std::max(0.0, std::min(length, middle + size / 2) - std::max(0.0, middle - size / 2)) / size;
}

}  // namespace

Plate plateAt(const PartSheet& sheet, double temperature_C) {
  const double warm = temperature_C - absoluteZero_C, air = sheet.ambient_C - absoluteZero_C;
  const double radiation = sheet.emissivity * stefanBoltzmann * (warm * warm + air * air) * (warm + air);
  return {sheet.thickness_m, sheet.metal.conductivityAt_W_mK(temperature_C), sheet.metal.heatCapacityAt_J_m3K(temperature_C),
          sheet.filmCoefficient_W_m2K + radiation};
}

PartHeat::PartHeat(const PartSheet& sheet, const PartGrid& grid, const Plate& near, double spotRadius_m, double framePeriod_s)
    : m_sheet(sheet), m_grid(grid), m_near(near), m_radius(spotRadius_m), m_enthalpy(sheet.metal) {
  const double cell = std::max(std::sqrt(sheet.size_m.prod() / grid.cells), sheet.size_m.maxCoeff() / 400);
  const double perVolume = 2 / sheet.thickness_m, air = fourth(sheet.ambient_C);
  for (const MetalEnthalpy::Value& value : m_enthalpy.table()) {
    const double film = sheet.filmCoefficient_W_m2K * (value.temperature_C - sheet.ambient_C);
    m_drains.push_back(
        {value.potential_W_m, perVolume * (film + sheet.emissivity * stefanBoltzmann * (fourth(value.temperature_C) - air))});
  }
  m_across = std::max(1, static_cast<int>(std::round(sheet.size_m.x() / cell)));
  m_along = std::max(1, static_cast<int>(std::round(sheet.size_m.y() / cell)));
  const double widest = std::max(sheet.size_m.x() / m_across, sheet.size_m.y() / m_along);
  m_handover = std::max({near.mixingAge_s(), handedOver * widest * handedOver * widest / (2 * near.diffusivity_m2_s()), framesOld * framePeriod_s});
}

/// One run: the cells' state, stepped.
class PartHeat::Runner {
 public:
  Runner(const PartHeat& part, const HandTour& tour, const FrameBoxes& boxes, double power_W)
      : m_part(part),
        m_sheet(part.m_sheet),
        m_tour(tour),
        m_power(power_W),
        m_nx(static_cast<std::size_t>(part.m_across)),
        m_ny(static_cast<std::size_t>(part.m_along)),
        m_dx(part.m_sheet.size_m.x() / part.m_across),
        m_dy(part.m_sheet.size_m.y() / part.m_along),
        m_start(part.m_enthalpy.enthalpy_J_m3(part.m_sheet.start_C)),
        m_state(m_nx * m_ny, m_start),
        m_source(m_nx * m_ny),
        m_potential(m_nx * m_ny),
        m_first(m_nx * m_ny),
        m_rate(m_nx * m_ny),
        m_before(m_nx * m_ny),
        m_now(m_nx * m_ny) {
    const double alpha = part.m_enthalpy.fastest_m2_s();
    const double film = 2 * (m_sheet.filmCoefficient_W_m2K + 4 * m_sheet.emissivity * stefanBoltzmann * 1e9) / m_sheet.thickness_m /
                        part.m_near.heatCapacity_J_m3K * edgeFactor(0, 0);
    m_largest = 4 * alpha * ((m_nx > 1 ? 1 / (m_dx * m_dx) : 0) + (m_ny > 1 ? 1 / (m_dy * m_dy) : 0)) + film;
    const bool blurred = boxes.all.size.maxCoeff() < 3 * handedOver * std::max(m_dx, m_dy);  // turns and lines are not told apart
    m_laid = blurred ? std::vector{boxes.all} : boxes.whole;
    m_result.field.across = part.m_across;
    m_result.field.along = part.m_along;
    m_result.field.cell_m = Point(m_dx, m_dy);
  }

  PartRun run(double end_s, const std::stop_token& stop) {
    m_end = end_s;
    double now = 0, step = 0;
    keep(0);
    while (now < end_s * (1 - 1e-12)) {
      throwIfStopped(stop);
      step = std::min(stepFrom(now, step), end_s - now);
      gatherSource(now, step);
      advance(step);
      now += step;
      keep(now, now >= end_s * (1 - 1e-12));
    }
    for (const TourStroke& stroke : m_tour.strokes)  // what is too young to be handed over
      m_result.young_J += handedIn(stroke, now - m_part.m_handover, now, [](const Point&, const LightBox&, double) {});
    for (const double h : m_state) m_result.stored_J += (h - m_start) * m_sheet.thickness_m * m_dx * m_dy;
    m_result.absorbed_J += m_result.young_J;
    return std::move(m_result);
  }

 private:
  double workStep(double speed_m_s) const {
    const double longest = std::max(m_part.m_grid.cellsPerStep * m_part.m_handover, m_tour.end_s() / m_part.m_grid.mostSteps);
    const double step = std::min(m_part.m_grid.cellsPerStep * m_dy / std::max(std::abs(speed_m_s), 1e-12), longest);
    return std::max(step, std::min(m_tour.end_s() / m_part.m_grid.mostSteps, m_part.m_handover / 8));
  }

  /// As the hand moved when the heat now handed over was laid; ever longer where nothing comes, up to the next that does.
  double stepFrom(double now_s, double before_s) const {
    const double laid = now_s - m_part.m_handover;
    auto next = std::ranges::upper_bound(m_tour.strokes, laid + 1e-9, {}, &TourStroke::end_s);
    if (next != m_tour.strokes.end() && next->begin_s <= laid + 1e-9) return workStep(next->speed_m_s);
    const double longest = 0.1 / std::max(m_part.m_near.lossRate_1_s(), 1e-6);
    const double left = next == m_tour.strokes.end() ? m_end - now_s : next->begin_s - laid;
    const double quiet = std::min(std::max(longest, left / 50), std::max(1.25 * before_s, m_part.m_handover / 20));
    return next == m_tour.strokes.end() ? quiet : std::max(1e-9, std::min(quiet, next->begin_s - laid));
  }

  /// Lays what a stroke gave between two times piece by piece; returns how much landed on the part.
  template <class Lay>
  double handedIn(const TourStroke& stroke, double from_s, double to_s, Lay lay) const {
    const double from = std::max(from_s, stroke.begin_s), to = std::min(to_s, stroke.end_s);
    if (to <= from) return 0;
    const Point size = m_laid.front().size, offset = m_laid.front().middle;
    const bool atEnd = passesEnd(stroke.middleAt(from) + offset, stroke.middleAt(to) + offset, size, m_sheet.size_m.y());
    const double longest = atEnd ? std::max(0.07 * size.y(), 0.01 * m_dy) : 0.7 * handedOver * m_dy;
    const int pieces = std::clamp(static_cast<int>(std::ceil(std::abs(stroke.speed_m_s) * (to - from) / longest)), 1, 400);
    double energy = 0;
    for (int i = 0; i < pieces; ++i) {
      const Point middle = stroke.middleAt(from + (i + 0.5) / pieces * (to - from));
      for (const LightBox& box : m_laid) {
        const Point at = middle + box.middle;
        const double given = m_power * stroke.share * box.share * (to - from) / pieces;
        energy += given * landed(at.x(), box.size.x(), m_sheet.size_m.x()) * landed(at.y(), box.size.y(), m_sheet.size_m.y());
        lay(at, box, given);
      }
    }
    return energy;
  }

  void gatherSource(double now_s, double step_s) {
    std::ranges::fill(m_source, 0.0);
    const double from = now_s - m_part.m_handover, to = from + step_s, kept = std::exp(-m_part.m_near.lossRate_1_s() * m_part.m_handover);
    const double variance = m_part.m_radius * m_part.m_radius / 4 + 2 * m_part.m_near.diffusivity_m2_s() * m_part.m_handover;
    auto stroke = std::ranges::upper_bound(m_tour.strokes, from, {}, &TourStroke::end_s);
    for (; stroke != m_tour.strokes.end() && stroke->begin_s < to; ++stroke) {
      const double energy = handedIn(*stroke, from, to, [&](const Point& at, const LightBox& box, double given) {
        layBox(at, box.size, variance, given * kept / (step_s * m_sheet.thickness_m));
      });
      m_result.absorbed_J += energy;
      m_result.lost_J += energy * (1 - kept);
    }
  }

  void layBox(const Point& at, const Point& size, double variance, double perSecond) {
    const double reach = std::sqrt(40 * variance);
    const auto range = [&](double middle, double width, double cell, std::size_t count) {
      const double low = (middle - width / 2 - reach) / cell, high = (middle + width / 2 + reach) / cell;
      const auto last = static_cast<double>(count);
      return std::pair(static_cast<std::size_t>(std::clamp(std::floor(low), 0.0, last)),
                       static_cast<std::size_t>(std::clamp(std::ceil(high), 0.0, last)));
    };
    const auto [i0, i1] = range(at.x(), size.x(), m_dx, m_nx);
    const auto [j0, j1] = range(at.y(), size.y(), m_dy, m_ny);
    m_across.assign(i1, 0);
    for (std::size_t i = i0; i < i1; ++i)
      m_across[i] = blurredShare_1_m((static_cast<double>(i) + 0.5) * m_dx, at.x(), size.x(), variance, m_sheet.size_m.x());
    for (std::size_t j = j0; j < j1; ++j) {
      const double along =
          perSecond * blurredShare_1_m((static_cast<double>(j) + 0.5) * m_dy, at.y(), size.y(), variance, m_sheet.size_m.y());
      if (along == 0) continue;
      double* row = m_source.data() + j * m_nx;
      for (std::size_t i = i0; i < i1; ++i) row[i] += along * m_across[i];
    }
  }

  /// Edges of the part lose heat as its faces do: what they add, relative to a cell's faces.
  double edgeFactor(std::size_t i, std::size_t j) const {
    const double ends = static_cast<double>((i == 0) + (i + 1 == m_nx)) * m_sheet.thickness_m / (2 * m_dx);
    const double sides = static_cast<double>((j == 0) + (j + 1 == m_ny)) * m_sheet.thickness_m / (2 * m_dy);
    return 1 + ends + sides;
  }

  /// dh/dt into `rate`; returns what the whole part loses to the air, watts.
  double rates(const std::vector<double>& state, std::vector<double>& rate) {
    double lost = 0;
    for (std::size_t k = 0; k < state.size(); ++k) {
      const MetalEnthalpy::Place at = m_part.m_enthalpy.placeOf(state[k]);
      const Drain &a = m_part.m_drains[at.entry], &b = m_part.m_drains[at.entry + 1];
      m_potential[k] = a.potential_W_m + at.share * (b.potential_W_m - a.potential_W_m);
      rate[k] = a.loss_W_m3 + at.share * (b.loss_W_m3 - a.loss_W_m3);
    }
    for (std::size_t j = 0; j < m_ny; ++j) {
      for (std::size_t i = 0; i < m_nx; ++i) {  // ends and sides only
        if (j > 0 && j + 1 < m_ny && i == 1 && m_nx > 2) i = m_nx - 1;
        rate[j * m_nx + i] *= edgeFactor(i, j);
      }
    }
    const double ax = 1 / (m_dx * m_dx), ay = 1 / (m_dy * m_dy);
    for (std::size_t j = 0; j < m_ny; ++j) {
      const double* here = m_potential.data() + j * m_nx;
      const double* below = j > 0 ? here - m_nx : here;
      const double* above = j + 1 < m_ny ? here + m_nx : here;
      double* out = rate.data() + j * m_nx;
      const double* in = m_source.data() + j * m_nx;
      for (std::size_t i = 0; i < m_nx; ++i) {
        lost += out[i];
        out[i] = in[i] - out[i] + ay * (below[i] - 2 * here[i] + above[i]);
      }
      for (std::size_t i = 1; i < m_nx; ++i) {
        const double flow = ax * (here[i] - here[i - 1]);
        out[i - 1] += flow;
        out[i] -= flow;
      }
    }
    return lost * m_sheet.thickness_m * m_dx * m_dy;
  }

  const ChebyshevStages& stagesOf(int count) {
    const auto known = m_stages.find(count);
    return known != m_stages.end() ? known->second : m_stages.emplace(count, chebyshevStages(count)).first->second;
  }

  /// One step; what is lost goes through the same stages as the cells, so that the balance closes to rounding.
  void advance(double step_s) {
    const ChebyshevStages& method = stagesOf(chebyshevCount(step_s, m_largest));
    const double firstLoss = rates(m_state, m_first);
    double lossBefore = 0, lossNow = method.firstMu * step_s * firstLoss;
    m_before = m_state;
    for (std::size_t k = 0; k < m_state.size(); ++k) m_now[k] = m_state[k] + method.firstMu * step_s * m_first[k];
    for (const ChebyshevStages::Stage& stage : method.stages) {
      const double loss = rates(m_now, m_rate), rest = 1 - stage.mu - stage.nu;
      const double tilde = stage.muTilde * step_s, gamma = stage.gammaTilde * step_s;
      for (std::size_t k = 0; k < m_state.size(); ++k)
        m_before[k] = rest * m_state[k] + stage.mu * m_now[k] + stage.nu * m_before[k] + tilde * m_rate[k] + gamma * m_first[k];
      std::swap(m_before, m_now);
      const double lossNext = stage.mu * lossNow + stage.nu * lossBefore + tilde * loss + gamma * firstLoss;
      lossBefore = lossNow;
      lossNow = lossNext;
    }
    std::swap(m_state, m_now);
    m_result.lost_J += lossNow;
  }

  /// Keeps the cells as they are, unless the last kept are so near in time that so many would be too many.
  void keep(double now_s, bool last = false) {
    constexpr double mostKept = 2500;
    auto& field = m_result.field;
    const bool first = field.time_s.empty();
    if (!first && !last && now_s - field.time_s.back() < m_end / mostKept) return;
    if (!first && now_s <= field.time_s.back()) return;
    field.time_s.push_back(now_s);
    field.enthalpy_J_m3.emplace_back(m_state.begin(), m_state.end());
  }

  const PartHeat& m_part;
  const PartSheet& m_sheet;
  const HandTour& m_tour;
  double m_power;
  std::size_t m_nx, m_ny;
  double m_dx, m_dy, m_start;
  double m_largest = 0;
  double m_end = 0;
  std::vector<double> m_state, m_source, m_potential, m_first, m_rate, m_before, m_now;
  std::vector<LightBox> m_laid;
  std::vector<double> m_across;
  std::map<int, ChebyshevStages> m_stages;
  PartRun m_result;
};

PartRun PartHeat::run(const HandTour& tour, const FrameBoxes& boxes, double power_W, double cooling_s, const std::stop_token& stop) const {
  return Runner(*this, tour, boxes, power_W).run(tour.end_s() + cooling_s, stop);
}

}  // namespace bw
