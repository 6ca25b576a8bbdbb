// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace bw {

struct CostItem {
  std::string name;
  double amount = 0;
};

struct JobResult {
  double area_m2 = 0;
  std::optional<double> beamTime_s;
  std::optional<double> totalTime_s;
  std::optional<double> energy_J;  // from the supply
  std::optional<double> cost;
  std::vector<CostItem> costItems;
  std::optional<double> secondsPerA4;
};

struct AirResult {
  std::optional<double> removed_kg;
  std::optional<double> fume_kg_s;
  std::vector<std::string> hazards;
};

struct EyesResult {
  std::optional<double> hazardDistance_m;
  std::optional<double> diffuseDistance_m;
  std::optional<double> opticalDensity;
};

}  // namespace bw
