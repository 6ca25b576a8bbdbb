// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/machine_setup.h"

#include <string>
#include <string_view>

namespace bw {

/// A machine and what was measured on it, as they stand in a file of format "barewright-measurements", version 1:
///
///   {"format": "barewright-measurements", "version": 1,
///    "machine": {...},                                    as in a project file
///    "marks": [{"focus_offset_mm": 0, "readings": [       on burn paper or foil; width 0: no mark
///      {"pulse_energy_mJ": 0.3, "width_um": 52, "uncertainty_um": 4}, ...]}],
///                                                         lines: "power_W" and "speed_mm_s", or "power_W" alone at one speed
///    "diameters": [{"focus_offset_mm": -3, "diameter_um": 151, "uncertainty_um": 6}, ...],   1/e2, known otherwise
///    "widths": [{"dialled_mm": 40, "measured_mm": 38.5, "uncertainty_mm": 0.2}, ...],
///    "heights": [...],                                    the same
///    "frame_times": [{"width_mm": 30, "scan_speed_mm_s": 6000, "lines": 141, "frame_time_ms": 740, "uncertainty_ms": 5,
///      "one_way": false}, ...],                           of a raster; or "lines_per_s" for lines and time
///    "powers": [{"dialled_percent": 100, "measured_W": 255, "uncertainty_W": 2, "before_optics_W": 270}, ...],
///    "rates": [{"pulse_duration_ns": 180, "readings": [{"repetition_rate_kHz": 20, "measured_W": 40, "uncertainty_W": 1}, ...]}],
///    "meter_uncertainty_percent": 3, "checked_on": "2025-04-30"}
///
/// Every list and every uncertainty may be left out. Uncertainties are half the span that holds nine in ten readings.
struct MeasuredMachine {
  Machine machine;
  Measurements measurements;
};

/// Throws FileError with the first problem and how many more there are.
MeasuredMachine readMeasurements(std::string_view text);

/// Every result with its range, what would change, and the machine as proposed. Ranges are [low, likely, high]; null: nothing learnt, with
/// the sentence that says why under "problem".
std::string proposalJson(const Proposal& proposal);

/// The same for people.
std::string proposalTable(const Proposal& proposal);

}  // namespace bw
