// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/measure_verb.h"

#include "app/command_line.h"
#include "app/outputs.h"
#include "core/files/file_io.h"
#include "core/files/project_file.h"
#include "core/learn/measurements_file.h"

#include <filesystem>

namespace bw {

namespace {

constexpr const char* fileFormat =
    "FILE holds {\"format\": \"barewright-measurements\", \"version\": 1, \"machine\": {as in a project}} and any of:\n"
    "  \"marks\": [{\"focus_offset_mm\": 0, \"readings\": [{\"pulse_energy_mJ\": 0.3, \"width_um\": 52, \"uncertainty_um\": 4}]}]\n"
    "     on burn paper or foil; for lines \"power_W\" and \"speed_mm_s\", or \"power_W\" alone at one speed; width 0: no mark\n"
    "  \"diameters\": [{\"focus_offset_mm\": -3, \"diameter_um\": 151, \"uncertainty_um\": 6}]   1/e2, known otherwise\n"
    "  \"widths\", \"heights\": [{\"dialled_mm\": 40, \"measured_mm\": 38.5, \"uncertainty_mm\": 0.2}]\n"
    "  \"frame_times\": [{\"width_mm\": 30, \"scan_speed_mm_s\": 6000, \"lines\": 141, \"frame_time_ms\": 740, \"uncertainty_ms\": 5,\n"
    "     \"one_way\": false}]   of a raster; or \"lines_per_s\"\n"
    "  \"powers\": [{\"dialled_percent\": 100, \"measured_W\": 255, \"uncertainty_W\": 2, \"before_optics_W\": 270}]\n"
    "  \"rates\": [{\"pulse_duration_ns\": 180, \"readings\": [{\"repetition_rate_kHz\": 20, \"measured_W\": 40, \"uncertainty_W\": 1}]}]\n"
    "  \"meter_uncertainty_percent\": 3, \"checked_on\": \"2025-04-30\"\n"
    "An uncertainty is half the span that holds nine in ten readings; all may be left out. Nothing is changed: the proposal lists the old\n"
    "value, the likely new one with its range, and the measurement behind it.";

}  // namespace

CLI::App* addMeasure(CLI::App& app, MeasureArguments& arguments) {
  CLI::App* verb = app.add_subcommand("measure", "Tell a machine's properties from what was measured on it");
  verb->add_option("FILE", arguments.file, "Measurements, JSON")->required();
  verb->add_option("--json", arguments.json, "Write every result as JSON; - is standard output");
  verb->footer(fileFormat);
  return verb;
}

int measureFile(const MeasureArguments& arguments) {
  const auto& [file, json] = arguments;
  std::error_code ignored;
  if (!json.empty() && std::filesystem::equivalent(json, file, ignored)) {
    throw FileError(shownPath(json) + ": is the file of the measurements itself; another file is accepted");
  }
  const std::string text = readWholeFile(file);
  Proposal proposal;
  try {
    const MeasuredMachine measured = readMeasurements(text);
    proposal = proposeMachine(measured.machine, measured.measurements);
  } catch (const FileError& error) {
    throw FileError(shownPath(file) + ": " + error.what());
  }
  if (!json.empty()) write({{json, proposalJson(proposal)}});
  if (json != "-") print(proposalTable(proposal));
  return Done;
}

}  // namespace bw
