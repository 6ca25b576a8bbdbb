// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/repeat_cell.h"

#include "core/assess/assess.h"
#include "core/dose/evenness.h"
#include "tests/core/dose/direct_dose.h"
#include "tests/core/dose/usual_spot.h"
#include "tests/support/catch.h"

#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>
#include <random>
#include <string>
#include <thread>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

constexpr double degree = std::numbers::pi / 180;

/// A steady process: what the dabs of one frame are, and after what rectangle they come again.
struct Process {
  std::string name;
  Settings settings;
  bool pulsed = true;
  double rate_Hz = 240e3;
  double power_W = 255;
  double radius_m = test::radius_m;

  Frame frame() const {
    ScanHead head;
    head.turnaround_s = 250e-6;
    return buildFrame(settings, head);
  }
  RepeatCell cell() const { return {settings.stepOver_m, settings.travelSpeed_m_s * frame().period_s()}; }
  /// Pulse by pulse; a continuous beam in pieces so short (w/40) that the midpoint rule is exact to 3e-5 even at a dark end.
  std::vector<Dab> dabs() const {
    const double length_m = pulsed ? radius_m : radius_m / 20;
    return dabsOf(frame(), Travel(settings.travelSpeed_m_s, settings.travelAngle_rad), {pulsed, rate_Hz, power_W}, length_m);
  }
  std::vector<DabRow> rows() const {
    return rowsOf(frame(), Travel(settings.travelSpeed_m_s, settings.travelAngle_rad), {pulsed, rate_Hz, power_W}, radius_m);
  }
  DoseMap map(BeamProfile shape = BeamProfile::Gaussian) const {
    return steadyMap(rows(), SpotProfile(shape), roundSpot(radius_m), cell(), gridOf(cell(), radius_m / 4));
  }
};

Process rasterProcess() {
  Process process{"raster", {}};
  Settings& s = process.settings;
  s.width_m = 6e-3;
  s.height_m = 2e-3;
  s.scanSpeed_m_s = 9;
  s.lineSpacing_m = 0.08e-3;
  s.travelSpeed_m_s = 0.02;
  s.travelAngle_rad = 90 * degree;
  s.stepOver_m = 5e-3;
  return process;
}

Process changed(const std::string& name, const std::function<void(Process&)>& change) {
  Process process = rasterProcess();
  process.name = name;
  change(process);
  return process;
}

std::vector<Process> processes() {
  return {
      rasterProcess(),
      changed("raster at 37 degrees", [](Process& p) { p.settings.travelAngle_rad = 37 * degree; }),
      changed("raster along its lines", [](Process& p) { p.settings.travelAngle_rad = 0; p.settings.stepOver_m = 1.7e-3; }),
      changed("crossed", [](Process& p) { p.settings.pattern = Pattern::Crossed; p.settings.lineSpacing_m = 0.2e-3; }),
      changed("line", [](Process& p) { p.settings.pattern = Pattern::Line; p.settings.travelSpeed_m_s = 0.06; }),
      changed("one way, trimmed", [](Process& p) { p.settings.oneWay = true; p.settings.edgeTrim_m = 0.5e-3; }),
      changed("continuous raster", [](Process& p) { p.pulsed = false; p.settings.beamOffInTurns = true; }),
      changed("continuous sine at 37 degrees", [](Process& p) {
        p.pulsed = false;
        p.settings.pattern = Pattern::Sine;
        p.settings.oscillationRate_Hz = 150;
        p.settings.travelAngle_rad = 37 * degree;
      }),
      changed("sine, cell 5 um long", [](Process& p) {
        p.settings.pattern = Pattern::Sine;
        p.settings.oscillationRate_Hz = 200;
        p.settings.travelSpeed_m_s = 1e-3;
      }),
      changed("sine, cell of 10 pm", [](Process& p) {
        p.settings.pattern = Pattern::Sine;
        p.settings.oscillationRate_Hz = 100;
        p.settings.travelSpeed_m_s = 1e-9;
      }),
      changed("spot two cells wide", [](Process& p) {
        p.settings.pattern = Pattern::Line;
        p.settings.stepOver_m = radius_m;
        p.settings.travelSpeed_m_s = 60e-6 / p.frame().period_s();
        p.rate_Hz = 20e3;
      }),
  };
}

/// Every pattern with every travel, pulsed and continuous. No frame's period is a whole number of pulses.
std::vector<Process> everyPattern() {
  std::vector<Process> all;
  const std::pair<Pattern, const char*> patterns[] = {
      {Pattern::Line, "line"},       {Pattern::Sine, "sine"},     {Pattern::Raster, "raster"},    {Pattern::Crossed, "crossed"},
      {Pattern::Circles, "circles"}, {Pattern::Spiral, "spiral"}, {Pattern::TwoSine, "two-sine"}, {Pattern::Raster, "one way"}};
  for (const auto& [pattern, name] : patterns) {
    for (const double angle : {90.0, 37.0, 0.0}) {
      for (const bool pulsed : {true, false}) {
        Process process{std::string(name) + (pulsed ? ", pulsed, " : ", continuous, ") + std::to_string(angle), rasterProcess().settings,
                        pulsed};
        Settings& s = process.settings;
        s.pattern = pattern;
        s.width_m = 3e-3;
        s.height_m = 1.9e-3;
        s.lineSpacing_m = 0.17e-3;
        s.oscillationRate_Hz = 610;
        s.oneWay = process.name.starts_with("one");
        s.travelAngle_rad = angle * degree;
        s.travelSpeed_m_s = pattern == Pattern::Line || pattern == Pattern::Sine ? 0.16 : 0.05;
        s.stepOver_m = 1.6e-3;
        process.rate_Hz = 83.7e3;
        all.push_back(process);
      }
    }
  }
  return all;
}

double energyOf(const std::vector<Dab>& dabs) {
  return std::accumulate(dabs.begin(), dabs.end(), 0.0, [](double sum, const Dab& dab) { return sum + dab.energy_J; });
}

/// The sum over every dab and every image of it that can matter at a point, without folding or table: 64-bit numbers, far wider reach.
double directDose(const std::vector<Dab>& dabs, const RepeatCell& cell, const SpotProfile& profile, double radius_m, const Point& point) {
  const double reach = 5 * radius_m;
  double sum = 0;
  for (const Dab& dab : dabs) {
    const Point gap = point - dab.position;
    for (double j = std::ceil((gap.x() - reach) / cell.across_m); j <= std::floor((gap.x() + reach) / cell.across_m); ++j) {
      for (double k = std::ceil((gap.y() - reach) / cell.along_m); k <= std::floor((gap.y() + reach) / cell.along_m); ++k) {
        const double r = std::hypot(gap.x() - j * cell.across_m, gap.y() - k * cell.along_m);
        sum += dab.energy_J * profile.relative(r / radius_m);
      }
    }
  }
  return sum * profile.peakPerWatt_1_m2(radius_m);
}

/// Largest difference between map and direct sum at random cells, over the mean dose.
double worstDifference(const Process& process, BeamProfile shape, int points) {
  const DoseMap map = process.map(shape);
  const auto dabs = process.dabs();
  const RepeatCell cell = process.cell();
  const double mean = energyOf(dabs) / (cell.across_m * cell.along_m);
  std::minstd_rand random(7);
  double worst = 0;
  for (int i = 0; i < points; ++i) {
    const int column = static_cast<int>(random() % static_cast<unsigned>(map.columns));
    const int row = static_cast<int>(random() % static_cast<unsigned>(map.rows));
    const Point point((column + 0.5) * map.cellAcross_m, (row + 0.5) * map.cellAlong_m);
    const double direct = directDose(dabs, cell, SpotProfile(shape), process.radius_m, point);
    worst = std::max(worst, std::abs(direct - static_cast<double>(map.at(column, row))) / mean);
  }
  return worst;
}

}  // namespace

TEST_CASE("The grid is no coarser than asked and covers the cell", "[dose]") {
  const RepeatCell cell{5e-3, 1.03e-3};
  const Grid grid = gridOf(cell, 15e-6);
  CHECK(grid.columns == 360);  // 334 would do; the next number made of 2, 3 and 5
  CHECK(grid.rows == 72);
  CHECK(cellCount(cell, 15e-6) == 334 * 69);
  const Grid tiny = gridOf({1e-3, 1e-12}, 15e-6);
  CHECK(tiny.rows == 1);
}

TEST_CASE("What a map costs is told before it is made", "[dose]") {
  const SpotProfile gaussian(BeamProfile::Gaussian), flat(BeamProfile::FlatTop);
  const Point cell = Point::Constant(radius_m / 4);
  const auto cost = [&](std::int64_t count, double step, const SpotProfile& profile) {
    return cellsToVisit({{Point::Zero(), Point(step * radius_m, 0), count, false, 1}}, profile, roundSpot(radius_m), cell);
  };
  CHECK(cost(1, 0, gaussian) == Approx(22 * 22));
  CHECK(cost(1000, 2, gaussian) == Approx(1000 * 22 * 22));
  CHECK(cost(1000, 0.5, gaussian) < 1.1 * 22 * 2022);
  CHECK(cost(1000, 0.5, gaussian) == Approx(cost(1000000, 0.0005, gaussian)));  // the pulses of a close row cost nothing
  CHECK(cost(1000, 0.5, flat) > 1e6);
}

TEST_CASE("All the energy of a frame lies in the repeat cell", "[dose]") {
  for (const Process& process : processes()) {
    const DoseMap map = process.map();
    const RepeatCell cell = process.cell();
    CAPTURE(process.name);
    CHECK(map.across_m() == Approx(cell.across_m));
    CHECK(map.along_m() == Approx(cell.along_m));
    CHECK(evennessOf(map).mean_J_m2 * cell.across_m * cell.along_m == Approx(energyOf(process.dabs())).epsilon(1e-6));
  }
}

TEST_CASE("The map agrees with the sum over all pulses and their images", "[dose]") {
  for (const Process& process : processes()) {
    if (process.cell().along_m < 1e-6) continue;  // too many images to sum; see the next test
    CAPTURE(process.name);
    CHECK(worstDifference(process, BeamProfile::Gaussian, 40) < 1e-4);
  }
}

TEST_CASE("Every pattern, however the hand travels, is the sum over its pulses and holds their energy", "[dose]") {
  for (const Process& process : everyPattern()) {
    const double pulses = process.rate_Hz * process.frame().period_s();
    REQUIRE(std::abs(pulses - std::round(pulses)) > 1e-3);
    const RepeatCell cell = process.cell();
    CAPTURE(process.name);
    CHECK(evennessOf(process.map()).mean_J_m2 * cell.across_m * cell.along_m == Approx(energyOf(process.dabs())).epsilon(1e-6));
    CHECK(worstDifference(process, BeamProfile::Gaussian, 40) < 1e-4);
  }
}

TEST_CASE("Advances about half a spot radius, where the map begins to be taken as even", "[dose]") {
  // Below half a radius neighbouring frames leave 5e-9 of a wave (Poisson sum); the map is even along the travel there.
  for (const double radii : {0.2, 0.45, 0.49, 0.51, 0.6, 1.0}) {
    Process process = rasterProcess();
    process.settings.pattern = Pattern::Line;
    process.settings.travelSpeed_m_s = radii * radius_m / process.frame().period_s();
    CAPTURE(radii);
    CHECK(worstDifference(process, BeamProfile::Gaussian, 40) < 1e-4);
  }
}

TEST_CASE("A cell far shorter than the spot is even along the travel", "[dose]") {
  // Shortening an already short cell and the frame's energy alike changes nothing.
  for (const BeamProfile shape : {BeamProfile::Gaussian, BeamProfile::SuperGaussian, BeamProfile::FlatTop}) {
    Process process = processes()[9];
    REQUIRE(process.cell().along_m == Approx(1e-11));
    const DoseMap shortest = process.map(shape);
    process.settings.travelSpeed_m_s = 1e-4;
    process.power_W *= 1e5;
    const DoseMap shorter = process.map(shape);
    REQUIRE(shorter.dose_J_m2.size() == shortest.dose_J_m2.size());
    double worst = 0;
    for (std::size_t i = 0; i < shorter.dose_J_m2.size(); ++i) {
      worst = std::max(worst, std::abs(static_cast<double>(shorter.dose_J_m2[i] / shortest.dose_J_m2[i]) - 1));
    }
    CHECK(worst < 1e-4);
  }
}

TEST_CASE("Spots that are no Gaussian are summed as well", "[dose]") {
  for (const BeamProfile shape : {BeamProfile::SuperGaussian, BeamProfile::FlatTop}) {
    for (const std::size_t which : {0U, 1U, 6U, 8U, 10U}) {
      const Process process = processes()[which];
      CAPTURE(process.name, static_cast<int>(shape));
      CHECK(worstDifference(process, shape, 25) < 1e-4);
      // Sampled at points, a steep edge's energy comes out right on the average over spots: worst where one spot fills the cell.
      const double tolerance = shape == BeamProfile::SuperGaussian ? 2e-6 : which == 10 ? 1e-2 : 4e-5;
      const RepeatCell cell = process.cell();
      CHECK(evennessOf(process.map(shape)).mean_J_m2 * cell.across_m * cell.along_m == Approx(energyOf(process.dabs())).epsilon(tolerance));
    }
  }
}

TEST_CASE("Twice the power is twice the dose everywhere", "[dose]") {
  Process process = rasterProcess();
  const DoseMap once = process.map();
  process.power_W *= 2;
  const DoseMap twice = process.map();
  bool doubled = true;
  for (std::size_t i = 0; i < once.dose_J_m2.size(); ++i) doubled &= twice.dose_J_m2[i] == 2 * once.dose_J_m2[i];
  CHECK(doubled);
}

TEST_CASE("Where and when the frame starts does not change the statistics", "[dose]") {
  const Process process = rasterProcess();
  const RepeatCell cell = process.cell();
  const Grid grid = gridOf(cell, radius_m / 4);
  const SpotProfile gaussian(BeamProfile::Gaussian);
  const DoseResult here = evennessOf(process.map());
  // By whole map cells, so that the same points are looked at; one of them several repeat cells away.
  for (const Point& cells : {Point(7, 0), Point(0, 11), Point(-1000, 2345)}) {
    auto rows = process.rows();
    for (DabRow& row : rows) row.first += Point(cells.x() * cell.across_m / grid.columns, cells.y() * cell.along_m / grid.rows);
    const DoseResult there = evennessOf(steadyMap(rows, gaussian, roundSpot(radius_m), cell, grid));
    CHECK(there.mean_J_m2 == Approx(here.mean_J_m2).epsilon(1e-6));
    CHECK(there.max_J_m2 == Approx(here.max_J_m2).epsilon(1e-5));
    CHECK(there.min_J_m2 == Approx(here.min_J_m2).margin(1e-6 * here.mean_J_m2));
    CHECK(there.cv == Approx(here.cv).epsilon(1e-5));
    CHECK(there.missedFraction == Approx(here.missedFraction).margin(1e-4));
  }
}

TEST_CASE("A still hand leaves one frame's energy where the head went", "[dose]") {
  Process process = rasterProcess();
  process.settings.travelSpeed_m_s = 0;
  for (const BeamProfile shape : {BeamProfile::Gaussian, BeamProfile::SuperGaussian}) {
    const auto rows = process.rows();
    const DoseMap map = stillMap(rows, SpotProfile(shape), roundSpot(radius_m), radius_m / 4);
    CHECK(evennessOf(map).mean_J_m2 * map.across_m() * map.along_m() == Approx(energyOf(rows)).epsilon(1e-3));
    CHECK(map.across_m() == Approx(6e-3 + 9 * 250e-6 / 2 + 6 * radius_m).epsilon(0.02));
    CHECK(map.along_m() == Approx(26 * 0.08e-3 + 6 * radius_m).epsilon(0.02));
    // Nothing comes in from beyond the rim.
    double rim = 0;
    for (int column = 0; column < map.columns; ++column) rim = std::max(rim, static_cast<double>(map.at(column, 0)));
    CHECK(rim < 1e-3 * evennessOf(map).max_J_m2);
  }
}

TEST_CASE("Rows of steep spots, pulsed and smeared, are the plain sum", "[dose]") {
  struct Kind {
    BeamProfile shape;
    double pulsed, smeared;  // of the row's peak: tables read linearly, the steeper the edge the worse
  };
  for (const Kind& kind : {Kind{BeamProfile::SuperGaussian, 1e-4, 5e-4}, Kind{BeamProfile::FlatTop, 1e-3, 5e-3}}) {
    const SpotProfile profile(kind.shape);
    for (const double slope : {0.0, 0.3, -2.0}) {
      for (const bool smeared : {false, true}) {
        const Point step = Point(1, slope).normalized() * 0.7 * radius_m;
        const DabRow row{Point(4, slope < 0 ? 8 : 3) * radius_m, step, 6, smeared, 1e-3};
        for (const bool periodic : {false, true}) {
          const CanvasGrid grid{50, 44, Point::Zero(), Point::Constant(0.27 * radius_m), periodic};
          const DoseMap map = sumOnto(grid, {row}, profile, roundSpot(radius_m));
          const test::DirectDose direct(grid, roundSpot(radius_m), profile.exponent());
          double worst = 0, most = 0;
          for (int n = 0; n < 50 * 44; n += 3) {
            const double expected = direct.at(direct.place(n % 50, n / 50), row, 400);
            worst = std::max(worst, std::abs(static_cast<double>(map.at(n % 50, n / 50)) - expected));
            most = std::max(most, expected);
          }
          CAPTURE(profile.exponent(), slope, smeared, periodic);
          CHECK(worst < (smeared ? kind.smeared : kind.pulsed) * most);
        }
      }
    }
  }
}

TEST_CASE("A big map under way can be stopped from another thread", "[dose]") {
  // Pulses enough for minutes, so that an end by itself cannot be meant: 2e8 of them, upright and wide apart, one by one.
  const CanvasGrid grid{400, 4000, Point::Zero(), Point::Constant(radius_m / 4), true};
  const std::vector<DabRow> rows(200000, DabRow{Point::Zero(), Point(0, radius_m), 1000, false, 1e-3});
  for (const BeamProfile shape : {BeamProfile::Gaussian, BeamProfile::FlatTop}) {
    std::stop_source source;
    std::thread other([&] { source.request_stop(); });
    CHECK_THROWS_AS(sumOnto(grid, rows, SpotProfile(shape), roundSpot(radius_m), source.get_token()), Stopped);
    other.join();
  }
}

TEST_CASE("Making a map can be stopped", "[dose]") {
  const Process process = rasterProcess();
  std::stop_source source;
  source.request_stop();
  for (const BeamProfile shape : {BeamProfile::Gaussian, BeamProfile::FlatTop}) {
    const Grid grid = gridOf(process.cell(), radius_m / 4);
    CHECK_THROWS_AS(steadyMap(process.rows(), SpotProfile(shape), roundSpot(radius_m), process.cell(), grid, source.get_token()), Stopped);
  }
}
