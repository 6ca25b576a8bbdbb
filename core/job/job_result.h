// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/clearance.h"

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

/// Another process than the beam, for comparison; see other_ways.h.
struct OtherWay {
  std::string name;
  double work_s = 0;  // with hands on, set-up included
  double wait_s = 0;  // for it to act
  std::optional<double> cost;
  std::string drawback;
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
  std::vector<OtherWay> otherWays = {};  // the quickest first
};

enum class Harm { Fire, Lungs, Filter, Part };

/// What may go wrong with people, filters or the part, and what is done about it.
struct Hazard {
  Harm harm = Harm::Lungs;
  std::string text;  // whole sentences
  bool operator==(const Hazard&) const = default;
};

/// Something that has to be settled before the beam is on.
struct Precaution {
  std::string id;              // the same as long as it concerns the same: "fuel-behind", "test-lead: maroon, cream"
  std::string what;            // "fuel behind the metal"
  std::string todo;            // whole sentences
  bool stops = false;          // nothing is begun, nor anything else answered, before it is settled or waived by name
  std::string component = {};  // of a test: "lead"
  std::optional<Clearance> cleared = {};
};

struct AirResult {
  std::optional<double> removed_kg;
  std::optional<double> fume_kg_s;
  std::vector<Hazard> hazards;  // fire first
};

struct EyesResult {
  std::optional<double> hazardDistance_m;
  std::optional<double> diffuseDistance_m;
  std::optional<double> opticalDensity;
};

}  // namespace bw
