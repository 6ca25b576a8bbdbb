// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/window_map.h"

#include "core/heat/work_heat.h"
#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace bw {

namespace {

/// Goes through the times that the part or its first window was kept at.
class WindowMapMaker {
 public:
  explicit WindowMapMaker(const WorkHeat& heat)
      : m_heat(heat), m_field(heat.part()), m_window(m_field.windows.front()), m_part{0, 0, m_field.across, m_field.along} {
    m_map.columns = m_window.part.across;
    m_map.rows = m_window.part.along;
    m_map.cellX_m = m_window.cell_m.x();
    m_map.cellY_m = m_window.cell_m.y();
    m_now.resize(m_window.part.cells());
    m_map.highest_C.assign(m_now.size(), -1e30F);
    m_map.highestAt_s.assign(m_now.size(), 0);
  }

  PartMap make(int times, const std::stop_token& stop) {
    std::vector<double> moments;
    std::ranges::set_union(m_field.time_s, m_window.time_s, std::back_inserter(moments));
    const double every = std::max(1.0, static_cast<double>(moments.size() - 1) / std::max(1, times - 1));
    const bool often = every <= static_cast<double>(moments.size()) / static_cast<double>(m_field.time_s.size());  // as the part was kept
    double next = 0;
    for (std::size_t i = 0; i < moments.size(); ++i) {
      throwIfStopped(stop);
      const bool kept = static_cast<double>(i) + 1e-6 >= next || i + 1 == moments.size();
      const bool ofPart = !often && std::ranges::binary_search(m_field.time_s, moments[i]);
      if (kept || ofPart) fillPart(moments[i]);
      fillWindow(moments[i], kept || ofPart);
      if (!kept) continue;
      m_map.time_s.push_back(moments[i]);
      m_map.temperature_C.push_back(m_now);
      m_map.hand_m.push_back(handAt(m_heat.near().tour(), moments[i]));
      next += every;
    }
    return std::move(m_map);
  }

 private:
  /// Everything off the part's own cells, straight between their times.
  void fillPart(double time_s) {
    const auto& times = m_field.time_s;
    const auto after = static_cast<std::size_t>(std::ranges::lower_bound(times, time_s) - times.begin());
    const std::size_t b = std::min(after, times.size() - 1), a = times[b] > time_s && b > 0 ? b - 1 : b;
    const auto share = static_cast<float>(b > a ? (time_s - times[a]) / (times[b] - times[a]) : 0);
    m_between.resize(m_part.cells());
    for (std::size_t k = 0; k < m_between.size(); ++k)
      m_between[k] = std::lerp(m_field.enthalpy_J_m3[a][k], m_field.enthalpy_J_m3[b][k], share);
    for (int j = 0; j < m_part.along; ++j) {
      for (int i = 0; i < m_part.across; ++i) {
        const auto quarters = quartersOf(m_between.data(), m_part, m_part, i, j);
        for (int q = 0; q < 4; ++q) put(2 * i + q % 2, 2 * j + q / 2, quarters[static_cast<std::size_t>(q)]);
      }
    }
  }

  /// What the window has is better; the highest count where nothing better is to come.
  void fillWindow(double time_s, bool everywhere) {
    const auto at = std::ranges::lower_bound(m_window.time_s, time_s);
    const bool open = at != m_window.time_s.end() && *at == time_s;
    const PartField::Moment* moment = open ? &m_window.moments[static_cast<std::size_t>(at - m_window.time_s.begin())] : nullptr;
    const CellRange covered = moment ? moment->cells : CellRange{};
    for (int j = covered.firstAlong; j < covered.endAlong(); ++j)
      for (int i = covered.firstAcross; i < covered.endAcross(); ++i)
        put(i, j, static_cast<double>(moment->enthalpy_J_m3[covered.at(i, j)]));
    const CellRange looked = everywhere ? m_window.part : covered;
    for (int j = looked.firstAlong; j < looked.endAlong(); ++j)
      for (int i = looked.firstAcross; i < looked.endAcross(); ++i) raise(m_window.part.at(i, j), time_s);
  }

  void put(int i, int j, double enthalpy_J_m3) {
    m_now[m_window.part.at(i, j)] = static_cast<float>(m_heat.withEnthalpy_C(enthalpy_J_m3, 0));
  }

  void raise(std::size_t cell, double time_s) {
    if (m_now[cell] <= m_map.highest_C[cell]) return;
    m_map.highest_C[cell] = m_now[cell];
    m_map.highestAt_s[cell] = static_cast<float>(time_s);
  }

  const WorkHeat& m_heat;
  const PartField& m_field;
  const PartField::Window& m_window;
  CellRange m_part;
  PartMap m_map;
  std::vector<float> m_between, m_now;
};

}  // namespace

PartMap windowMap(const WorkHeat& heat, int times, const std::stop_token& stop) { return WindowMapMaker(heat).make(times, stop); }

}  // namespace bw
