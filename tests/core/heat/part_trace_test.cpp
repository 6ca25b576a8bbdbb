// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/part_trace.h"

#include "tests/core/heat/beams.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

using namespace bw;

namespace {

const Plate sheet = test::plateOf(1.2e-3, 52, 3.5e6, 12);
const Travel travel(8e-3, test::quarterTurn);
constexpr double radius_m = 100e-6;

Frame smallRaster() { return test::raster(20e-3, 3e-3, 6, 0.15e-3, 250e-6); }

Tour tourOf(const Frame& frame, int passes) {
  Tour tour;
  tour.travelSpeed_m_s = travel.speed_m_s();
  tour.stepOver_m = tour.frameAcross_m = 0.02;
  tour.strokeLength_m = tour.partAlong_m = 0.2;
  tour.swaths = 4;
  tour.partAcross_m = 0.08;
  tour.passes = passes;
  tour.pause_s = 3;
  tour.frameAlong_m = 3e-3;
  CHECK(frame.litFraction() > 0.9);
  return tour;
}

}  // namespace

TEST_CASE("The hottest spot found is as hot as a scan of the whole frame finds", "[heat]") {
  struct Row {
    bool pulsed;
    double turnaround_s, radius_m;
  };
  for (const Row& row : {Row{true, 250e-6, 60e-6}, Row{true, 250e-6, 250e-6}, Row{true, 1e-3, 100e-6}, Row{true, 0, 100e-6}, Row{false, 250e-6, 100e-6}, Row{false, 1e-3, 250e-6}}) {
    const bool pulsed = row.pulsed;
    const Frame frame = test::raster(20e-3, 3e-3, 6, 0.15e-3, row.turnaround_s);
    const Emission emission{pulsed, pulsed ? 100e3 : 0.0, 1};
    const PathHeat near(frame, travel, emission, row.radius_m, sheet, 10);
    const HotSpot hot = hottestSpot(near, frame, travel, emission);
    double scanned = 0;
    const auto moments = static_cast<int>(frame.period_s() * 50e3);
    for (int i = 0; i < moments; ++i) {
      const double time = i / 50e3;  // a pulse, in step with the train
      const Stretch& stretch = frame.stretchAt(time);
      const Point place = travel.onPart(stretch.at(time - stretch.begin_s), time);
      scanned = std::max(scanned, near.rise_K_W({place, time, pulsed ? 1e-5 : 0}).front_K);
    }
    INFO((pulsed ? "pulsed" : "continuous") << ", w " << row.radius_m << " m, turns of " << row.turnaround_s << " s: found " << hot.point_K_W << ", scanned " << scanned);
    CHECK(hot.point_K_W > 0.96 * scanned);
    CHECK(hot.point_K_W == Catch::Approx(near.rise_K_W(hot.query).front_K));
    CHECK(hot.patchFront_K_W > 0);
    CHECK(hot.patchFront_K_W < hot.point_K_W);
    CHECK(hot.patchBack_K_W <= hot.patchFront_K_W);
  }
}

TEST_CASE("The hottest spot of any pattern is that of a pulse, and no other pulse meets much hotter metal", "[heat]") {
  struct Row {
    Pattern pattern;
    double turnaround_s, radius_m, rate_Hz;
  };
  for (const Row& row :
       {Row{Pattern::Circles, 250e-6, 60e-6, 100e3}, Row{Pattern::Circles, 0, 250e-6, 100e3}, Row{Pattern::Spiral, 250e-6, 60e-6, 100e3},
        Row{Pattern::Spiral, 0, 60e-6, 40e3}, Row{Pattern::Spiral, 1e-3, 250e-6, 100e3}, Row{Pattern::TwoSine, 0, 60e-6, 100e3},
        Row{Pattern::TwoSine, 0, 250e-6, 30e3}, Row{Pattern::Raster, 175e-6, 130e-6, 27.6e3}}) {
    Settings settings;
    settings.pattern = row.pattern;
    settings.width_m = settings.height_m = 3e-3;
    settings.lineSpacing_m = 0.15e-3;
    settings.scanSpeed_m_s = row.pattern == Pattern::Raster ? 1.2 : 6;
    settings.oscillationRate_Hz = 600;
    ScanHead head;
    head.turnaround_s = row.turnaround_s;
    const Frame frame = buildFrame(settings, head);
    const Emission emission{true, row.rate_Hz, 1};
    const PathHeat near(frame, travel, emission, row.radius_m, sheet, 10);
    const HotSpot hot = hottestSpot(near, frame, travel, emission);
    double hottest = 0;
    for (const Dab& dab : dabsOf(frame, travel, emission, row.radius_m))
      hottest = std::max(hottest, near.rise_K_W({dab.position, dab.time_s, 1 / row.rate_Hz}).front_K);
    INFO("pattern " << static_cast<int>(row.pattern) << ", w " << row.radius_m << " m, turns of " << row.turnaround_s << " s: found "
                    << hot.point_K_W << ", scanned " << hottest);
    CHECK(hot.point_K_W > 0.96 * hottest);
    CHECK(hot.point_K_W <= hottest * (1 + 1e-9));
    CHECK(hot.patchFront_K_W > 0);
    const bool round = row.pattern == Pattern::Circles || row.pattern == Pattern::Spiral;
    if (round) CHECK(hot.query.place.norm() < 3 * settings.lineSpacing_m + travel.speed_m_s() * frame.period_s());
  }
}

TEST_CASE("The trace runs through the whole job and is part heat with near heat at the crossings", "[heat]") {
  const Frame frame = smallRaster();
  const Emission emission{true, 100e3, 1};
  for (const int passes : {1, 3, 20}) {
    const Tour tour = tourOf(frame, passes);
    const PathHeat near(frame, travel, emission, radius_m, sheet, tour.strokeTime_s());
    const PartHeat part(sheet, tour);
    const PartTrace trace = traceOf(near, part, tour, frame, frame.litFraction());
    REQUIRE(trace.time_s.size() > 50);
    REQUIRE(trace.part_K_W.size() == trace.time_s.size());
    REQUIRE(trace.nearFront_K_W.size() == trace.time_s.size());
    REQUIRE(trace.nearBack_K_W.size() == trace.time_s.size());
    CHECK(std::ranges::adjacent_find(trace.time_s, std::greater_equal<>()) == trace.time_s.end());
    CHECK(trace.time_s.back() > tour.workTime_s());
    for (std::size_t i = 0; i < trace.time_s.size(); ++i) {
      CHECK(trace.part_K_W[i] == Catch::Approx(frame.litFraction() * part.rise_K_W(trace.time_s[i])));
      CHECK(trace.nearBack_K_W[i] <= trace.nearFront_K_W[i] * (1 + 1e-9));
    }
    const auto peak = std::ranges::max_element(trace.nearFront_K_W) - trace.nearFront_K_W.begin();
    const double when = trace.time_s[static_cast<std::size_t>(peak)];
    double nearest = 1e9;
    for (int pass = 0; pass < passes; ++pass) nearest = std::min(nearest, std::abs(when - tour.crossing_s(pass)));
    CHECK(nearest < tour.frameAlong_m / tour.travelSpeed_m_s);
  }
}
