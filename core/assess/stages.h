// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/heat_work.h"
#include "core/removal/passes.h"

namespace bw {

// What each stage depends on, besides the results of stages before it: those count by which they are. Settings that a stage does not look
// at are left at their defaults.

struct ScanInputs {
  Machine machine;
  Settings settings;
  bool operator==(const ScanInputs&) const = default;
};

struct DoseInputs {
  std::shared_ptr<const ScanWork> scan;
  std::vector<Area> areas;
  SceneRequest scene;
  std::optional<Hand> hand;  // for a scene
  bool operator==(const DoseInputs&) const = default;
};

struct DoseFound {
  std::optional<DoseResult> dose;
  std::string whyNoDose;
  std::shared_ptr<const DoseMap> map, stillMap, sceneMap;
  SwathProfile profile;
  std::vector<std::string> notes;
};

struct HeatInputs {
  std::shared_ptr<const ScanWork> scan;
  HeatInput input;
  double boiling_C = 0;  // hotter places are not sought closely
  bool operator==(const HeatInputs&) const = default;
};

struct StrippingInputs {
  std::shared_ptr<const BareHeat> bare;
  std::vector<double> shares;  // of each stroke, over the bare metal's
  bool operator==(const StrippingInputs&) const = default;
};

struct PlacesInputs {
  std::shared_ptr<const ScanWork> scan;
  double strokeTime_s = 0;
  PassesByChance chance;
  bool operator==(const PlacesInputs&) const = default;
};

struct RemovalInputs {
  std::shared_ptr<const std::vector<Place>> places;
  std::vector<LayerMaterial> coat;
  BareMetal metal;
  double thickness_m = 0;
  PassRhythm rhythm;
  bool operator==(const RemovalInputs&) const = default;
};

struct RemovalFound {
  PassesOutcome outcome;
  std::shared_ptr<const std::vector<Place>> places;  // the last to clear first
};

}  // namespace bw
