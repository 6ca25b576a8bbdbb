// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/machine_setup.h"
#include "tests/support/catch.h"

#include <array>
#include <cmath>
#include <limits>
#include <random>

using namespace bw;

// Whatever is entered: an ordered, finite range, or a sentence.

namespace {

class Anything {
 public:
  /// Mostly sensible about `typical`, now and then what nobody should enter.
  double number(double typical) {
    switch (m_engine() % 40) {
      case 0:
        return 0;
      case 1:
        return -typical;
      case 2:
        return std::numeric_limits<double>::quiet_NaN();
      case 3:
        return std::numeric_limits<double>::infinity();
      case 4:
        return typical * 1e25;
      case 5:
        return typical * 1e-25;
      case 6:
        return typical * 1e6;
      default:
        return typical * std::exp(m_spread * m_normal(m_engine));
    }
  }
  Measured measured(double typical) { return {number(typical), m_engine() % 4 == 0 ? std::optional(number(typical / 20)) : std::nullopt}; }
  std::size_t count() { return m_engine() % 9; }
  void next() { m_spread = m_engine() % 2 ? 0.02 : 1.5; }

 private:
  std::mt19937_64 m_engine{11};
  std::normal_distribution<double> m_normal;
  double m_spread = 1;
};

void checkRange(const Range& range) {
  CAPTURE(range.low, range.likely, range.high);
  REQUIRE(std::isfinite(range.low));
  REQUIRE(std::isfinite(range.high));
  REQUIRE(range.low <= range.likely);
  REQUIRE(range.likely <= range.high);
}

void checkRange(const std::optional<Range>& range) {
  if (range) checkRange(*range);
}

template <class T, class Check>
int checked(const Learnt<T>& learnt, const Check& check) {
  REQUIRE(learnt.value.has_value() == learnt.problem.empty());
  if (learnt.value) check(*learnt.value);
  return learnt.value.has_value();
}

std::vector<Mark> anyMarks(Anything& any) {
  std::vector<Mark> list(any.count());
  double rising = 0.3e-3;
  for (Mark& mark : list) {
    mark = {any.number(rising), {}, {}, any.measured(60e-6 * std::sqrt(2 * std::log(rising / 0.2e-3)))};
    rising *= 1.4;
  }
  return list;
}

std::vector<Plane> planes(Anything& any) {
  std::vector<Plane> list(any.count());
  double z = -4e-3;
  for (Plane& plane : list) {
    plane = {any.number(z), any.measured(std::hypot(1e-4, 0.03 * z))};
    z += 1.3e-3;
  }
  return list;
}

std::vector<LineTime> lines(Anything& any) {
  std::vector<LineTime> list(any.count());
  for (LineTime& line : list) line = {any.number(30e-3), any.number(6), any.measured(5.3e-3)};
  return list;
}

std::vector<PowerReading> powers(Anything& any) {
  std::vector<PowerReading> list(any.count());
  double share = 0.1;
  for (PowerReading& reading : list) {
    reading = {any.number(share), any.measured(255 * share), any.number(270 * share)};
    share += 0.11;
  }
  return list;
}

std::vector<RateReading> rates(Anything& any) {
  std::vector<RateReading> list(any.count());
  double rate = 20e3;
  for (RateReading& reading : list) {
    reading = {any.number(rate), any.measured(std::min(2e-3 * rate, 300.0))};
    rate *= 1.7;
  }
  return list;
}

}  // namespace

TEST_CASE("Any readings end in an ordered range or in a sentence", "[learn]") {
  Anything any;
  std::array<int, 5> told{};
  for (int i = 0; i < 20'000; ++i) {
    any.next();
    INFO("kind 0, set " << i);
    told[0] += checked(fitSpot(anyMarks(any)), [](const SpotFit& spot) {
      checkRange(spot.diameter_m);
      checkRange(spot.threshold);
      checkRange(spot.thresholdFluence_J_m2);
      REQUIRE(spot.diameter_m.low > 0);
    });
    INFO("kind 1, set " << i);
    told[1] += checked(fitCaustic(planes(any), 1064e-9), [](const CausticFit& beam) {
      for (const Range& range : {beam.waistDiameter_m, beam.waistPosition_m, beam.M2, beam.rayleighRange_m, beam.fullAngle_rad})
        checkRange(range);
      REQUIRE(beam.M2.low >= 1);
      REQUIRE(beam.waistDiameter_m.low > 0);
    });
    INFO("kind 2, set " << i);
    told[2] += checked(fitTurnaround(lines(any)), [](const TurnaroundFit& found) {
      checkRange(found.turnaround_s);
      checkRange(found.speedShare);
      REQUIRE(found.turnaround_s.low >= 0);
    });
    INFO("kind 3, set " << i);
    told[3] += checked(fitDeliveredPower(powers(any), 300, 0.03), [](const DeliveredPower& power) {
      for (const Range& range : {power.line.gain, power.line.atFull, power.share}) checkRange(range);
      checkRange(power.line.offset);
      checkRange(power.loss);
      REQUIRE(power.share.low > 0);
    });
    INFO("kind 4, set " << i);
    told[4] += checked(fitEnergyCeiling(rates(any), 0.03), [](const EnergyCeiling& ceiling) {
      checkRange(ceiling.pulseEnergy_J);
      checkRange(ceiling.meanPower_W);
      checkRange(ceiling.fallsBeyond_Hz);
      REQUIRE(ceiling.pulseEnergy_J.low > 0);
    });
  }
  for (const int count : told) CHECK(count > 500);  // the check is not empty
}
