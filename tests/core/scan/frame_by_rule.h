// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/scan/frame.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw::test {

struct Beam {
  Point at = Point::Zero();
  bool lit = false;
};

/// Where the rules of the file format put the beam at time t of a frame, worked out anew from t alone: the check of the frames built
/// piece by piece. All but the spiral, whose pieces keep the law in place, but in time only on average; a crossed frame is two rasters.
class FrameByRule {
 public:
  FrameByRule(const Settings& settings, double turnaround_s) : m_s(settings), m_turn(turnaround_s) {}

  static int lines(double stack_m, double spacing_m) { return static_cast<int>(std::floor(stack_m / spacing_m + 1e-9)) + 1; }

  double period_s() const {
    switch (m_s.pattern) {
      case Pattern::Sine: return 1 / *m_s.oscillationRate_Hz;
      case Pattern::TwoSine:
        return swings() / *m_s.oscillationRate_Hz;
      case Pattern::Circles:
        return circlesTime();
      case Pattern::Line: return 2 * rowTime(m_s.width_m);
      case Pattern::Crossed: return rasterTime(m_s.width_m, m_s.height_m) + rasterTime(m_s.height_m, m_s.width_m);
      default: return rasterTime(m_s.width_m, m_s.height_m);
    }
  }

  Beam at(double t) const {
    switch (m_s.pattern) {
      case Pattern::Sine: {
        const double x = m_s.width_m / 2 * std::sin(2 * std::numbers::pi * *m_s.oscillationRate_Hz * t);
        return {{x, 0}, std::abs(x) <= m_s.width_m / 2 - m_s.edgeTrim_m};
      }
      case Pattern::TwoSine: {
        const double slow = 2 * std::numbers::pi * *m_s.oscillationRate_Hz / swings();
        const double x = m_s.width_m / 2 * std::sin(slow * swings() * t);
        const double phase = swings() % 2 == 1 ? std::numbers::pi / 2 / swings() : 0;
        return {{x, m_s.height_m / 2 * std::sin(slow * t + phase)}, std::abs(x) <= m_s.width_m / 2 - m_s.edgeTrim_m};
      }
      case Pattern::Circles:
        return onCircles(t);
      case Pattern::Line: {
        const bool back = t >= rowTime(m_s.width_m);
        return onRow(t - (back ? rowTime(m_s.width_m) : 0), m_s.width_m, back ? -1 : 1, 0, 0, back && m_s.oneWay);
      }
      case Pattern::Crossed: {
        const double first = rasterTime(m_s.width_m, m_s.height_m);
        if (t < first) return onRaster(t, m_s.width_m, m_s.height_m);
        const Beam turned = onRaster(t - first, m_s.height_m, m_s.width_m);
        return {{turned.at.y(), turned.at.x()}, turned.lit};
      }
      default: return onRaster(t, m_s.width_m, m_s.height_m);
    }
  }

 private:
  double rowTime(double length_m) const { return length_m / m_s.scanSpeed_m_s + m_turn; }
  double rasterTime(double length_m, double stack_m) const {
    return lines(stack_m, m_s.lineSpacing_m) * rowTime(length_m) * (m_s.oneWay ? 2 : 1);
  }

  int swings() const { return std::max(1, static_cast<int>(m_s.height_m / m_s.lineSpacing_m + 1e-9)); }

  /// The head's acceleration 2 v/T bounds v^2/R.
  double speedOnCircle(double radius_m) const {
    return m_turn > 0 ? std::min(m_s.scanSpeed_m_s, std::sqrt(2 * m_s.scanSpeed_m_s / m_turn * radius_m)) : m_s.scanSpeed_m_s;
  }
  bool isCircle(double radius_m) const { return radius_m > m_s.lineSpacing_m / 4 * (1 - 1e-6); }

  double circlesTime() const {
    double time = -m_turn;
    for (double r = m_s.width_m / 2; isCircle(r); r -= m_s.lineSpacing_m) time += 2 * std::numbers::pi * r / speedOnCircle(r) + m_turn;
    return time;
  }

  Beam onCircles(double t) const {
    for (double r = m_s.width_m / 2; isCircle(r); r -= m_s.lineSpacing_m) {
      const double angle = t * speedOnCircle(r) / r;
      if (angle < 2 * std::numbers::pi) return {{r * std::cos(angle), r * std::sin(angle)}, true};
      t -= 2 * std::numbers::pi * r / speedOnCircle(r);
      if (t < m_turn) return {{r - m_s.lineSpacing_m * t / m_turn, 0}, !m_s.beamOffInTurns && m_s.edgeTrim_m == 0};
      t -= m_turn;
    }
    return {};
  }

  Beam onRaster(double t, double length_m, double stack_m) const {
    const int rowsPerLine = m_s.oneWay ? 2 : 1;
    const int row = static_cast<int>(t / rowTime(length_m)), line = row / rowsPerLine;
    const double first = -0.5 * (lines(stack_m, m_s.lineSpacing_m) - 1) * m_s.lineSpacing_m;
    const double into = t - row * rowTime(length_m);
    if (!m_s.oneWay) return onRow(into, length_m, line % 2 == 0 ? 1 : -1, first + line * m_s.lineSpacing_m, m_s.lineSpacing_m, false);
    const bool returning = row % 2 == 1;
    return onRow(into, length_m, returning ? -1 : 1, first + (line + (returning ? 1 : 0)) * m_s.lineSpacing_m,
                 returning ? 0 : m_s.lineSpacing_m, returning);
  }

  /// One line and the turn after it.
  Beam onRow(double t, double length_m, double direction, double y, double advance_m, bool dark) const {
    const double gone = m_s.scanSpeed_m_s * t, u = t - length_m / m_s.scanSpeed_m_s;
    if (u < 0) {
      const bool trimmed = gone < m_s.edgeTrim_m || length_m - gone < m_s.edgeTrim_m;
      return {{direction * (gone - length_m / 2), y}, !dark && !trimmed};
    }
    const double x = length_m / 2 + m_s.scanSpeed_m_s * (u - u * u / m_turn);
    return {{direction * x, y + advance_m * u / m_turn}, !(m_s.beamOffInTurns || m_s.edgeTrim_m > 0 || m_s.oneWay)};
  }

  Settings m_s;
  double m_turn;
};

/// A small frame of that pattern whose turns and lines take awkward times.
inline Settings smallFrameSettings(Pattern pattern) {
  Settings settings;
  settings.pattern = pattern;
  settings.width_m = 6.1e-3;
  settings.height_m = 1.73e-3;
  settings.scanSpeed_m_s = 7.3;
  settings.lineSpacing_m = 0.21e-3;
  settings.oscillationRate_Hz = 173;
  return settings;
}

inline ScanHead headWith(double turnaround_s) {
  ScanHead head;
  head.turnaround_s = turnaround_s;
  return head;
}

}  // namespace bw::test
