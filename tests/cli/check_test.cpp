// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/run.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <functional>

using namespace bw::test;

namespace {

/// Unusable input: status 2 and one line on standard error that names the file, the place and what is accepted.
void checkRefused(const Run& result, const std::string& file, const std::string& place, const std::string& words) {
  CHECK(result.status == 2);
  CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
  CHECK_THAT(result.errors, Catch::Matchers::EndsWith("\n"));
  CHECK_THAT(result.errors, Catch::Matchers::StartsWith("barewright: "));
  CHECK_THAT(result.errors, Catch::Matchers::Contains(file));
  CHECK_THAT(result.errors, Catch::Matchers::Contains(place));
  CHECK_THAT(result.errors, Catch::Matchers::Contains(words));
}

struct BadFile {
  std::string name;
  std::string text;
  std::string place;  // JSON path
  std::string words;
};

std::vector<BadFile> badFiles() {
  const std::string good = goodProject();
  const auto with = [&](const std::string& old, const std::string& replacement) { return replaced(good, old, replacement); };
  return {
      {"empty", "", "$: ", "ends too early"},
      {"truncated", good.substr(0, good.size() / 2), "$.", "ends too early"},
      {"binary", std::string("\x7F" "ELF\2\1\1\0\0\xFE\xFF", 11), "$: ", "UTF-8 JSON text is accepted"},
      {"other format", with("barewright-project", "drawing"), "$.format", "\"barewright-project\" is accepted"},
      {"newer", with("\"version\": 1", "\"version\": 2"), "$.version", "newer than this program reads"},
      {"deep", std::string(100000, '['), "$: ", "nested more than 64 deep"},
      {"negative thickness", with("\"thickness_um\": 35", "\"thickness_um\": -35"), "$.coat[2].thickness_um", "above 0 and up to 20000"},
      {"zero spot", with("\"spot_diameter_um\": 120", "\"spot_diameter_um\": 0"), "$.machines[0].spot_diameter_um", "above 0"},
      {"huge number", with("\"thickness_mm\": 1.2", "\"thickness_mm\": 1e308"), "$.part.thickness_mm", "1e+308 is not a thickness"},
      {"past all numbers", with("\"thickness_mm\": 1.2", "\"thickness_mm\": 1e999"), "$.part.thickness_mm", "past the range"},
      {"no number", with("\"passes\": 1", "\"passes\": NaN"), "$.plans[0].settings.passes", "not JSON at line"},
      {"unknown coating", with("\"alkyd-white\"", "\"alkyd-wite\""), "$.coat[1].coating", "did you mean \"alkyd-white\"?"},
      {"two of a name", with("\"name\": \"beading\"", "\"name\": \"open panel\""), "$.part.areas[1].name", "taken by an earlier one"},
      {"key twice", with("\"passes\": 1", "\"passes\": 1, \"passes\": 2"), "$.plans[0].settings.passes", "stands twice"},
      {"out of order", with("[45, 60, 80]", "[80, 60, 45]"), "$.coat[1].thickness_um", "[low, likely, high] in this order"},
      {"unknown machine", with("\"machine\": \"bench-300\"", "\"machine\": \"bench-3000\""), "$.plans[0].machine", "did you mean"},
      {"line feed in a name", with("\"alkyd-dark\"", "\"a\\nb\""), "$.coat[0].coating", "\"a\\nb\" is not a known coating"},
  };
}

}  // namespace

TEST_CASE("Every verb refuses a bad file with one line", "[cli]") {
  const Folder folder;
  for (const BadFile& bad : badFiles()) {
    INFO(bad.name);
    const std::string file = folder.write(bad.name + ".bwright", bad.text);
    checkRefused(run({"check", file}), file, bad.place, bad.words);
    const Run assessed = run({"assess", file, "--json", "-"});
    checkRefused(assessed, file, bad.place, bad.words);
    CHECK(assessed.output.empty());
  }
}

TEST_CASE("A machine's id may stand once", "[cli]") {
  const Folder folder;
  const std::string good = goodProject();
  const std::size_t start = good.find("{\"id\": \"bench-300\"");
  const std::size_t end = good.find("],\n  \"plans\"");
  REQUIRE((start != std::string::npos && end != std::string::npos));
  const std::string machine = good.substr(start, end - start);
  const std::string file = folder.write("twice.bwright", replaced(good, machine, machine + ", " + machine));
  checkRefused(run({"check", file}), file, "$.machines[1].id", "\"bench-300\" is taken by an earlier one");
}

TEST_CASE("What is no file of reasonable size is refused", "[cli]") {
  const Folder folder;
  const std::string huge = folder.write("huge.bwright", "{");
  std::filesystem::resize_file(huge, 100'000'000);
  checkRefused(run({"check", huge}), huge, "", "100 MB; up to 33 MB is accepted");
  checkRefused(run({"check", folder.path("none.bwright")}), "none.bwright", "", "there is no such file");
  checkRefused(run({"assess", folder.path("none.bwright")}), "none.bwright", "", "there is no such file");
  checkRefused(run({"check", folder.path("")}), folder.path(""), "", "is a folder");
  checkRefused(run({"check", "/dev/zero"}), "/dev/zero", "", "is a device or pipe");
}

TEST_CASE("check lists every problem on standard output", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("bad.bwright", replaced(replaced(goodProject(), "\"M2\": 1.8", "\"M2\": 0"), "\"passes\": 1", "\"passes\": 0"));
  const Run result = run({"check", file});
  CHECK(result.output ==
        "$.machines[0].M2: 0 is not an M2; a number from 1 to 1000 is accepted\n"
        "$.plans[0].settings.passes: 0 is not a number of passes; a whole number from 1 to 1000 is accepted\n");
  checkRefused(result, file, "$.machines[0].M2", "(and 1 more)");
}

TEST_CASE("check passes a good file", "[cli]") {
  const Folder folder;
  const Run result = run({"check", folder.write("good.bwright", goodProject())});
  CHECK(result.status == 0);
  CHECK(result.errors.empty());
  CHECK_THAT(result.output, Catch::Matchers::EndsWith("good.bwright: no problem found\n"));
}

TEST_CASE("Wrong arguments get one line and status 2", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("good.bwright", goodProject());
  const std::vector<std::vector<std::string>> wrong{{"assess"},
                                                    {"assess", file, "--jsn", "x"},
                                                    {"assess", file, "--json"},
                                                    {"check", file, file},
                                                    {"asess", file},
                                                    {"--no-such-option"},
                                                    {"--platform=offscreen"},
                                                    {file, file}};
  for (const auto& arguments : wrong) {
    INFO(arguments.front());
    const Run result = run(arguments);
    CHECK(result.status == 2);
    CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
    CHECK_THAT(result.errors, Catch::Matchers::Contains("--help"));
  }
}

TEST_CASE("Without a verb and a display it says so", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("good.bwright", goodProject());
  for (const auto& arguments : std::vector<std::vector<std::string>>{{}, {file}, {"-style", "fusion", file}, {"--style=fusion"}}) {
    const Run result = run(arguments);
    CHECK(result.status == 2);
    CHECK(std::count(result.errors.begin(), result.errors.end(), '\n') == 1);
    CHECK_THAT(result.errors, Catch::Matchers::Contains("window"));
  }
}

TEST_CASE("Help and version answer on standard output", "[cli]") {
  const Run help = run({"--help"});
  CHECK(help.status == 0);
  CHECK(help.errors.empty());
  for (const char* word : {"assess", "check", "Exit status"}) CHECK_THAT(help.output, Catch::Matchers::Contains(word));
  CHECK_THAT(run({"assess", "--help"}).output, Catch::Matchers::Contains("--trace"));
  const Run version = run({"--version"});
  CHECK(version.status == 0);
  CHECK_THAT(version.output, Catch::Matchers::StartsWith("barewright "));
}
