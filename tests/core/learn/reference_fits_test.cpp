// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/caustic_fit.h"
#include "core/learn/delivered_power.h"
#include "core/learn/energy_ceiling.h"
#include "core/learn/spot_fit.h"
#include "tests/core/learn/learn_support.h"
#include "tests/support/table.h"

using namespace bw;

// Values by scipy.optimize.curve_fit: tests/reference/learn/machine_fits.py, which describes the sets.

namespace {

struct Pair {
  double x = 0;
  Measured y;
};

std::vector<Pair> readingsOf(int set) {
  std::vector<Pair> pairs;
  for (const auto& row : test::readTable("reference/learn/readings.csv")) {
    if (row.at(0) != set) continue;
    pairs.push_back({row.at(1), {row.at(2), row.at(3) > 0 ? std::optional(row.at(3)) : std::nullopt}});
  }
  REQUIRE(pairs.size() >= 5);
  return pairs;
}

/// curve_fit takes its derivatives by differences, good to about 1e-8 of the step; its ranges agree with exact ones to about 1e-5 of width.
void checkRanges(int set, const std::vector<Range>& found) {
  std::size_t i = 0;
  for (const auto& row : test::readTable("reference/learn/fits.csv")) {
    if (row.at(0) != set) continue;
    REQUIRE(i < found.size());
    INFO("set " << set << ", number " << i);
    const double width = row.at(3) - row.at(1);
    CHECK(found[i].low == Catch::Approx(row.at(1)).margin(1e-4 * width));
    CHECK(found[i].likely == Catch::Approx(row.at(2)).margin(1e-4 * width));
    CHECK(found[i].high == Catch::Approx(row.at(3)).margin(1e-4 * width));
    ++i;
  }
  CHECK(i == found.size());
}

std::vector<Range> spotOf(int set) {
  std::vector<Mark> marks;
  for (const Pair& pair : readingsOf(set)) {
    if (set == 3)
      marks.push_back({{}, 2.5 * pair.x, 2.5, pair.y});
    else
      marks.push_back({pair.x, {}, {}, pair.y});
  }
  const Learnt<SpotFit> spot = fitSpot(marks);
  REQUIRE(spot.value);
  REQUIRE(spot.value->thresholdFluence_J_m2);
  return {spot.value->diameter_m, spot.value->threshold, *spot.value->thresholdFluence_J_m2};
}

std::vector<Range> causticOf(int set, double wavelength_m) {
  std::vector<Plane> planes;
  for (const Pair& pair : readingsOf(set)) planes.push_back({pair.x, pair.y});
  const Learnt<CausticFit> beam = fitCaustic(planes, wavelength_m);
  REQUIRE(beam.value);
  const CausticFit& b = *beam.value;
  return {b.waistDiameter_m, b.waistPosition_m, b.M2, b.rayleighRange_m, b.fullAngle_rad};
}

}  // namespace

TEST_CASE("Spots and lines as scipy fits them", "[learn]") {
  for (const int set : {1, 2, 3}) checkRanges(set, spotOf(set));
}

TEST_CASE("Caustics as scipy fits them, one of them measured", "[learn]") {
  checkRanges(4, causticOf(4, 632.8e-9));
  checkRanges(5, causticOf(5, 1064e-9));
}

TEST_CASE("Delivered power as scipy fits it", "[learn]") {
  std::vector<PowerReading> given;
  for (const Pair& pair : readingsOf(6)) given.push_back({pair.x / 300, pair.y, {}});
  const Learnt<DeliveredPower> power = fitDeliveredPower(given, 300, 0);
  REQUIRE(power.value);
  REQUIRE(power.value->line.offset);
  checkRanges(6, {power.value->line.gain, *power.value->line.offset, power.value->line.atFull});
}

TEST_CASE("The ceiling of pulse energy as scipy fits it", "[learn]") {
  std::vector<RateReading> given;
  for (const Pair& pair : readingsOf(7)) given.push_back({pair.x, pair.y});
  const Learnt<EnergyCeiling> ceiling = fitEnergyCeiling(given, 0);
  REQUIRE(ceiling.value);
  REQUIRE((ceiling.value->meanPower_W && ceiling.value->fallsBeyond_Hz));
  checkRanges(7, {ceiling.value->pulseEnergy_J, *ceiling.value->meanPower_W, *ceiling.value->fallsBeyond_Hz});
}
