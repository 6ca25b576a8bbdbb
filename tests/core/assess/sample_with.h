// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "tests/core/assess/examples.h"

#include <sstream>

namespace bw::test {

inline std::vector<std::string> splitAt(char at, const std::string& text) {
  std::vector<std::string> parts;
  std::istringstream stream(text);
  for (std::string part; std::getline(stream, part, at);) parts.push_back(part);
  return parts;
}

/// The first sample's part and machines, one pass, another coat: coatings and thicknesses in um, top first, as "alkyd-white
/// 40/primer-red-oxide 25", or "sample" for its own. Ways: "pulsed"; "wide" and "tight", a continuous beam far out of focus and nearly in it.
inline Project sampleWith(const std::string& way, const std::string& coat, double travel_mm_s) {
  Project project = sampleProject();
  if (coat != "sample") {
    project.coat.clear();
    for (const std::string& text : splitAt('/', coat)) {
      const std::vector<std::string> words = splitAt(' ', text);
      Layer layer;
      layer.name = layer.coating = words.at(0);
      layer.thickness_m = Range::exact(std::stod(words.at(1)) * 1e-6);
      project.coat.push_back(layer);
    }
  }
  project.plans = {project.plans[way == "pulsed" ? 0 : 1]};
  Settings& s = settingsOf(project);
  s.travelSpeed_m_s = travel_mm_s * 1e-3;
  s.passes = 1;
  if (way == "pulsed") s.powerFraction = 2.0 / 3;
  if (way == "tight") {
    s.powerFraction = 0.9;
    s.focusOffset_m = 8e-3;
    s.scanSpeed_m_s = 20;
    s.width_m = 60e-3;
    s.stepOver_m = 55e-3;
  }
  return project;
}

}  // namespace bw::test
