// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/measurements_file.h"

#include "core/files/project_file.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

using namespace bw;

namespace {

std::string fileWith(const std::string& measured) {
  return R"({"format": "barewright-measurements", "version": 1,
    "machine": {"id": "bench-300", "kind": "pulsed", "rated_power_W": 300, "M2": 1.8, "spot_diameter_um": 120,
                "scan": {"max_width_mm": 80, "max_speed_mm_s": 15000}})" +
         (measured.empty() ? "" : ", " + measured) + "}";
}

void checkRefused(const std::string& text, const std::string& words) {
  INFO(text);
  try {
    readMeasurements(text);
    FAIL("was read");
  } catch (const FileError& error) {
    CHECK_THAT(error.what(), Catch::Matchers::Contains(words));
  }
}

}  // namespace

TEST_CASE("Measurements are read into SI", "[learn]") {
  const MeasuredMachine file = readMeasurements(fileWith(R"(
    "marks": [{"focus_offset_mm": -2, "readings": [{"pulse_energy_mJ": 0.3, "width_um": 52, "uncertainty_um": 4}]},
              {"readings": [{"power_W": 20, "speed_mm_s": 500, "width_um": 0}]}],
    "diameters": [{"focus_offset_mm": 3, "diameter_um": 151}],
    "widths": [{"dialled_mm": 40, "measured_mm": 38.5, "uncertainty_mm": 0.2}],
    "frame_times": [{"width_mm": 30, "scan_speed_mm_s": 6000, "lines": 141, "frame_time_ms": 740, "uncertainty_ms": 5},
                    {"width_mm": 30, "scan_speed_mm_s": 6000, "lines_per_s": 190, "one_way": true}],
    "powers": [{"dialled_percent": 85, "measured_W": 215, "before_optics_W": 230}],
    "rates": [{"pulse_duration_ns": 180, "readings": [{"repetition_rate_kHz": 20, "measured_W": 40}]}],
    "meter_uncertainty_percent": 3, "checked_on": "2025-04-30")"));
  const Measurements& m = file.measurements;
  CHECK(file.machine.spotDiameter_m == 120e-6);
  REQUIRE(m.marks.size() == 2);
  CHECK(m.marks[0].focusOffset_m == -2e-3);
  CHECK(m.marks[0].marks.at(0) == Mark{0.3e-3, {}, {}, {52e-6, 4e-6}});
  CHECK(m.marks[1].marks.at(0) == Mark{{}, 20, 0.5, {0, {}}});
  CHECK(m.diameters.at(0) == Plane{3e-3, {151e-6, {}}});
  CHECK(m.widths.at(0) == Dialled{40e-3, {38.5e-3, 0.2e-3}});
  CHECK(m.frameTimes.at(0).lines == 141);
  CHECK(m.frameTimes.at(0).frameTime_s == 0.74);
  CHECK(m.frameTimes.at(0).uncertainty_s == 5e-3);
  CHECK(m.frameTimes.at(1).linesPerSecond == 190);
  CHECK(m.frameTimes.at(1).oneWay);
  CHECK(m.powers.at(0) == PowerReading{0.85, {215, {}}, 230});
  CHECK(m.rates.at(0).pulseDuration_s == 180e-9);
  CHECK(m.rates.at(0).readings.at(0) == RateReading{20e3, {40, {}}});
  CHECK(m.meterUncertainty == 0.03);
  CHECK(m.checkedOn == "2025-04-30");
}

TEST_CASE("A bad file of measurements is refused with its place", "[learn]") {
  checkRefused("", "ends too early");
  checkRefused("{}", "barewright-measurements");
  checkRefused(std::string(5000, '['), "nested");
  checkRefused(fileWith(R"("mark": [])"), "$.mark: no such key (did you mean \"marks\"?)");
  checkRefused(fileWith(R"("powers": [{"dialled_percent": 85, "measured_W": 215, "before_W": 3}])"), "$.powers[0].before_W: no such key");
  checkRefused(fileWith(R"("powers": [{"dialled_percent": 85}])"), "$.powers[0].measured_W: missing");
  checkRefused(fileWith(R"("powers": [{"dialled_percent": 85, "measured_W": -5}])"), "$.powers[0].measured_W: -5 is not a power");
  checkRefused(fileWith(R"("powers": [{"dialled_percent": 85, "measured_W": "215"}])"), "$.powers[0].measured_W");
  checkRefused(fileWith(R"("frame_times": [{"width_mm": 30, "scan_speed_mm_s": 6000}])"), "$.frame_times[0].lines: missing");
  checkRefused(fileWith(R"("widths": 5)"), "$.widths: 5 is not a list");
}

TEST_CASE("A proposal is written with ranges, reasons and the machine", "[learn]") {
  const MeasuredMachine file = readMeasurements(fileWith(R"(
    "marks": [{"readings": [{"pulse_energy_mJ": 0.3, "width_um": 52}, {"pulse_energy_mJ": 0.6, "width_um": 90},
                            {"pulse_energy_mJ": 1.2, "width_um": 119}, {"pulse_energy_mJ": 2, "width_um": 137}]}],
    "powers": [{"dialled_percent": 85, "measured_W": 215}])"));
  const Proposal proposal = proposeMachine(file.machine, file.measurements);
  const auto json = nlohmann::json::parse(proposalJson(proposal));
  REQUIRE(json["changes"].size() == 1);
  CHECK(json["changes"][0]["property"] == "spot_diameter_um");
  CHECK(json["changes"][0]["old"] == 120);
  const auto range = json["changes"][0]["new"].get<std::vector<double>>();
  REQUIRE(range.size() == 3);
  CHECK((range[0] < range[1] && range[1] < range[2]));
  CHECK(range[1] == Catch::Approx(130).margin(3));
  CHECK(json["proposed_machine"]["spot_diameter_um"].get<double>() == Catch::Approx(range[1]));
  CHECK(json["spots"][0]["threshold_mJ"].size() == 3);
  CHECK_THAT(json["power"]["problem"].get<std::string>(), Catch::Matchers::Contains("one reading does not tell"));
  CHECK(json["caustic"].is_null());
  const std::string table = proposalTable(proposal);
  CHECK_THAT(table, Catch::Matchers::Contains("spot diameter: 120 µm -> 1"));
  CHECK_THAT(table, Catch::Matchers::Contains("Power at the part: one reading does not tell"));
}
