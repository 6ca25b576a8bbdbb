// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/repeat_cell.h"

#include "tests/support/catch.h"

#include <fstream>
#include <numbers>
#include <sstream>

using namespace bw;
using Catch::Approx;

namespace {

/// The settings of tests/reference/dose_map.py.
DoseMap ourMap() {
  Settings settings;
  settings.width_m = 1.5e-3;
  settings.height_m = 6 * 0.11e-3;
  settings.lineSpacing_m = 0.11e-3;
  settings.scanSpeed_m_s = 5;
  ScanHead head;
  head.turnaround_s = 120e-6;
  const Frame frame = buildFrame(settings, head);
  const Travel travel(0.15, 70 * std::numbers::pi / 180, Stroke{});
  const Emission emission{true, 123.4e3, 200};
  std::vector<DabRow> rows;
  for (const double frames : {0.0, 1.0}) {
    const auto more = rowsOf(frame, travel, emission, 60e-6, {frames * frame.period_s()});
    rows.insert(rows.end(), more.begin(), more.end());
  }
  const CanvasGrid grid{110, 90, Point(-1.1e-3, -0.5e-3), Point::Constant(20e-6), false};
  return sumOnto(grid, rows, SpotProfile(BeamProfile::Gaussian), roundSpot(60e-6));
}

}  // namespace

TEST_CASE("The map is that of pulses convolved by Fourier transforms", "[dose]") {
  const DoseMap map = ourMap();
  double mean = 0;
  for (const float dose : map.dose_J_m2) mean += static_cast<double>(dose) / static_cast<double>(map.dose_J_m2.size());

  std::ifstream file(BAREWRIGHT_SOURCE_DIR "/tests/reference/dose_map.csv");
  REQUIRE(file);
  std::string line;
  int compared = 0;
  double worst = 0;
  while (std::getline(file, line)) {
    if (line.starts_with("# mean")) CHECK(mean == Approx(std::stod(line.substr(line.find(':') + 1))).epsilon(1e-3));
    int column = 0, row = 0;
    double dose_J_m2 = 0;
    char comma = 0;
    std::istringstream words(line);
    if (!(words >> column >> comma >> row >> comma >> dose_J_m2)) continue;
    worst = std::max(worst, std::abs(static_cast<double>(map.at(column, row)) - dose_J_m2));
    ++compared;
  }
  CHECK(compared == 400);
  CHECK(worst < 1e-3 * mean);
}
