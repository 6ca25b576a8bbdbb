// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/job_result.h"
#include "core/materials/resolve.h"
#include "core/values/project.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// A piece of the part's face and what lies on it.
struct CoatedArea {
  double area_m2 = 0;
  std::vector<LayerMaterial> coat;
};

/// The areas that a step strips, each with its own coat or the part's. Throws Unusable for an unknown coating.
std::vector<CoatedArea> coatedAreas(const Project& project, const Step& step, const Library& shipped);

/// Mass of the layers that are not kept: thickness x density x area, likely values.
double coatMass_kg(const std::vector<CoatedArea>& areas);

/// Fresh air that would thin out that much fume to a limit. Nearly always more than any fan moves: fume is caught at the head.
double dilution_m3_s(double fume_kg_s, double limit_kg_m3);

/// Everything removed counts as fume, at an even rate over the beam time. Of the mass that is not kept so large a share goes; nothing where
/// that is not known.
AirResult air(const std::vector<CoatedArea>& areas, const Metal& metal, const Part& part, std::optional<double> removedFraction,
              std::optional<double> beamTime_s);

}  // namespace bw
