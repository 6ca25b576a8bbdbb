// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"

#include <algorithm>
#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

namespace bw::test {

/// The example of the file format: three layers, one pulsed machine, one plan.
inline Project exampleProject() {
  return openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/tests/data/project_v1.bwright", shippedLibrary());
}

/// The sample that ships with the program.
inline Project sampleProject() {
  return openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/carriage-side-panel.bwright", shippedLibrary());
}

/// The example with a part and a frame so small that an assessment takes milliseconds.
inline Project smallProject() {
  Project project = exampleProject();
  project.part.size_m = {0.3, 0.2};
  Settings& s = project.plans[0].settings;
  s.width_m = 6e-3;
  s.height_m = 2e-3;
  s.stepOver_m = 5e-3;
  s.travelSpeed_m_s = 0.06;
  return project;
}

inline Settings& settingsOf(Project& project) { return project.plans[0].settings; }

inline void makeContinuous(Project& project) {
  Machine& machine = project.machines[0];
  machine.kind = MachineKind::Continuous;
  machine.repetitionRate_Hz = {0, 0};
  machine.pulseDurations_s.clear();
  machine.maxPulseEnergy_J.clear();
}

inline Assessment assessed(const Project& project) { return assess(project, "", shippedLibrary()); }

inline Assessment deep(const Project& project) { return inDepth(project, shippedLibrary(), assessed(project)); }

/// Of the small project as it is.
inline const Assessment& smallInDepth() {
  static const Assessment deepened = deep(smallProject());
  return deepened;
}

inline const VerdictRow& rowOf(const Assessment& assessment, const std::string& check) {
  const auto row = std::ranges::find(assessment.verdict, check, &VerdictRow::check);
  if (row == assessment.verdict.end()) throw std::runtime_error("no row " + check);
  return *row;
}

inline bool hasNote(const Assessment& assessment, const std::string& words) {
  return std::ranges::any_of(assessment.notes, [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

/// The small project changed in one way, by name.
struct Variation {
  std::string name;
  std::function<void(Project&)> change;
};

inline std::vector<Variation> variations() {
  return {
      {"as it is", [](Project&) {}},
      {"half duty", [](Project& p) { settingsOf(p).dutyFraction = 0.5; }},
      {"out of focus", [](Project& p) { settingsOf(p).focusOffset_m = 4e-3; }},
      {"pulses at their ceiling", [](Project& p) { settingsOf(p).repetitionRate_Hz = 60e3; }},
      {"beam off in turns", [](Project& p) { settingsOf(p).beamOffInTurns = true; }},
      {"trimmed one way",
       [](Project& p) {
         settingsOf(p).edgeTrim_m = 0.5e-3;
         settingsOf(p).oneWay = true;
       }},
      {"at 37 degrees", [](Project& p) { settingsOf(p).travelAngle_rad = 0.6457718; }},
      {"along the lines",
       [](Project& p) {
         settingsOf(p).travelAngle_rad = 0;
         settingsOf(p).stepOver_m = 1.9e-3;
       }},
      {"line", [](Project& p) { settingsOf(p).pattern = Pattern::Line; }},
      {"crossed",
       [](Project& p) {
         settingsOf(p).pattern = Pattern::Crossed;
         settingsOf(p).travelSpeed_m_s = 0.01;
       }},
      {"circles", [](Project& p) { settingsOf(p).pattern = Pattern::Circles; }},
      {"spiral", [](Project& p) { settingsOf(p).pattern = Pattern::Spiral; }},
      {"two swings",
       [](Project& p) {
         settingsOf(p).pattern = Pattern::TwoSine;
         settingsOf(p).oscillationRate_Hz = 150;
       }},
      {"sine",
       [](Project& p) {
         settingsOf(p).pattern = Pattern::Sine;
         settingsOf(p).oscillationRate_Hz = 150;
       }},
      {"super-Gaussian", [](Project& p) { p.machines[0].beamProfile = BeamProfile::SuperGaussian; }},
      {"flat top", [](Project& p) { p.machines[0].beamProfile = BeamProfile::FlatTop; }},
      {"ideal head", [](Project& p) { p.machines[0].scan.turnaround_s = 0; }},
      {"bare metal", [](Project& p) { p.coat.clear(); }},
      {"three passes with a pause",
       [](Project& p) {
         settingsOf(p).passes = 3;
         settingsOf(p).pause_s = 40;
       }},
      {"continuous", [](Project& p) { makeContinuous(p); }},
      {"continuous sine",
       [](Project& p) {
         makeContinuous(p);
         settingsOf(p).pattern = Pattern::Sine;
         settingsOf(p).oscillationRate_Hz = 150;
       }},
  };
}

inline Project varied(const Variation& variation) {
  Project project = smallProject();
  variation.change(project);
  return project;
}

}  // namespace bw::test
