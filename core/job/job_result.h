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

/// What a number of passes takes.
struct JobNeeds {
  double beamTime_s = 0;
  double totalTime_s = 0;
  std::optional<double> cost;
};

/// Of the passes that are planned; `needed` of those that are needed, nothing where it never clears.
struct JobResult {
  double area_m2 = 0;
  std::optional<double> beamTime_s;
  std::optional<double> totalTime_s;
  std::optional<double> energy_J;  // from the supply
  std::optional<double> cost;
  std::vector<CostItem> costItems;
  std::optional<double> secondsPerA4;
  std::optional<JobNeeds> needed = {};
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
