// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "tests/core/files/random_project.h"
#include "tests/core/files/small_library.h"
#include "tests/support/catch.h"

#include <clocale>

using namespace bw;
using namespace bw::test;

namespace {

const Library smallOne = smallLibrary();

Project readGood(const std::string& text) {
  const ReadResult read = readProject(text, smallOne);
  for (const Problem& problem : read.problems) UNSCOPED_INFO(problem.path << ": " << problem.message);
  REQUIRE(read.problems.empty());
  return read.project;
}

}  // namespace

TEST_CASE("The first version's sample reads in SI units", "[files]") {
  const Project project = readGood(sampleText());
  CHECK(project.name == "Carriage side panel");
  CHECK(project.part.thickness_m == Range::exact(1.2e-3));
  CHECK(project.part.size_m == std::array<double, 2>{0.6, 0.4});
  CHECK(project.part.limits.at("back_face_C") == 150);
  CHECK(project.part.areas.at(0).area_m2 == 0.21);
  CHECK(project.part.areas.at(1).tilt_rad == Catch::Approx(0.872664625997).epsilon(1e-12));  // 50 degrees
  CHECK(project.part.areas.at(1).access == Access::Tight);
  REQUIRE(project.coat.size() == 3);
  CHECK(project.coat[1].thickness_m == Range{45e-6, 60e-6, 80e-6});
  CHECK(project.coat[1].overrides.absorptance == Range::exact(0.2));
  const Machine& machine = project.machines.at(0);
  CHECK(machine.repetitionRate_Hz == std::array<double, 2>{10e3, 800e3});
  CHECK(machine.pulseDurations_s == std::vector<double>{45e-9, 90e-9, 180e-9, 270e-9});
  CHECK(machine.maxPulseEnergy_J == std::vector<double>{2e-3});
  CHECK(machine.scan.turnaround_s == 250e-6);
  CHECK(machine.supplyPower_W == 1100);
  const Settings& settings = project.plans.at(0).settings;
  CHECK(settings.powerFraction == 0.85);
  CHECK(settings.scanSpeed_m_s == 9);
  CHECK(settings.travelAngle_rad == Settings{}.travelAngle_rad);
  CHECK(settings.stepOver_m == 29e-3);
}

TEST_CASE("Numbers are written as people type them", "[files]") {
  const std::string text = writeProject(readGood(sampleText()), smallOne);
  CHECK(text.find("\"thickness_mm\": 1.2,") != std::string::npos);
  CHECK(text.find("\"size_mm\": [600, 400],") != std::string::npos);
  CHECK(text.find("\"thickness_um\": [45, 60, 80],") != std::string::npos);
  CHECK(text.find("\"travel_angle_deg\": 90,") != std::string::npos);
  CHECK(text.find("\"max_pulse_energy_mJ\": 2,") != std::string::npos);
}

TEST_CASE("What a project names of the smallOne travels with it, once", "[files]") {
  Project project = readGood(sampleText());
  project.coat.pop_back();
  project.library.coatings = {*findCoating(smallOne, "primer-red-oxide")};  // shipped, and named no longer
  const Project again = readGood(writeProject(project, smallOne));
  REQUIRE(again.library.coatings.size() == 2);
  CHECK(again.library.coatings[0] == *findCoating(smallOne, "alkyd-dark"));
  CHECK(again.library.coatings[1].id == "alkyd-white");
  REQUIRE(again.library.substrates.size() == 1);
  CHECK(again.library.substrates[0] == smallOne.substrates[0]);
  CHECK(readProject(writeProject(project, smallOne), Library{}).problems.empty());  // stands alone
}

TEST_CASE("A project's own entry wins over the shipped one and stays as it is", "[files]") {
  Project project = readGood(sampleText());
  project.library.coatings = {*findCoating(smallOne, "alkyd-white")};
  project.library.coatings[0].absorptance.range = {0.1, 0.2, 0.3};
  const Project again = readGood(writeProject(project, smallOne));
  CHECK(findCoating(again.library, "alkyd-white")->absorptance.range == Range{0.1, 0.2, 0.3});
}

TEST_CASE("Random projects come back equal and are written the same again", "[files]") {
  for (std::uint32_t seed = 1; seed <= 200; ++seed) {
    INFO("seed " << seed);
    Project project = randomProject(seed);
    const std::string text = writeProject(project, smallOne);
    const Project again = readGood(text);
    project.library = again.library;  // entries are copied in on save
    CHECK(again == project);
    CHECK(writeProject(again, smallOne) == text);
  }
}

TEST_CASE("Numbers with more digits than a file holds settle after one save", "[files]") {
  Project project = readGood(sampleText());
  project.part.thickness_m = Range{1.0 / 3000, 1.0 / 1700, 1.0 / 700};
  project.plans[0].settings.travelSpeed_m_s = 0.1 + 0.2;
  const std::string text = writeProject(project, smallOne);
  const Project again = readGood(text);
  CHECK(again.part.thickness_m.likely == Catch::Approx(1.0 / 1700).epsilon(1e-11));
  CHECK(writeProject(again, smallOne) == text);
}

TEST_CASE("Keys of a later version are kept at every level", "[files]") {
  nlohmann::json json = nlohmann::json::parse(writeProject(readGood(sampleText()), smallOne));
  const std::vector<std::string> levels{"",
                                        "/part",
                                        "/part/areas/0",
                                        "/coat/1",
                                        "/machines/0",
                                        "/machines/0/scan",
                                        "/plans/0",
                                        "/plans/0/settings",
                                        "/smallOne",
                                        "/library/coatings/0",
                                        "/library/coatings/0/absorptance",
                                        "/library/substrates/0"};
  for (const std::string& level : levels) json[nlohmann::json::json_pointer(level)]["from_later"] = {{"a", 1.5}, {"b", {nullptr, "µ"}}};
  const auto again = nlohmann::json::parse(writeProject(readGood(json.dump()), smallOne));
  for (const std::string& level : levels) {
    INFO(level);
    CHECK(again[nlohmann::json::json_pointer(level + "/from_later")] == json["from_later"]);
  }
  CHECK(again == json);
}

TEST_CASE("A project without coat, machines and plans opens", "[files]") {
  const Project project = readGood(
      R"({"format": "barewright-project", "version": 1, "part": {"substrate": "mild-steel", "thickness_mm": 1},
          "coat": [], "machines": [], "plans": []})");
  CHECK(project.coat.empty());
  CHECK(validate(project, smallOne).empty());
}

TEST_CASE("A byte order mark is let pass", "[files]") { CHECK(readGood("\xEF\xBB\xBF" + sampleText()).machines.size() == 1); }

TEST_CASE("A project in memory is judged by the rules of a file", "[files]") {
  Project project = readGood(sampleText());
  CHECK(validate(project, smallOne).empty());
  project.coat[0].thickness_m = Range::exact(-5e-6);
  project.plans[0].settings.width_m = std::numeric_limits<double>::quiet_NaN();
  const auto problems = validate(project, smallOne);
  REQUIRE(problems.size() == 2);
  CHECK(problems[0].path == "$.coat[0].thickness_um");
  CHECK(problems[1].path == "$.plans[0].settings.width_mm");
}

TEST_CASE("Entries of the shipped smallOne survive being copied into a project", "[files]") {
  Project project = readGood(sampleText());
  project.coat.clear();
  for (const Coating& coating : shippedLibrary().coatings) project.coat.push_back({coating.name, coating.id, Range::exact(50e-6), {}, {}, false, {}, {}, {}, {}, {}, {}});
  const ReadResult again = readProject(writeProject(project, shippedLibrary()), Library{});
  REQUIRE(again.problems.empty());
  REQUIRE_FALSE(again.project.coat.empty());
  for (const Coating& coating : shippedLibrary().coatings) CHECK(*findCoating(again.project.library, coating.id) == coating);
}

TEST_CASE("Files and messages use points whatever the locale", "[files]") {
  const std::string before = std::setlocale(LC_NUMERIC, nullptr);
  const bool hasComma = std::setlocale(LC_NUMERIC, "de_DE.UTF-8") || std::setlocale(LC_NUMERIC, "fr_FR.UTF-8");
  if (!hasComma) WARN("no locale with a decimal comma is installed: nothing tested but the usual one");
  Project project = readGood(sampleText());
  const std::string text = writeProject(project, smallOne);
  project.coat[1].overrides.absorptance = Range::exact(1.25);
  const auto problems = validate(project, smallOne);
  std::setlocale(LC_NUMERIC, before.c_str());
  CHECK(text.find("\"thickness_mm\": 1.2,") != std::string::npos);
  REQUIRE(problems.size() == 1);
  CHECK_THAT(problems[0].message, Catch::Matchers::StartsWith("1.25 is not"));
}
