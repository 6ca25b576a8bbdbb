// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/run.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace bw::test;

namespace {

const std::string good = R"({"format": "barewright-measurements", "version": 1,
  "machine": {"id": "bench-300", "kind": "pulsed", "rated_power_W": 300, "M2": 1.8, "spot_diameter_um": 120,
              "scan": {"max_width_mm": 80, "max_speed_mm_s": 15000}},
  "powers": [{"dialled_percent": 50, "measured_W": 127}, {"dialled_percent": 75, "measured_W": 193},
             {"dialled_percent": 100, "measured_W": 256}],
  "meter_uncertainty_percent": 3})";

}  // namespace

TEST_CASE("measure prints a table and writes JSON", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("measured.json", good);
  const Run table = run({"measure", file});
  CHECK(table.status == 0);
  CHECK(table.errors.empty());
  CHECK_THAT(table.output, Catch::Matchers::Contains("delivered power: not stated -> 25"));
  const std::string out = folder.path("proposal.json");
  CHECK(run({"measure", file, "--json", out}).output == table.output);
  const Run json = run({"measure", file, "--json", "-"});
  CHECK(json.output == textOf(out));
  const auto proposal = nlohmann::json::parse(json.output);
  CHECK(proposal["changes"][0]["property"] == "delivered_power_W");
  CHECK(proposal["changes"][0]["old"].is_null());
  CHECK(proposal["power"]["delivered_share"][1].get<double>() == Catch::Approx(0.855).margin(0.01));
}

TEST_CASE("measure refuses a bad file with one line and writes nothing", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("bad.json", replaced(good, "127", "-127"));
  const Run bad = run({"measure", file, "--json", folder.path("out.json")});
  CHECK(bad.status == 2);
  CHECK(bad.output.empty());
  CHECK(std::count(bad.errors.begin(), bad.errors.end(), '\n') == 1);
  CHECK_THAT(bad.errors, Catch::Matchers::Contains(file + ": $.powers[0].measured_W: -127 is not a power"));
  CHECK(folder.entries() == 1);
  const Run itself = run({"measure", folder.write("good.json", good), "--json", folder.path("good.json")});
  CHECK(itself.status == 2);
  CHECK(textOf(folder.path("good.json")) == good);
  CHECK(run({"measure", folder.path("none.json")}).status == 2);
  CHECK(run({"measure"}).status == 2);
}

TEST_CASE("measure documents its file", "[cli]") {
  const Run help = run({"measure", "--help"});
  CHECK(help.status == 0);
  for (const char* key : {"barewright-measurements", "marks", "diameters", "widths", "frame_times", "powers", "rates", "--json"}) {
    CHECK_THAT(help.output, Catch::Matchers::Contains(key));
  }
  CHECK_THAT(run({"--help"}).output, Catch::Matchers::Contains("measure"));
}
