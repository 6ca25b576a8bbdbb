// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/out_of_step.h"

#include "core/dose/evenness.h"
#include "tests/core/dose/steady_process.h"
#include "tests/core/dose/usual_spot.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

std::vector<DabRow> backwards(const SteadyProcess& process) {
  Stroke stroke;
  stroke.backwards = true;
  return process.rows(stroke);
}

OutOfStep outOfStepOf(const SteadyProcess& process, const std::vector<DabRow>& back, std::uint32_t seed = 1) {
  return outOfStep(process.rows(), back, gaussian, roundSpot(process.radius_m), process.lit(), process.cell(), seed);
}

/// Points half a spot radius apart tell mean squares of a sum of Gaussians to 3e-4 (Poisson sum: squares have half the variance), and
/// the two grids compared stand at different points.
constexpr double sampled = 1e-3;

}  // namespace

TEST_CASE("Swaths that do not touch do not care about their phase", "[dose]") {
  SteadyProcess process = smallRaster();
  process.settings.stepOver_m = 5e-3;  // lit extent 4.125 mm with its overshoot, and three radii on each side
  const OutOfStep result = outOfStepOf(process, backwards(process));
  const DoseResult inStep = evennessOf(process.map());
  CHECK(result.cv.low == Approx(inStep.cv).epsilon(sampled));
  CHECK(result.cv.high == Approx(result.cv.low).epsilon(1e-5));
  CHECK(result.cv.middle == Approx(result.cv.low).epsilon(1e-5));
  CHECK(result.min_J_m2.low == result.min_J_m2.high);
  CHECK(result.missedFraction.low == result.missedFraction.high);
  CHECK(result.rippleAlong.low == Approx(result.rippleAlong.high).epsilon(1e-4));
}

TEST_CASE("In step, and every other swath alike, is the steady state", "[dose]") {
  for (const double angle : {std::numbers::pi / 2, 0.65}) {
    SteadyProcess process = smallRaster();
    process.settings.travelAngle_rad = angle;
    process.settings.stepOver_m = 1.1e-3;  // each place under several swaths
    CAPTURE(angle);
    CHECK(outOfStepOf(process, process.rows()).alternatingCv == Approx(evennessOf(process.map()).cv).epsilon(sampled));
  }
}

TEST_CASE("Swaths forth and back in turn are a pattern of twice the step-over", "[dose]") {
  for (const double stepOver_m : {1.1e-3, 2.7e-3, 5e-3}) {
    SteadyProcess process = smallRaster();
    process.settings.travelAngle_rad = 1.2;
    process.settings.stepOver_m = stepOver_m;
    const auto back = backwards(process);
    std::vector<DabRow> both = process.rows();
    for (DabRow row : back) {
      row.first.x() += stepOver_m;
      both.push_back(row);
    }
    const RepeatCell twice{2 * stepOver_m, process.advance_m()};
    const DoseMap map = steadyMap(both, gaussian, roundSpot(process.radius_m), twice, gridOf(twice, process.radius_m / 4));
    CAPTURE(stepOver_m);
    CHECK(outOfStepOf(process, back).alternatingCv == Approx(evennessOf(map).cv).epsilon(sampled));
  }
}

TEST_CASE("The seed decides the draws, and the spread is in order", "[dose]") {
  SteadyProcess process = smallRaster();
  process.settings.stepOver_m = 1.1e-3;
  const auto back = backwards(process);
  const OutOfStep one = outOfStepOf(process, back, 1), same = outOfStepOf(process, back, 1), other = outOfStepOf(process, back, 2);
  CHECK(one.cv.low == same.cv.low);
  CHECK(one.cv.high == same.cv.high);
  CHECK(one.cv.high != other.cv.high);
  for (const Spread& spread : {one.cv, one.missedFraction, one.min_J_m2, one.rippleAlong}) {
    CHECK(spread.low <= spread.middle);
    CHECK(spread.middle <= spread.high);
  }
  CHECK(one.cv.low < one.cv.high);
}

TEST_CASE("Phase by chance lies about the sum of independent swaths", "[dose]") {
  // Swaths laid at random phases: their variance along the travel adds up, on the average. The unevenness across the travel stays what it
  // is. The mean square of fifteen draws of some twenty terms is known to a fifth.
  SteadyProcess process = smallRaster();
  process.settings.stepOver_m = 1.1e-3;
  const auto rows = process.rows();
  const RepeatCell alone{8 * process.settings.stepOver_m, process.advance_m()};  // one swath with room to itself
  const DoseMap map = steadyMap(rows, gaussian, roundSpot(process.radius_m), alone, gridOf(alone, process.radius_m / 4));
  const double mean = evennessOf(map).mean_J_m2 * 8;  // of the summed dose
  double along = 0;
  for (int column = 0; column < map.columns; ++column) {
    double sum = 0, squares = 0;
    for (int row = 0; row < map.rows; ++row) {
      const double dose = static_cast<double>(map.at(column, row)) / mean;
      sum += dose / map.rows;
      squares += dose * dose / map.rows;
    }
    along += 8 * (squares - sum * sum) / map.columns;
  }
  const SteadyProcess& p = process;
  const DoseMap inStep = steadyMap(rows, gaussian, roundSpot(p.radius_m), p.cell(), gridOf(p.cell(), p.radius_m / 4));
  double fixed = 0;
  for (int column = 0; column < inStep.columns; ++column) {
    double sum = 0;
    for (int row = 0; row < inStep.rows; ++row) sum += static_cast<double>(inStep.at(column, row)) / inStep.rows;
    fixed += (sum / mean - 1) * (sum / mean - 1) / inStep.columns;
  }
  const OutOfStep result = outOfStepOf(process, rows);
  CHECK(result.cv.low < std::sqrt(along + fixed));
  CHECK(result.cv.high > std::sqrt(along + fixed));
}
