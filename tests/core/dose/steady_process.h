// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/repeat_cell.h"

namespace bw::test {

/// Settings, head and beam of a steady process, and what follows from them.
struct SteadyProcess {
  Settings settings;
  double turnaround_s = 250e-6;
  Emission emission{true, 240e3, 255};
  double radius_m = 60e-6;

  Frame frame() const {
    ScanHead head;
    head.turnaround_s = turnaround_s;
    return buildFrame(settings, head);
  }
  double advance_m() const { return settings.travelSpeed_m_s * frame().period_s(); }
  RepeatCell cell() const { return {settings.stepOver_m, advance_m()}; }
  Travel travel(const Stroke& stroke = {}) const { return Travel(settings.travelSpeed_m_s, settings.travelAngle_rad, stroke); }
  std::vector<DabRow> rows(const Stroke& stroke = {}) const { return rowsOf(frame(), travel(stroke), emission, radius_m); }
  LitBounds lit() const { return litBounds(frame(), travel()); }
  DoseMap map(double perRadius = 4) const {
    return steadyMap(rows(), SpotProfile(BeamProfile::Gaussian), roundSpot(radius_m), cell(), gridOf(cell(), radius_m / perRadius));
  }
};

/// Lines 3 mm long, 0.15 mm apart, twelve to a frame, that a hand carries across them.
inline SteadyProcess smallRaster() {
  SteadyProcess process;
  Settings& s = process.settings;
  s.width_m = 3e-3;
  s.height_m = 1.65e-3;
  s.scanSpeed_m_s = 9;
  s.lineSpacing_m = 0.15e-3;
  s.travelSpeed_m_s = 0.1;
  s.stepOver_m = 2.7e-3;
  return process;
}

}  // namespace bw::test
