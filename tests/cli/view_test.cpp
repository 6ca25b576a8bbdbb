// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/cli/run.h"
#include "tests/cli/table_rows.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>

using namespace bw::test;

TEST_CASE("The map of another part of the work is named by --view", "[cli]") {
  const Folder folder;
  const std::string file = folder.write("panel.bwright", goodProject());
  const auto mapOf = [&](const std::vector<std::string>& view) {
    std::vector<std::string> arguments{"assess", file, "--map", folder.path("map.csv")};
    arguments.insert(arguments.end(), view.begin(), view.end());
    REQUIRE(run(arguments).status == 0);
    return rowsOf(folder.path("map.csv"), "x_mm,y_mm,dose_J_cm2");
  };
  const auto greatest = [](const auto& rows) { return std::ranges::max(rows, {}, [](const auto& row) { return row.at(2); }).at(2); };
  const auto middle = mapOf({}), start = mapOf({"--view", "start"}), still = mapOf({"--view", "still", "--still-s", "2"});
  CHECK(mapOf({"--view", "middle"}) == middle);
  CHECK(start.front().at(1) < 0);  // behind where the hand starts
  CHECK(start.front().at(2) < 0.01 * greatest(start));
  const double period =
      nlohmann::json::parse(run({"assess", file, "--json", "-"}).output)["overlap"]["frame_period_ms"].get<double>() / 1e3;
  const double framesBegun = std::ceil(2 / period) / std::ceil(1 / period);
  CHECK(greatest(still) == Catch::Approx(framesBegun * greatest(mapOf({"--view", "still"}))).epsilon(0.02));

  for (const std::vector<std::string>& wrong : {std::vector<std::string>{"--view", "sideways"}, {"--view", "still", "--still-s", "-1"}}) {
    std::vector<std::string> arguments{"assess", file, "--map", folder.path("none.csv")};
    arguments.insert(arguments.end(), wrong.begin(), wrong.end());
    CHECK(run(arguments).status == 2);
    CHECK_FALSE(std::filesystem::exists(folder.path("none.csv")));
  }
}
