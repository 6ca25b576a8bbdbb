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

using std::numbers::pi;
const Emission steady{false, 0, 1};

/// Rise per absorbed watt on a very thick plate, `ahead` of a beam that has come along a straight line in x for a long time.
class MovingSpot {
 public:
  MovingSpot(double speed_m_s, double radius_m, double conductivity, double diffusivity, double past_s)
      : m_past(past_s),
        m_speed(speed_m_s),
        m_frame(test::straightLine(4 * speed_m_s * past_s, speed_m_s)),
        m_heat(m_frame, test::quarterTurn, steady, radius_m,
               plateOf(20 * std::sqrt(diffusivity * past_s), conductivity, conductivity / diffusivity), endlessTour(0), past_s) {}

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
    const PathHeat heat(frame, test::quarterTurn, steady, 1e-3, plateOf(0.1, 45, 45 / 1.25e-5), endlessTour(0), row.time_s);
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
  for (const Row& row : {Row{2e-3, 3.719, 0.0032}, Row{10e-3, 8.340, 1.401}, Row{100e-3, 41.21, 33.71}}) {
    const PathHeat heat(frame, test::quarterTurn, steady, w, plateOf(0.8e-3, 53.334, 7850 * 439.8), endlessTour(0), row.time_s);
    const FacesRise rise = heat.rise_K_W({Point::Zero(), 10});
    INFO(row.time_s << " s");
    CHECK(power * rise.front_K == Catch::Approx(row.front_K).epsilon(0.005));
    CHECK(power * rise.back_K == Catch::Approx(row.back_K).margin(0.003).epsilon(0.005));
    CHECK(power * heat.riseAtDepth_K_W({Point::Zero(), 10}) == Catch::Approx(power * rise.front_K));
    CHECK(power * heat.riseAtDepth_K_W({Point::Zero(), 10, 0, 0, Smear::Beam, 0.8e-3}) == Catch::Approx(power * rise.back_K).epsilon(1e-3));
  }
}

namespace {

/// A tour of pulses, every pulse with all its images, nothing merged. Per watt of mean power while lit.
struct PulseByPulse {
  const Frame& frame;
  double angle_rad;
  double rate_Hz;
  double radius_m;
  Plate plate;
  HandTour tour;
  double oldest_s;

  double rise_K_W(const Point& place, double time_s, double youngest_s, double depth_m) const {
    double sum = 0;
    for (const TourStroke& stroke : tour.strokes) {
      const double period = frame.period_s(), from = std::max(stroke.begin_s, time_s - oldest_s) - stroke.clock_s;
      const double to = std::min(stroke.end_s, time_s) - stroke.clock_s;
      for (double n = std::floor(from / period); n * period <= to; ++n) sum += ofFrame(stroke, n, place, time_s, youngest_s, depth_m);
    }
    return sum;
  }

 private:
  double ofFrame(const TourStroke& stroke, double n, const Point& place, double time_s, double youngest_s, double depth_m) const {
    const Travel turned(0, angle_rad);
    const auto perFrame = static_cast<int>(std::ceil(frame.period_s() * rate_Hz - 1e-9));
    const double a = plate.diffusivity_m2_s();
    double sum = 0;
    for (int k = 0; k < perFrame; ++k) {
      const double inFrame = k / rate_Hz, fired = stroke.clock_s + n * frame.period_s() + inFrame, age = time_s - fired;
      if (age < youngest_s - 0.4 / rate_Hz || age > oldest_s || fired < stroke.begin_s || fired >= stroke.end_s) continue;
      const Stretch& stretch = frame.stretchAt(inFrame);
      if (!stretch.lit) continue;
      const Point beam = stroke.middleAt(fired) + turned.onPart(stretch.at(inFrame - stretch.begin_s), 0);
      const double s2 = radius_m * radius_m / 4 + 2 * a * age;
      double images = 0;
      for (int m = -60; m <= 60; ++m) {
        const double z = depth_m - 2 * m * plate.thickness_m;
        if (z * z < 200 * a * age) images += std::exp(-z * z / (4 * a * age));
      }
      sum += 2 / rate_Hz / (plate.heatCapacity_J_m3K * std::sqrt(4 * pi * a * age)) * images / (2 * pi * s2) * around(beam, place, s2) *
             std::exp(-plate.lossRate_1_s() * age);
    }
    return sum;
  }

  /// With the mirror images in the part's edges.
  double around(const Point& beam, const Point& place, double s2) const {
    if (std::isinf(tour.part_m.x())) return std::exp(-(beam - place).squaredNorm() / (2 * s2));
    if ((beam.array() < 0).any() || (beam.array() > tour.part_m.array()).any()) return 0;
    double product = 1;
    for (int axis = 0; axis < 2; ++axis) {
      double sum = 0;
      for (int m = -2; m <= 2; ++m) {
        const double shift = 2 * m * tour.part_m[axis];
        for (const double at : {beam[axis] + shift, shift - beam[axis]}) sum += std::exp(-std::pow(at - place[axis], 2) / (2 * s2));
      }
      product *= sum;
    }
    return product;
  }
};

}  // namespace

TEST_CASE("Near heat of a raster agrees with the sum over all its pulses", "[heat]") {
  struct Row {
    double rate_Hz, radius_m, speed_m_s, thickness_m, conductivity, heatCapacity;
  };
  std::mt19937 random(3);
  for (const Row& row : {Row{240e3, 60e-6, 9, 1.2e-3, 53, 3.45e6}, Row{240e3, 150e-6, 4, 0.7e-3, 53, 3.45e6}, Row{1e6, 60e-6, 9, 1.2e-3, 16, 3.9e6},
                         Row{40e3, 100e-6, 2, 1.5e-3, 200, 2.45e6}}) {
    const Frame frame = test::raster(32e-3, 2e-3, row.speed_m_s, 0.08e-3, 250e-6);
    const Plate plate = plateOf(row.thickness_m, row.conductivity, row.heatCapacity);
    const HandTour tour = endlessTour(8e-3);
    constexpr double oldest_s = 0.3;  // so that the last line, cut where the query ends, is nothing
    const PathHeat heat(frame, test::quarterTurn, {true, row.rate_Hz, 1}, row.radius_m, plate, tour, oldest_s);
    const double least = 1e-4 * heat.rise_K_W({Point::Zero(), 0.5 * frame.period_s(), 1 / row.rate_Hz}).front_K;  // below, nobody asks
    const PulseByPulse brute{frame, test::quarterTurn, row.rate_Hz, row.radius_m, plate, tour, oldest_s};
    const Travel travel(8e-3, test::quarterTurn);
    for (int i = 0; i < 12; ++i) {
      // At a pulse, under the beam or off it by up to two spots: where temperatures are looked for.
      const double time = std::floor(std::uniform_real_distribution<>(0, frame.period_s())(random) * row.rate_Hz) / row.rate_Hz;
      const Stretch& stretch = frame.stretchAt(time);
      const auto off = [&] { return i < 4 ? 0 : std::uniform_real_distribution<>(-2, 2)(random) * row.radius_m; };
      const Point place = travel.onPart(stretch.at(time - stretch.begin_s), time) + Point(off(), off());
      const FacesRise rise = heat.rise_K_W({place, time, 1 / row.rate_Hz});
      const double front = brute.rise_K_W(place, time, 1 / row.rate_Hz, 0), back = brute.rise_K_W(place, time, 1 / row.rate_Hz, plate.thickness_m);
      INFO(row.rate_Hz << " Hz, place " << i << ": front " << rise.front_K << " for " << front << ", back " << rise.back_K << " for " << back);
      CHECK(rise.front_K == Catch::Approx(front).epsilon(0.035).margin(least));
      CHECK(rise.back_K == Catch::Approx(back).epsilon(0.035).margin(least));
      const double bound = heat.bound_K_W({place, time, 1 / row.rate_Hz}) + least;
      CHECK(std::abs(rise.front_K - front) <= bound + 0.005 * front);
      CHECK(std::abs(rise.back_K - back) <= bound + 0.005 * back);
    }
  }
}

namespace {

/// A small part, so that every pulse of a whole tour can be summed: two passes of two swaths in its middle, or of three that hang over its
/// edges.
HandTour smallTour(bool overEdges) {
  TourPlan plan;
  plan.part_m = Point(30e-3, 20e-3);
  if (!overEdges) plan.area_m2 = 0.3 * plan.part_m.prod();
  plan.travelSpeed_m_s = 10e-3;
  plan.stepOver_m = 9e-3;
  plan.passes = 2;
  plan.pause_s = 1;
  return tourOf(plan);
}

}  // namespace

TEST_CASE("Through lines, frames, swaths and passes near heat stays within its own bound of the sum over all pulses", "[heat]") {
  constexpr double rate_Hz = 10e3, radius_m = 150e-6;
  const HandTour tour = smallTour(false);
  std::mt19937 random(11);
  for (const Pattern pattern :
       {Pattern::Raster, Pattern::Line, Pattern::Sine, Pattern::Crossed, Pattern::Circles, Pattern::Spiral, Pattern::TwoSine}) {
    const Frame frame = test::smallFrame(pattern);
    for (const double thickness_m : {0.8e-3, 8e-3}) {  // a sheet, and a part in which no heat crosses before the next swath comes
      const Plate plate = plateOf(thickness_m, 53, 3.45e6, 12);
      const double oldest = 6;
      const PathHeat heat(frame, test::quarterTurn, {true, rate_Hz, 1}, radius_m, plate, tour, oldest);
      const PulseByPulse brute{frame, test::quarterTurn, rate_Hz, radius_m, plate, tour, oldest};
      double worst = 0, loosest = 0;
      for (int i = 0; i < 6; ++i) {
        const double share = std::uniform_real_distribution<>(0, 1)(random);
        const double time = std::floor(share * tour.end_s() * rate_Hz) / rate_Hz;
        const auto any = [&](double size) { return std::uniform_real_distribution<>(0, size)(random); };
        const Point place(any(tour.part_m.x()), any(tour.part_m.y()));
        const double youngest = i % 2 == 0 ? 1 / rate_Hz : 20e-3;
        const FacesRise rise = heat.rise_K_W({place, time, youngest});
        const double bound = heat.bound_K_W({place, time, youngest});
        const double front = brute.rise_K_W(place, time, youngest, 0), back = brute.rise_K_W(place, time, youngest, thickness_m);
        // One pulse more or less where the query begins to look back is not the coarsening's doing.
        const double onePulse =
            brute.rise_K_W(place, time, std::max(youngest - 1 / rate_Hz, 0.5 / rate_Hz), 0) - brute.rise_K_W(place, time, youngest + 1 / rate_Hz, 0) + 1e-9;
        INFO("pattern " << static_cast<int>(pattern) << ", " << thickness_m << " m, query " << i << " at " << time << " s: front "
                        << rise.front_K << " for " << front << ", back " << rise.back_K << " for " << back << ", bound " << bound);
        CHECK(std::abs(rise.front_K - front) <= bound + 8e-3 * front + onePulse);
        CHECK(std::abs(rise.back_K - back) <= bound + 8e-3 * back + onePulse);
        if (front > 0.01) {
          worst = std::max(worst, std::abs(rise.front_K - front) / front);
          loosest = std::max(loosest, bound / front);
        }
      }
      CAPTURE(worst, loosest);
      CHECK(worst < 0.03);
    }
  }
}

TEST_CASE("Light that goes over the part's edge is lost, within what rounding its way there to pieces allows", "[heat]") {
  constexpr double rate_Hz = 10e3, radius_m = 150e-6;
  const HandTour tour = smallTour(true);
  std::mt19937 random(5);
  for (const Pattern pattern : {Pattern::Raster, Pattern::Line, Pattern::Crossed, Pattern::Spiral}) {
    const Frame frame = test::smallFrame(pattern);
    const Plate plate = plateOf(0.8e-3, 53, 3.45e6, 12);
    const PathHeat heat(frame, test::quarterTurn, {true, rate_Hz, 1}, radius_m, plate, tour, 6);
    const PulseByPulse brute{frame, test::quarterTurn, rate_Hz, radius_m, plate, tour, 6};
    for (int i = 0; i < 6; ++i) {
      const auto any = [&](double size) { return std::uniform_real_distribution<>(0, size)(random); };
      const Point place(any(tour.part_m.x()), any(tour.part_m.y()));
      const double time = any(tour.end_s()), front = brute.rise_K_W(place, time, 0.02, 0);
      INFO("pattern " << static_cast<int>(pattern) << ", query " << i);
      CHECK(heat.rise_K_W({place, time, 0.02}).front_K == Catch::Approx(front).epsilon(0.04).margin(0.01));
    }
  }
}

TEST_CASE("A query's cost grows with the decades it looks back, not with the pulses", "[heat]") {
  const Frame frame = test::raster(32e-3, 14e-3, 9, 0.08e-3, 250e-6);
  const Plate thick = plateOf(0.05, 53, 3.45e6);
  const auto pieces = [&](double oldest_s) {
    const PathHeat heat(frame, test::quarterTurn, {true, 240e3, 1}, 60e-6, thick, endlessTour(8e-3), oldest_s);
    return heat.pieces({Point::Zero(), 0, 1 / 240e3});
  };
  const int second = pieces(1), ten = pieces(10), hundred = pieces(100);  // 2.4e5, 2.4e6 and 2.4e7 pulses
  CAPTURE(second, ten, hundred);
  CHECK(hundred - ten < 1.5 * (ten - second));
  CHECK(hundred < 2500);
}

TEST_CASE("A line beam over a thin plate follows Rosenthal", "[heat]") {
  struct Row {
    double behind_m, aside_m, rise_K;
  };
  // D. Rosenthal 1946: dT = q/(2 pi k h) exp(-v xi/2a) K0(v r/2a); q 100 W, v 5 mm/s, k 45, a 1.25e-5, h 0.8 mm, xi ahead.
  const double k = 45, a = 1.25e-5;
  const Frame frame = test::straightLine(1e-9, 1e-12);  // a spot that only the hand moves
  const PathHeat heat(frame, test::quarterTurn, steady, 0.1e-3, plateOf(0.8e-3, k, k / a), endlessTour(5e-3), 400);
  for (const Row& row : {Row{5e-3, 0, 506.0}, Row{10e-3, 0, 372.1}, Row{0, 5e-3, 186.1}, Row{-5e-3, 0, 68.47}}) {
    const FacesRise rise = heat.rise_K_W({Point(row.aside_m, -row.behind_m), 0});
    INFO(row.behind_m << " m behind, " << row.aside_m << " aside");
    CHECK(100 * 0.5 * (rise.front_K + rise.back_K) == Catch::Approx(row.rise_K).epsilon(0.005));
  }
}

TEST_CASE("A still Gaussian spot settles at A P / (sqrt(2 pi) k w) on a half-space", "[heat]") {
  // Carslaw and Jaeger 2nd ed. section 10.5; Lax 1977: 100 W, w 1 mm, k 45: 886.5 K. After 400 s 0.3 % is still to come.
  const Frame frame = test::straightLine(1e-9, 1e-12);
  const PathHeat heat(frame, test::quarterTurn, steady, 1e-3, plateOf(10, 45, 45 / 1.25e-5), endlessTour(0), 400);
  CHECK(100 * heat.rise_K_W({Point::Zero(), 0}).front_K == Catch::Approx(886.5).epsilon(0.006));
}

TEST_CASE("Half-space and slab under a wide beam follow the constant-flux solutions of a handbook", "[heat]") {
  // J. P. Holman, Heat Transfer, example 4-2: steel, k 45, a 1.4e-5, 35 C, 3.2e5 W/m2 for 30 s: 79.3 C at 25 mm, 199.4 C at the face.
  const double w = 2, power = 3.2e5 * pi * w * w / 2;  // so wide that nothing escapes sideways
  const Frame frame = test::straightLine(1e-9, 1e-12);
  const PathHeat heat(frame, test::quarterTurn, steady, w, plateOf(1, 45, 45 / 1.4e-5), endlessTour(0), 30);
  CHECK(35 + power * heat.rise_K_W({Point::Zero(), 0}).front_K == Catch::Approx(199.4).epsilon(0.003));
  CHECK(35 + power * heat.riseAtDepth_K_W({Point::Zero(), 0, 0, 0, Smear::Beam, 25e-3}) == Catch::Approx(79.3).epsilon(0.003));
}
