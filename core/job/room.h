// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/job/job_result.h"
#include "core/materials/resolve.h"
#include "core/values/project.h"
#include "core/values/status.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// Temperature at and below which air wets what it meets: Magnus formula, b g / (a - g) with g = ln(humidity) + a T / (b + T), a = 17.625,
/// b = 243.04 K (Alduchov and Eskridge, J. Appl. Meteorol. 35 (1996) 601, eq. 21, from memory), T from -40 to 50 degrees. Nothing for dry
/// air or outside that range.
std::optional<double> dewPoint_C(double air_C, double humidity);

/// One thing about the room, its extraction or its people that was entered or is missing. Never better than near limit: nothing that is
/// entered makes the work safe.
struct RoomFinding {
  Status status = Status::Near;
  std::string message;
  std::string remedy;
};

/// The extraction that is planned, against what the coat and the metal give off; nothing where none is planned.
std::vector<RoomFinding> extractionFindings(const Plan& plan, const std::vector<LayerMaterial>& coat, const Metal& metal);

/// Eyewear and masks against the people in the room and what the beam calls for; nothing where nothing was entered.
std::vector<RoomFinding> peopleFindings(const Site& site, const EyesResult& eyes);

/// Both, people first.
std::vector<RoomFinding> roomFindings(const Project& project, const Plan& plan, const std::vector<LayerMaterial>& coat, const Metal& metal,
                                      const EyesResult& eyes);

}  // namespace bw
