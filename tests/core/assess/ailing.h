// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/core/assess/examples.h"

namespace bw::test {

/// Projects that have something to mend.
inline std::vector<Variation> ailing() {
  return {
      {"too few passes",
       [](Project& p) {
         p.coat.resize(1);
         p.coat[0].thickness_m = Range::exact(200e-6);
       }},
      {"uneven edges", [](Project& p) { settingsOf(p).stepOver_m = 5.9e-3; }},
      {"too hot",
       [](Project& p) {
         p.part.limits = {{"back_face_C", 30}};
       }},
      {"melting",
       [](Project& p) {
         p.part.finish = Finish::Untouched;
         settingsOf(p).repetitionRate_Hz = 200e3;
       }},
      {"beyond the machine",
       [](Project& p) {
         settingsOf(p).scanSpeed_m_s = 20;
         settingsOf(p).powerFraction = 1.5;
       }},
      {"pulses too weak",
       [](Project& p) {
         settingsOf(p).repetitionRate_Hz = 800e3;
         settingsOf(p).powerFraction = 0.2;
       }},
  };
}

inline int failingIn(const Assessment& assessment) {
  return static_cast<int>(std::ranges::count(assessment.verdict, Status::Fails, &VerdictRow::status));
}

/// Too hot for what is behind it, and striped.
inline Project hotAndUneven() {
  Project project = smallProject();
  project.part.finish = Finish::Any;
  project.coat.resize(1);
  project.coat[0].coating = "alkyd-dark";
  project.coat[0].thickness_m = Range::exact(20e-6);
  settingsOf(project).stepOver_m = 6.3e-3;
  settingsOf(project).passes = 4;
  project.part.limits = {{"back_face_C", *assessed(project).thermal.back_C - 4}};
  return project;
}

}  // namespace bw::test
