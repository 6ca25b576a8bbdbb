// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/turnaround.h"

#include "core/scan/frame.h"
#include "tests/core/learn/learn_support.h"

#include <limits>

using namespace bw;
using namespace bw::test;

TEST_CASE("The turnaround of the frame's own rules comes back from its period", "[learn]") {
  ScanHead head;
  head.turnaround_s = 250e-6;
  Settings settings;
  settings.height_m = 14e-3;
  settings.lineSpacing_m = 0.1e-3;
  settings.scanSpeed_m_s = 9;
  std::vector<LineTime> lines;
  for (const double width : {10e-3, 20e-3, 32e-3, 60e-3}) {
    settings.width_m = width;
    lines.push_back({width, settings.scanSpeed_m_s, {buildFrame(settings, head).period_s() / lineCount(settings), {}}});
  }
  const auto found = fitTurnaround(lines);
  REQUIRE(found.value);
  checkExact(found.value->turnaround_s, 250e-6);
  CHECK_FALSE(found.value->speedShare);
  CHECK(found.remarks.empty());
}

TEST_CASE("A head that does not keep the dialled speed is told from its turnaround", "[learn]") {
  std::vector<LineTime> lines;
  for (const double width : {10e-3, 20e-3, 40e-3, 80e-3}) lines.push_back({width, 8, {width / (0.9 * 8) + 300e-6, {}}});
  const auto found = fitTurnaround(lines);
  REQUIRE(found.value);
  checkExact(found.value->turnaround_s, 300e-6, 1e-6);
  REQUIRE(found.value->speedShare);
  checkExact(*found.value->speedShare, 0.9, 1e-6);
  CHECK(says(found, "90 % of the dialled speed"));
}

TEST_CASE("A turnaround that grows with the speed is said, not fitted away", "[learn]") {
  std::vector<LineTime> lines;
  for (const double v : {2.0, 4.0, 6.0, 8.0}) lines.push_back({30e-3, v, {30e-3 / v + 2 * v / 60000, {}}});
  const auto found = fitTurnaround(lines);
  REQUIRE(found.value);
  CHECK_FALSE(found.value->speedShare);
  CHECK(says(found, "the turnaround changes with the speed"));
}

TEST_CASE("One frame time needs its uncertainty", "[learn]") {
  std::vector<LineTime> one{{30e-3, 6, {5.4e-3, {}}}};
  checkRefused(fitTurnaround(one), "one frame time");
  one.front().time_s.uncertainty = 0.1e-3;
  const auto found = fitTurnaround(one);
  REQUIRE(found.value);
  CHECK(found.value->turnaround_s.low == Catch::Approx(0.3e-3));
  CHECK(found.value->turnaround_s.likely == Catch::Approx(0.4e-3));
  CHECK(found.value->turnaround_s.high == Catch::Approx(0.5e-3));
}

TEST_CASE("Line times that teach nothing get a sentence and no number", "[learn]") {
  checkRefused(fitTurnaround({}), "no frame time");
  checkRefused(fitTurnaround({{0, 6, {1e-3, {}}}, {1e-3, 6, {1e-3, {}}}}), "reading 1: 0 is no width");
  checkRefused(fitTurnaround({{1e-3, -6, {1e-3, {}}}, {1e-3, 6, {1e-3, {}}}}), "reading 1: -6 is no scan speed");
  checkRefused(fitTurnaround({{1e-3, 6, {1e-3, {}}}, {1e-3, 6, {std::numeric_limits<double>::quiet_NaN(), {}}}}),
               "reading 2: not a number is no time of a line");
  checkRefused(fitTurnaround({{30e-3, 6, {4.9e-3, {}}}, {30e-3, 6, {4.91e-3, {}}}, {30e-3, 6, {4.9e-3, {}}}}),
               "faster than dialled, or lines were miscounted");
  const auto cut = fitTurnaround({{30e-3, 6, {5.1e-3, {}}}, {30e-3, 6, {5.3e-3, {}}}, {30e-3, 6, {5.0e-3, {}}}});
  REQUIRE(cut.value);
  CHECK(cut.value->turnaround_s.low == 0);
  CHECK(says(cut, "the range is cut there"));
}
