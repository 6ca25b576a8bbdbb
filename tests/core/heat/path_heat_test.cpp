// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/path_heat.h"

#include "tests/core/heat/beams.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace bw;
using test::plateOf;

namespace {

constexpr double pi = std::numbers::pi;
const Emission steady{false, 0, 1};

/// Rise per absorbed watt on a very thick plate, `ahead` of a beam that has come along a straight line in x for a long time.
class MovingSpot {
 public:
  MovingSpot(double speed_m_s, double radius_m, double conductivity, double diffusivity, double past_s)
      : m_past(past_s), m_speed(speed_m_s), m_frame(test::straightLine(4 * speed_m_s * past_s, speed_m_s)),
        m_heat(m_frame, Travel(0, test::quarterTurn), steady, radius_m, plateOf(20 * std::sqrt(diffusivity * past_s), conductivity, conductivity / diffusivity),
               past_s) {}

  double ahead_K_W(double ahead_m) const {
    const double now = 2 * m_past;  // mid-line
    return m_heat.rise_K_W({Point(ahead_m, 0) + Point(-2 * m_speed * m_past + m_speed * now, 0), now}).front_K;
  }

 private:
  double m_past;
  double m_speed;
  Frame m_frame;
  PathHeat m_heat;
};

}  // namespace

TEST_CASE("A Gaussian spot along a straight line follows Eagar and Tsai", "[heat]") {
  struct Row {
    double u, thetaOverN[3];  // on the centre line at xi = 0, -u, -2u
  };
  // T. W. Eagar, N.-S. Tsai, Welding J. 62(12) (1983) 346-s (formula from memory), their integral in high-precision arithmetic.
  const Row rows[] = {{0.1, {11.619, 9.4965, 5.6876}},
                      {0.5, {1.8299, 1.6427, 1.0371}},
                      {1, {0.74308, 0.71440, 0.47110}},
                      {2, {0.28359, 0.29219, 0.20275}},
                      {5, {0.074961, 0.082575, 0.060818}}};
  const double k = 45, a = 1.25e-5, w = 1e-3;
  for (const Row& row : rows) {
    const double v = 2 * a * row.u / (w / 2);                        // u = v sigma/(2a)
    const double perN = v / (4 * pi * a * a * (k / a));        // n = q v/(4 pi a^2 rho c)
    const MovingSpot spot(v, w, k, a, 60 * 2 * a / (v * v) + 40 * w / v);
    for (int i = 0; i < 3; ++i) {
      INFO("u = " << row.u << ", xi = " << -i << " u");
      CHECK(spot.ahead_K_W(-i * row.u * 2 * a / v) == Catch::Approx(perN * row.thetaOverN[i]).epsilon(0.01));
    }
  }
}

TEST_CASE("Peaks behind a quick continuous beam", "[heat]") {
  struct Row {
    double power_W, radius_m, speed_m_s, peak_K;
  };
  // The same integral: 1500 W at absorptance 0.35 and w 1 mm, then 1000 W absorbed at w 2 mm; k 45, rho 7850, c 600.
  const Row rows[] = {{525, 1e-3, 1, 730.5}, {525, 1e-3, 5, 330.4}, {525, 1e-3, 20, 165.6}, {1000, 2e-3, 0.1, 1477}};
  const double k = 45, a = k / (7850 * 600.0);
  for (const Row& row : rows) {
    const MovingSpot spot(row.speed_m_s, row.radius_m, k, a, 40 * row.radius_m / row.speed_m_s + 60 * 2 * a / (row.speed_m_s * row.speed_m_s));
    double peak = 0;
    for (double behind = 0; behind < 1.5; behind += 0.05) peak = std::max(peak, row.power_W * spot.ahead_K_W(-behind * row.radius_m));
    INFO(row.speed_m_s << " m/s");
    CHECK(peak == Catch::Approx(row.peak_K).epsilon(0.01));
  }
}

TEST_CASE("A still Gaussian spot warms a half-space by the arc tangent of time", "[heat]") {
  struct Row {
    double time_s, rise_K;
  };
  // dT = I0 s/(k sqrt pi) atan sqrt(4at/s^2), s = w/sqrt 2 (Carslaw and Jaeger 2nd ed. section 10.5), 100 W, w 1 mm, k 45, a 1.25e-5.
  const Frame frame = test::straightLine(1e-9, 1e-12);  // creeps a picometre a second
  for (const Row& row : {Row{1e-4, 56.25}, Row{1e-3, 172.9}, Row{1e-2, 443.3}, Row{0.1, 713.7}, Row{1, 830.3}}) {
    const PathHeat heat(frame, Travel(0, test::quarterTurn), steady, 1e-3, plateOf(0.1, 45, 45 / 1.25e-5), row.time_s);
    INFO(row.time_s << " s");
    CHECK(100 * heat.rise_K_W({Point::Zero(), 10}).front_K == Catch::Approx(row.rise_K).epsilon(0.01));
  }
}

TEST_CASE("A wide beam heats a sheet through as a slab under constant flux", "[heat]") {
  struct Row {
    double time_s, front_K, back_K;
  };
  // Carslaw and Jaeger 2nd ed. section 3.8: 0.8 mm of steel (k 53.334, rho c 7850 x 439.8), 1 MW/m2, back face insulated.
  const double w = 0.1, power = 1e6 * pi * w * w / 2;
  const Frame frame = test::straightLine(1e-9, 1e-12);
  for (const Row& row : {Row{2e-3, 3.719, 0.0032}, Row{10e-3, 8.340, 1.401}}) {
    const PathHeat heat(frame, Travel(0, test::quarterTurn), steady, w, plateOf(0.8e-3, 53.334, 7850 * 439.8), row.time_s);
    const FacesRise rise = heat.rise_K_W({Point::Zero(), 10});
    INFO(row.time_s << " s");
    CHECK(power * rise.front_K == Catch::Approx(row.front_K).epsilon(0.005));
    CHECK(power * rise.back_K == Catch::Approx(row.back_K).margin(0.003).epsilon(0.005));
    CHECK(power * heat.riseAtDepth_K_W({Point::Zero(), 10}, 0) == Catch::Approx(power * rise.front_K));
    CHECK(power * heat.riseAtDepth_K_W({Point::Zero(), 10}, 0.8e-3) == Catch::Approx(power * rise.back_K));
  }
}

namespace {

/// A raster of pulses, every pulse with all its images, nothing merged. Per watt of mean power while lit.
struct PulseByPulse {
  const Frame& frame;
  Travel travel;
  double rate_Hz;
  double radius_m;
  Plate plate;
  double oldest_s;

  double rise_K_W(const Point& place, double time_s, double youngest_s, double depth_m) const {
    double sum = 0;
    const double period = frame.period_s(), a = plate.diffusivity_m2_s();
    const auto perFrame = static_cast<int>(std::ceil(period * rate_Hz - 1e-9));
    for (double n = std::floor((time_s - oldest_s) / period) - 1; n * period <= time_s; ++n) {
      for (int k = 0; k < perFrame; ++k) {
        const double inFrame = k / rate_Hz, age = time_s - n * period - inFrame;
        if (age < youngest_s - 0.4 / rate_Hz || age > oldest_s) continue;
        const Stretch& stretch = frame.stretchAt(inFrame);
        if (!stretch.lit) continue;
        const Point beam = travel.onPart(stretch.at(inFrame - stretch.begin_s), n * period + inFrame);
        const double s2 = radius_m * radius_m / 4 + 2 * a * age;
        double images = 0;
        for (int m = -8; m <= 8; ++m) images += std::exp(-std::pow(depth_m - 2 * m * plate.thickness_m, 2) / (4 * a * age));
        sum += 2 / rate_Hz / (plate.heatCapacity_J_m3K * std::sqrt(4 * pi * a * age)) * images / (2 * pi * s2) *
               std::exp(-(beam - place).squaredNorm() / (2 * s2));
      }
    }
    return sum;
  }
};

}  // namespace

TEST_CASE("Near heat of a raster agrees with the sum over all its pulses", "[heat]") {
  struct Row {
    double rate_Hz, radius_m, speed_m_s, thickness_m, conductivity, heatCapacity;
  };
  std::mt19937 random(3);
  const Travel travel(8e-3, test::quarterTurn);
  for (const Row& row : {Row{240e3, 60e-6, 9, 1.2e-3, 53, 3.45e6}, Row{240e3, 150e-6, 4, 0.7e-3, 53, 3.45e6}, Row{1e6, 60e-6, 9, 1.2e-3, 16, 3.9e6},
                         Row{40e3, 100e-6, 2, 1.5e-3, 200, 2.45e6}}) {
    const Frame frame = test::raster(32e-3, 2e-3, row.speed_m_s, 0.08e-3, 250e-6);
    const Plate plate = plateOf(row.thickness_m, row.conductivity, row.heatCapacity);
    const PathHeat heat(frame, travel, {true, row.rate_Hz, 1}, row.radius_m, plate, 10);
    const double least = 1e-4 * heat.rise_K_W({Point::Zero(), 0.5 * frame.period_s(), 1 / row.rate_Hz}).front_K;  // below, nobody asks
    const PulseByPulse brute{frame, travel, row.rate_Hz, row.radius_m, plate, plate.mixingAge_s()};
    for (int i = 0; i < 12; ++i) {
      // At a pulse, under the beam or off it by up to two spots: where temperatures are looked for.
      const double time = std::floor(std::uniform_real_distribution<>(0, frame.period_s())(random) * row.rate_Hz) / row.rate_Hz;
      const Stretch& stretch = frame.stretchAt(time);
      const auto off = [&] { return i < 4 ? 0 : std::uniform_real_distribution<>(-2, 2)(random) * row.radius_m; };
      const Point place = travel.onPart(stretch.at(time - stretch.begin_s), time) + Point(off(), off());
      const FacesRise rise = heat.rise_K_W({place, time, 1 / row.rate_Hz});
      const double front = brute.rise_K_W(place, time, 1 / row.rate_Hz, 0), back = brute.rise_K_W(place, time, 1 / row.rate_Hz, plate.thickness_m);
      INFO(row.rate_Hz << " Hz, place " << i << ": front " << rise.front_K << " for " << front << ", back " << rise.back_K << " for " << back);
      CHECK(rise.front_K == Catch::Approx(front).epsilon(0.01).margin(least));
      CHECK(rise.back_K == Catch::Approx(back).epsilon(0.01).margin(least));
    }
  }
}
