// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/project_file.h"
#include "tests/core/files/small_library.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <random>

using namespace bw;
using namespace bw::test;

namespace {

using Json = nlohmann::ordered_json;

const Library library = smallLibrary();

std::vector<Problem> problemsOf(std::string_view text) { return readProject(text, library).problems; }

/// The sample with one value replaced, or removed where `value` is empty.
std::string sampleWith(const std::string& pointer, const std::string& value) {
  Json json = Json::parse(sampleText());
  if (!value.empty()) json[Json::json_pointer(pointer)] = Json::parse(value);
  else json[Json::json_pointer(pointer.substr(0, pointer.rfind('/')))].erase(pointer.substr(pointer.rfind('/') + 1));
  return json.dump(2);
}

struct BadValue {
  std::string pointer;
  std::string value;
  std::string path;
  std::string message;  // the part of it that matters
};

void checkEach(const std::vector<BadValue>& cases) {
  for (const BadValue& bad : cases) {
    INFO(bad.pointer << " = " << bad.value);
    const auto problems = problemsOf(sampleWith(bad.pointer, bad.value));
    REQUIRE(problems.size() == 1);
    CHECK(problems[0].path == bad.path);
    CHECK_THAT(problems[0].message, Catch::Matchers::Contains(bad.message));
    CHECK(problems[0].message.find('\n') == std::string::npos);
  }
}

}  // namespace

TEST_CASE("A message says what is wrong and what is accepted", "[files]") {
  const auto problems = problemsOf(sampleWith("/coat/1/thickness_um", "-5"));
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].path == "$.coat[1].thickness_um");
  CHECK(problems[0].message == "-5 is not a thickness; a number above 0 and up to 20000 µm is accepted");
}

TEST_CASE("Values out of bounds are problems with their path", "[files]") {
  checkEach({
      {"/part/thickness_mm", "0", "$.part.thickness_mm", "0 is not a thickness"},
      {"/part/thickness_mm", "1e308", "$.part.thickness_mm", "1e+308 is not a thickness"},
      {"/part/size_mm", "[600]", "$.part.size_mm", "not two numbers"},
      {"/part/size_mm", "[600, -1]", "$.part.size_mm[1]", "-1 is not a size"},
      {"/part/areas/1/tilt_deg", "90", "$.part.areas[1].tilt_deg", "from 0 to 89"},
      {"/part/film_coefficient_W_m2K", "-1", "$.part.film_coefficient_W_m2K", "film coefficient"},
      {"/part/limits/back_face_C", "\"hot\"", "$.part.limits.back_face_C", "\"hot\" is not a temperature"},
      {"/coat/1/absorptance", "1.2", "$.coat[1].absorptance", "from 0 to 1"},
      {"/machines/0/spot_diameter_um", "0", "$.machines[0].spot_diameter_um", "0 is not a spot diameter"},
      {"/machines/0/M2", "0.5", "$.machines[0].M2", "0.5 is not an M2"},
      {"/machines/0/rated_power_W", "0", "$.machines[0].rated_power_W", "above 0"},
      {"/machines/0/scan/axes", "3", "$.machines[0].scan.axes", "from 1 to 2"},
      {"/plans/0/settings/power_percent", "101", "$.plans[0].settings.power_percent", "from 0 to 100 %"},
      {"/plans/0/settings/passes", "0", "$.plans[0].settings.passes", "from 1 to 1000"},
      {"/plans/0/settings/passes", "1.5", "$.plans[0].settings.passes", "1.5 is not a number of passes"},
      {"/plans/0/settings/passes", "1e308", "$.plans[0].settings.passes", "from 1 to 1000"},
      {"/plans/0/settings/travel_angle_deg", "4000", "$.plans[0].settings.travel_angle_deg", "from -360 to 360"},
  });
}

TEST_CASE("A known key of the wrong type is a problem, not a key of a later version", "[files]") {
  checkEach({
      {"/coat/0/thickness_um", "\"45\"", "$.coat[0].thickness_um", "\"45\" is not a thickness"},
      {"/coat/0/thickness_um", "null", "$.coat[0].thickness_um", "null is not a thickness"},
      {"/coat/0/keep", "1", "$.coat[0].keep", "true or false"},
      {"/coat/0/colour", "null", "$.coat[0].colour", "null is not a short text"},
      {"/coat", "{}", "$.coat", "{} is not a list"},
      {"/part", "[]", "$.part", "[] is not an object"},
      {"/name", "7", "$.name", "7 is not a short text"},
      {"/plans/0/settings/one_way", "\"no\"", "$.plans[0].settings.one_way", "true or false"},
      {"/plans/0/settings/pattern", "3", "$.plans[0].settings.pattern", "3 is not a pattern"},
  });
}

TEST_CASE("Ranges must have three numbers in order", "[files]") {
  checkEach({
      {"/coat/1/thickness_um", "[80, 60, 45]", "$.coat[1].thickness_um", "[low, likely, high] in this order"},
      {"/coat/1/thickness_um", "[45, 90, 80]", "$.coat[1].thickness_um", "[low, likely, high] in this order"},
      {"/coat/1/thickness_um", "[45, 60]", "$.coat[1].thickness_um", "[low, likely, high] in this order"},
      {"/coat/1/thickness_um", "[0, 60, 80]", "$.coat[1].thickness_um[0]", "above 0"},
      {"/part/thickness_mm", "[1, \"x\", 2]", "$.part.thickness_mm[1]", "\"x\" is not a thickness"},
  });
}

TEST_CASE("An unknown word lists the accepted ones and suggests the nearest", "[files]") {
  checkEach({
      {"/coat/0/coating", "\"alkid-dark\"", "$.coat[0].coating",
       "\"alkid-dark\" is not a known coating (did you mean \"alkyd-dark\"?); accepted are alkyd-dark, alkyd-white, primer-red-oxide"},
      {"/part/substrate", "\"unobtainium\"", "$.part.substrate", "\"unobtainium\" is not a known substrate; accepted are mild-steel"},
      {"/plans/0/settings/pattern", "\"rastr\"", "$.plans[0].settings.pattern", "did you mean \"raster\"?"},
      {"/part/finish", "\"mirror\"", "$.part.finish", "accepted are untouched, light-etch, any"},
      {"/plans/0/machine", "\"bench-30\"", "$.plans[0].machine", "did you mean \"bench-300\"?"},
      {"/coat/0/components", "{\"asbestso\": \"yes\"}", "$.coat[0].components.asbestso", "did you mean \"asbestos\"?"},
      {"/part/known_from", "{\"thickness_mm\": \"guage\"}", "$.part.known_from.thickness_mm", "did you mean \"gauge\"?"},
      {"/coat/0/colour", "\"#12345g\"", "$.coat[0].colour", "six hexadecimal digits"},
      {"/part/behind", "[\"foam\", \"petrol\"]", "$.part.behind[1]", "accepted are foam"},
  });
}

TEST_CASE("What must be there is missed", "[files]") {
  checkEach({
      {"/part/thickness_mm", "", "$.part.thickness_mm", "missing; a number above 0"},
      {"/coat/0/coating", "", "$.coat[0].coating", "missing"},
      {"/machines/0/scan/max_width_mm", "", "$.machines[0].scan.max_width_mm", "missing"},
      {"/machines/0/pulse_durations_ns", "", "$.machines[0].pulse_durations_ns", "missing"},
      {"/plans/0/settings", "", "$.plans[0].settings", "missing; an object {...} is accepted"},
      {"/plans/0/settings/pulse_duration_ns", "", "$.plans[0].settings.pulse_duration_ns", "the machine is pulsed"},
      {"/plans/0/settings/line_spacing_mm", "0", "$.plans[0].settings.line_spacing_mm", "the pattern stacks lines"},
      {"/plans/0/settings/pattern", "\"sine\"", "$.plans[0].settings.oscillation_rate_Hz", "the pattern oscillates"},
      {"/plans/0/settings/step_over_mm", "0", "$.plans[0].settings.step_over_mm", "the hand travels"},
      {"/coat", "", "$.coat", "missing; a list [...] is accepted"},
      {"/format", "", "$.format", "missing"},
  });
}

TEST_CASE("Values that must fit each other are compared", "[files]") {
  checkEach({
      {"/machines/0/repetition_rate_kHz", "[800, 10]", "$.machines[0].repetition_rate_kHz", "[lowest, highest]"},
      {"/machines/0/max_pulse_energy_mJ", "[1, 2]", "$.machines[0].max_pulse_energy_mJ", "one beside each duration"},
      {"/part/areas/1/name", "\"open panel\"", "$.part.areas[1].name", "taken by an earlier one"},
  });
  Json json = Json::parse(sampleText());
  json["machines"].push_back(json["machines"][0]);
  json["plans"].push_back(json["plans"][0]);
  const auto problems = problemsOf(json.dump());
  REQUIRE(problems.size() == 2);
  CHECK(problems[0].path == "$.machines[1].id");
  CHECK(problems[1].path == "$.plans[1].name");
}

TEST_CASE("A continuous machine needs nothing of pulses", "[files]") {
  Json json = Json::parse(sampleText());
  json["machines"][0]["kind"] = "continuous";
  for (const char* key : {"repetition_rate_kHz", "pulse_durations_ns", "max_pulse_energy_mJ"}) json["machines"][0].erase(key);
  for (const char* key : {"repetition_rate_kHz", "pulse_duration_ns"}) json["plans"][0]["settings"].erase(key);
  CHECK(problemsOf(json.dump()).empty());
}

TEST_CASE("Settings beyond the machine are for the assessment to judge", "[files]") {
  CHECK(problemsOf(sampleWith("/plans/0/settings/repetition_rate_kHz", "5000")).empty());
  CHECK(problemsOf(sampleWith("/plans/0/settings/width_mm", "500")).empty());
}

TEST_CASE("Another format or a newer version is refused at once", "[files]") {
  checkEach({
      {"/format", "\"something-else\"", "$.format", "\"barewright-project\" is accepted"},
      {"/version", "2", "$.version", "2 is newer than this program reads"},
      {"/version", "\"1\"", "$.version", "\"1\" is not a version"},
      {"/version", "0", "$.version", "0 is not a version"},
  });
}

TEST_CASE("Text that is no JSON is one problem that says where", "[files]") {
  std::string manyKeys = "{";
  for (int i = 0; i < 501; ++i) manyKeys += "\"k" + std::to_string(i) + "\": 0, ";
  const std::string deep(100000, '[');
  std::string deepObject;
  for (int i = 0; i < 100000; ++i) deepObject += "{\"a\":";
  const std::vector<std::pair<std::string, std::string>> cases{
      {"", "ends too early"},
      {"   \n", "ends too early, at line 2"},
      {sampleText().substr(0, 700), "ends too early"},
      {std::string("\x7F" "ELF\0\1\2\3", 8), "not JSON at line 1, column 1"},
      {"{\"a\": \"\xC3\x28\"}", "not JSON at line 1"},
      {"{\"a\": NaN}", "not JSON at line 1, column"},
      {"{\"a\": 1e999}", "past the range of numbers"},
      {"{\"a\": 1, \"a\": 2}", "stands twice"},
      {deep, "nested more than 64 deep"},
      {deepObject, "nested more than 64 deep"},
      {manyKeys, "up to 500 in one object"},
      {"[1, 2]", "not an object"},
      {"{} {}", "not JSON"},
  };
  for (const auto& [text, message] : cases) {
    INFO(text.substr(0, 40));
    const auto problems = problemsOf(text);
    REQUIRE(problems.size() == 1);
    CHECK_THAT(problems[0].message, Catch::Matchers::Contains(message));
  }
}

TEST_CASE("Text that is no JSON is placed by its path", "[files]") {
  std::string text = sampleText();
  text.replace(text.find("[45, 60, 80]"), 12, "[45, NaN, 80]");
  const auto problems = problemsOf(text);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].path == "$.coat[1].thickness_um[1]");
}

TEST_CASE("At most a hundred problems are listed", "[files]") {
  Json json = Json::parse(sampleText());
  for (int i = 0; i < 300; ++i) json["plans"].push_back(i);
  CHECK(problemsOf(json.dump()).size() == 100);
}

namespace {

/// Damages a text the way discs, editors and people do.
std::string mutated(std::string text, std::mt19937& random) {
  const auto below = [&](std::size_t count) { return std::uniform_int_distribution<std::size_t>(0, count - 1)(random); };
  static const char* const pieces[] = {"-", "1e308", "\"", "[", "}", ",", "null", "\xFF", "0", "{\"a\":1}", "9999999999999999999999", "\\u0000"};
  for (std::size_t count = 1 + below(3); count > 0 && !text.empty(); --count) {
    const std::size_t at = below(text.size());
    switch (below(5)) {
      case 0: text[at] = static_cast<char>(below(256)); break;
      case 1: text.erase(at, 1 + below(20)); break;
      case 2: text.insert(at, pieces[below(std::size(pieces))]); break;
      case 3: text.resize(below(20) == 0 ? at : text.size()); break;
      default: {  // a digit changes, which keeps the text JSON
        const std::size_t digit = text.find_first_of("0123456789", at);
        if (digit != std::string::npos) text[digit] = "0123456789-e."[below(13)];
      }
    }
  }
  return text;
}

}  // namespace

TEST_CASE("Damaged files yield problems or a project that is written cleanly", "[files]") {
  std::mt19937 random(20240607);
  const std::string sample = Json::parse(sampleText()).dump();
  int readable = 0;
  int unclean = 0;
  for (int run = 0; run < 20000; ++run) {
    const ReadResult read = readProject(mutated(sample, random), library);
    if (!read.problems.empty()) continue;
    if (++readable % 5 != 0) continue;  // writing takes longer than reading
    const std::string text = writeProject(read.project, library);
    const ReadResult again = readProject(text, library);
    if (!again.problems.empty() || writeProject(again.project, library) != text) ++unclean;
  }
  CHECK(unclean == 0);
  CHECK(readable > 1000);  // or the damage would test the JSON reader alone
}
