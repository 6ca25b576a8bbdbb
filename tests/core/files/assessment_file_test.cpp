// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/assessment_file.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <limits>
#include <sstream>

using namespace bw;

namespace {

/// An assessment with recognisable numbers in it.
Assessment someAssessment() {
  Assessment assessment;
  assessment.plan = "first guess";
  assessment.machine = "bench-300";
  assessment.answer = "Comes off in 4 passes, 95 min; back face 150 of 150 °C; prove on a patch first";
  assessment.beam = {1.0625e-3, 255, 5900, 120e-6, 5.9e-3, 1.88e5, 1.04e12};
  assessment.overlap.pulseStep_m = 37.5e-6;
  assessment.overlap.framePeriod_s = 0.6755;
  assessment.dose = DoseResult{1e6, 0.5e6, 2e6, 0.6e6, 1.9e6, 0.2, 1.4, 0.1, 0.01};
  assessment.removal.computed = true;
  assessment.removal.passesNeeded = 4;
  assessment.removal.rate_m2_s = 5.8e-5;
  assessment.removal.layers.resize(2);
  assessment.removal.layers[0].name = "maroon";
  assessment.removal.layers[0].thickness_m = assessment.removal.layers[0].removed_m = 45e-6;
  assessment.removal.layers[0].thresholdFluence_J_m2 = 1.2e4;
  assessment.removal.layers[0].passes = 2;
  assessment.removal.layers[1].name = "zinc";
  assessment.removal.layers[1].kept = true;
  assessment.thermal.back_C = 150;
  assessment.thermal.limits = {{"back face", "behind the open panel", 150, 150, 0.0, "paint behind, typical", false}};
  assessment.finish.melts = true;
  assessment.job.energy_J = 3.6e6;
  assessment.job.secondsPerA4 = 90;
  assessment.job.costItems = {{"time", 28}};
  assessment.air.removed_kg = 0.03;
  assessment.air.fume_kg_s = 1e-5;
  assessment.air.hazards = {{Harm::Lungs, "Lead: test first"}};
  assessment.verdict = {{"removal", "Comes off?", Status::Near, "in 4 passes", ""}, {"heat", "Cool enough?", Status::Fails, "too hot", "wait"}};
  assessment.workings = {{"back_face", "Back face", "near + part", {"mean power 255 W"}, "closed form"}};
  assessment.findOutNext = {{"total thickness", "gauge at three places", "25 to 170 min becomes 45 to 95"}};
  return assessment;
}

nlohmann::json jsonOf(const Assessment& assessment) { return nlohmann::json::parse(writeAssessment(assessment)); }

}  // namespace

TEST_CASE("The headless result has every key that other programs rely on", "[files]") {
  const std::vector<std::pair<std::string, std::vector<std::string>>> contract{
      {"",
       {"plan", "machine", "beam", "overlap", "dose", "removal", "thermal", "finish", "job", "air", "eyes", "ranges", "verdict",
        "find_out_next", "model"}},
      {"/beam",
       {"pulse_energy_mJ", "mean_power_W", "peak_power_W", "spot_diameter_um", "rayleigh_range_mm", "peak_fluence_J_cm2",
        "peak_irradiance_W_cm2"}},
      {"/overlap",
       {"pulse_step_um", "pulse_overlap", "line_spacing_um", "line_overlap", "pulses_per_spot", "frame_period_ms", "lit_fraction"}},
      {"/dose", {"mean_J_cm2", "min_J_cm2", "max_J_cm2", "p05_J_cm2", "p95_J_cm2", "cv", "edge_ratio", "ripple", "missed_fraction"}},
      {"/removal", {"passes_needed", "cleared_fraction", "layers", "rate_cm2_s", "heat_into_part_fraction"}},
      {"/removal/layers/0", {"name", "thickness_um", "removed_um", "threshold_fluence_J_cm2", "passes"}},
      {"/thermal",
       {"flash_C", "near_C", "front_C", "back_C", "limits", "warp_index", "worst_margin", "front_stripping_C", "front_bare_C",
        "back_stripping_C", "back_bare_C"}},
      {"/thermal/limits/0", {"name", "where", "predicted_C", "limit_C", "margin", "source"}},
      {"/finish", {"melt_fluence_J_cm2", "melts", "melt_depth_um", "etch_um"}},
      {"/job",
       {"area_cm2", "beam_time_s", "total_time_s", "energy_kWh", "cost", "minutes_per_A4", "cost_items", "beam_time_planned_s",
        "total_time_planned_s", "cost_planned", "beam_time_needed_s", "total_time_needed_s", "cost_needed"}},
      {"/air", {"removed_g", "fume_g_min", "hazards"}},
      {"/eyes", {"hazard_distance_m", "diffuse_distance_m", "optical_density"}},
      {"/verdict/0", {"check", "status", "message", "remedy"}},
      {"/workings/0", {"key", "name", "formula", "values", "source"}},
      {"/find_out_next/0", {"what", "how", "narrows"}},
      {"/model", {"version", "notes"}}};
  const auto json = jsonOf(someAssessment());
  for (const auto& [pointer, keys] : contract) {
    const auto& object = json[nlohmann::json::json_pointer(pointer)];
    for (const std::string& key : keys) {
      INFO(pointer << " " << key);
      CHECK(object.contains(key));
    }
  }
}

TEST_CASE("Results leave in the units of their keys", "[files]") {
  const auto json = jsonOf(someAssessment());
  CHECK(json["beam"]["pulse_energy_mJ"] == 1.0625);
  CHECK(json["beam"]["spot_diameter_um"] == 120);
  CHECK(json["beam"]["peak_fluence_J_cm2"] == 18.8);
  CHECK(json["beam"]["peak_irradiance_W_cm2"] == 1.04e8);
  CHECK(json["overlap"]["pulse_step_um"] == 37.5);
  CHECK(json["overlap"]["frame_period_ms"] == 675.5);
  CHECK(json["dose"]["mean_J_cm2"] == 100);
  CHECK(json["removal"]["rate_cm2_s"] == 0.58);
  CHECK(json["removal"]["layers"][0]["thickness_um"] == 45);
  CHECK(json["removal"]["layers"][0]["threshold_fluence_J_cm2"] == 1.2);
  CHECK(json["job"]["energy_kWh"] == 1);
  CHECK(json["job"]["minutes_per_A4"] == 1.5);
  CHECK(json["air"]["removed_g"] == 30);
  CHECK(json["air"]["fume_g_min"] == 0.6);
  CHECK(json["verdict"][0]["status"] == "near");
  CHECK(json["verdict"][1]["status"] == "fails");
}

TEST_CASE("What is not computed is null, and so is what is no number", "[files]") {
  Assessment assessment;
  assessment.beam.peakPower_W = std::numeric_limits<double>::infinity();
  const auto json = jsonOf(assessment);
  for (const char* pointer :
       {"/beam/pulse_energy_mJ", "/beam/peak_power_W", "/dose/mean_J_cm2", "/dose/ripple", "/removal/passes_needed", "/thermal/back_C",
        "/finish/melts", "/job/total_time_s", "/dose/stripe_along", "/air/removed_g", "/job/total_time_needed_s"}) {
    INFO(pointer);
    CHECK(json[nlohmann::json::json_pointer(pointer)].is_null());
  }
  CHECK(json["removal"]["layers"].empty());
  CHECK(json["ranges"].empty());
  CHECK(json["model"]["version"] == modelVersion);
}

TEST_CASE("Ranges of the job say whether they are of the passes planned or of those needed", "[files]") {
  Assessment assessment;
  assessment.job.totalTime_s = 1800;
  assessment.job.needed = JobNeeds{2000, 4000, 20.0};
  Ranges ranges;
  ranges.totalTime_s = Spread{3000, 4100, 6420};
  ranges.plannedTotalTime_s = Spread{1700, 1800, 2000};
  assessment.ranges = ranges;
  const auto json = jsonOf(assessment);
  CHECK(json["job"]["total_time_s"] == json["job"]["total_time_planned_s"]);
  CHECK(json["job"]["total_time_needed_s"] == 4000);
  CHECK(json["job"]["cost_needed"] == 20);
  CHECK(json["ranges"]["job.total_time_s"] == json["ranges"]["job.total_time_needed_s"]);
  CHECK(json["ranges"]["job.total_time_needed_s"][2] == 6420);
  CHECK(json["ranges"]["job.total_time_planned_s"][0] == 1700);
  const std::string table = assessmentTable(assessment);
  CHECK(table.find("50 min to 1 h 45 min") != std::string::npos);  // as the verdict and the window round it
  CHECK(table.find("107 min") == std::string::npos);
  CHECK(table.find("28 min to 33 min") != std::string::npos);
}

TEST_CASE("The table keeps to 80 columns and ends with the cautions", "[files]") {
  Assessment assessment = someAssessment();
  assessment.verdict[0].message += " although this message is much longer than a line can be and so has to go on in the next one";
  std::istringstream lines(assessmentTable(assessment));
  std::string line;
  std::string all;
  while (std::getline(lines, line)) {
    INFO(line);
    CHECK(std::count_if(line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }) <= 80);
    all += line + '\n';
  }
  const auto has = [&](const char* text) { return all.find(text) != std::string::npos; };
  CHECK(has("255 W"));
  CHECK(has("5.90 kW"));
  CHECK(has("18.8 J/cm²"));
  CHECK(has("150 °C of 150 °C"));
  CHECK(has("must stay"));
  CHECK(has("Lead: test first"));
  CHECK(all.find("Cautions") > all.find("Work"));
  CHECK(has("laser safety officer"));
}

TEST_CASE("CSV names its units and uses points and commas", "[files]") {
  DoseMap map;
  map.columns = 2;
  map.rows = 1;
  map.cellAcross_m = map.cellAlong_m = 1e-5;
  map.dose_J_m2 = {1e6f, 2.5e4f};
  CHECK(mapCsv(map) == "x_mm,y_mm,dose_J_cm2\n0.005,0.005,100\n0.015,0.005,2.5\n");
  SwathProfile profile;
  profile.position_m = {-1e-3};
  profile.oneSwath_J_m2 = {1e4};
  profile.summed_J_m2 = {2e4};
  CHECK(profileCsv(profile) == "x_mm,one_swath_J_cm2,summed_J_cm2\n-1,1,2\n");
  ThermalResult thermal;  // each face where it is hottest, at the times of either
  thermal.trace.time_s = {0.5, 1.5};
  thermal.trace.front_C = {150.25, 130.25};
  thermal.backTrace.time_s = {0.5, 1};
  thermal.backTrace.back_C = {90, 100};
  CHECK(traceCsv(thermal) == "time_s,front_C,back_C\n0.5,150.25,90\n1,140.25,100\n1.5,130.25,100\n");
}
