// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/work_heat.h"

#include "core/heat/heat_trace.h"
#include "core/heat/tint.h"
#include "tests/core/heat/beams.h"
#include "tests/support/catch.h"
#include "tests/support/table.h"

#include <algorithm>
#include <cmath>

using namespace bw;

namespace {

/// A tour over a small part, both scales.
struct Job {
  PartSheet sheet;
  Frame frame;
  Plate plate;
  PartHeat part;
  PathHeat near;
  PartRun run;
  WorkHeat heat;

  Job(const PartSheet& of, const Frame& lines, const Emission& emission, double radius_m, HandTour tour, double power_W, double cooling_s,
      double cells = 900)
      : sheet(of),
        frame(lines),
        plate(plateAt(of, 20)),
        part(of, {cells}, plate, radius_m, lines.period_s()),
        near(frame, test::quarterTurn, emission, radius_m, plate, std::move(tour), part.handover_s()),
        run(part.run(near.tour(), near.boxes(), power_W, cooling_s)),
        heat(near, part.enthalpy(), run.field, power_W) {}
  Job(const Job&) = delete;
};

PartSheet steelSheet(double thickness_m) {
  return {{ThermalCurve::Constant, ThermalCurve::Constant, 50, 480, 7850}, thickness_m, Point(0.12, 0.08), 12, 0, 20, 20};
}

HandTour twoSwaths() {
  HandTour tour;
  tour.part_m = Point(0.12, 0.08);
  tour.strokes = {{0, 15, 0, Point(0.05, 0.01), 4e-3, 1, 0}, {15, 30, 15, Point(0.07, 0.07), -4e-3, 1, 0}};
  return tour;
}

/// A line of 20 mm there and back at 100 mm/s.
Frame swinging() {
  Settings settings;
  settings.pattern = Pattern::Line;
  settings.width_m = 20e-3;
  settings.scanSpeed_m_s = 0.1;
  return buildFrame(settings, {});
}

}  // namespace

TEST_CASE("The joined curve is the same wherever near heat hands over to the part", "[heat]") {
  const Job fine(steelSheet(1.5e-3), swinging(), {false, 0, 1}, 3e-3, twoSwaths(), 120, 30, 3000);
  const Job coarse(steelSheet(1.5e-3), swinging(), {false, 0, 1}, 3e-3, twoSwaths(), 120, 30, 150);
  CHECK(fine.part.handover_s() < 0.6 * coarse.part.handover_s());
  for (const Point& place : {Point(0.05, 0.04), Point(0.06, 0.02), Point(0.1, 0.04), Point(0.001, 0.079)}) {
    for (const double time : {1.0, 7.5, 7.6, 15.1, 22.0, 29.9, 40.0, 60.0}) {
      const Faces a = fine.heat.at({place, time}), b = coarse.heat.at({place, time});
      INFO("at " << place.x() << ", " << place.y() << " after " << time << " s: " << a.front_C << " and " << b.front_C);
      CHECK(a.front_C == Catch::Approx(b.front_C).epsilon(0.01).margin(0.3));
      CHECK(a.back_C == Catch::Approx(b.back_C).epsilon(0.01).margin(0.3));
    }
  }
}

TEST_CASE("The joined curve is the full Green's sum", "[heat]") {
  // Near heat that never hands over is the whole sum, with the part's edges and losses.
  const Job job(steelSheet(1.5e-3), swinging(), {false, 0, 1}, 3e-3, twoSwaths(), 120, 30);
  const PathHeat whole(job.frame, test::quarterTurn, {false, 0, 1}, 3e-3, job.plate, twoSwaths(), 1e3);
  for (const Point& place : {Point(0.05, 0.04), Point(0.07, 0.03), Point(0.11, 0.07)}) {
    for (const double time : {3.0, 12.0, 20.0, 29.0, 45.0}) {
      const FacesRise rise = whole.rise_K_W({place, time});
      const Faces faces = job.heat.at({place, time});
      INFO("at " << place.x() << ", " << place.y() << " after " << time << " s");
      CHECK(faces.front_C - 20 == Catch::Approx(120 * rise.front_K).epsilon(0.01).margin(0.2));
      CHECK(faces.back_C - 20 == Catch::Approx(120 * rise.back_K).epsilon(0.01).margin(0.2));
    }
  }
}

TEST_CASE("A trace sees every crossing of its place and the cooling", "[heat]") {
  TourPlan plan;
  plan.part_m = Point(0.12, 0.08);
  plan.travelSpeed_m_s = 8e-3;
  plan.stepOver_m = 28e-3;
  plan.passes = 3;
  plan.pause_s = 20;
  const Frame frame = test::raster(30e-3, 10e-3, 4, 0.2e-3, 250e-6);
  const Job job(steelSheet(1.2e-3), frame, {true, 100e3, 1}, 1e-4, tourOf(plan), 80, 200);
  const Point place(0.042, 0.04);
  const auto times = traceTimes(job.near.tour(), job.near.boxes(), place, 200);
  CHECK(std::ranges::is_sorted(times));
  CHECK(std::ranges::adjacent_find(times) == times.end());
  CHECK(times.back() == Catch::Approx(job.near.tour().end_s() + 200));
  const FaceHistory trace = traceAt(job.heat, place, times);
  int peaks = 0;
  for (const double begin : job.near.tour().passStart_s) {
    double peak = 0, before = 1e9;
    for (std::size_t i = 0; i < times.size(); ++i) {
      if (times[i] < begin || times[i] > begin + 50) continue;
      peak = std::max(peak, trace.front_C[i]);
      before = std::min(before, trace.front_C[i]);
      CHECK(trace.part_C[i] <= trace.front_C[i] + 1e-6);
    }
    peaks += peak > before + 40 ? 1 : 0;
  }
  CHECK(peaks == 3);
  CHECK(trace.front_C.back() < 0.6 * *std::ranges::max_element(trace.front_C));
}

namespace {

/// The mean of so many moments of the ten milliseconds up to a time.
FacesRise meanOfMoments(const PathHeat& near, const Point& place, double end_s, int moments) {
  FacesRise mean;
  for (int i = 0; i < moments; ++i) {
    const double time = end_s - patchTime_s * (i + 0.5) / moments, patch = near.spotRadius_m() * near.spotRadius_m() / 4;
    const FacesRise rise = near.rise_K_W({place, time, 0, patch});
    mean.front_K += rise.front_K / moments;
    mean.back_K += rise.back_K / moments;
  }
  return mean;
}

}  // namespace

TEST_CASE("Means over ten milliseconds by smeared lines are those of the beam itself", "[heat]") {
  const Frame frame = test::raster(30e-3, 10e-3, 8, 0.1e-3, 250e-6);
  const Job job(steelSheet(1.2e-3), frame, {true, 200e3, 1}, 1e-4, twoSwaths(), 80, 10);
  const double patch = 1e-4 * 1e-4 / 4;
  for (const double late : {0.02, 0.05, 0.3}) {  // after the lines have gone over
    const Point place(0.05, 0.04);
    const double time = 7.5 + late;
    const FacesRise beam = patchMean(job.near, place, time), lines = job.near.rise_K_W({place, time, 0, patch, Smear::Lines});
    INFO(late << " s");
    CHECK(lines.front_K == Catch::Approx(beam.front_K).epsilon(0.05));
    CHECK(lines.back_K == Catch::Approx(beam.back_K).epsilon(0.03));
  }
}

TEST_CASE("A mean over ten milliseconds is that of its moments", "[heat]") {
  struct Row {
    Pattern pattern;
    double height_m;
    Emission emission;
  };
  const Emission pulses{true, 200e3, 1}, steady{false, 0, 1};
  for (const Row& row : {Row{Pattern::Raster, 6e-3, pulses}, Row{Pattern::Line, 0, steady}, Row{Pattern::Line, 0, pulses},
                         Row{Pattern::Circles, 0, steady}, Row{Pattern::Sine, 0, steady}}) {
    Settings settings;
    settings.pattern = row.pattern;
    settings.width_m = 25e-3;
    settings.height_m = row.height_m;
    settings.scanSpeed_m_s = 6;
    settings.lineSpacing_m = 0.4e-3;
    settings.oscillationRate_Hz = 120;
    ScanHead head;
    head.turnaround_s = 250e-6;
    const Frame frame = buildFrame(settings, head);
    const Job job(steelSheet(1.2e-3), frame, row.emission, 2e-4, twoSwaths(), 80, 10);
    for (const Point& place : {Point(0.05, 0.0401), Point(0.0412, 0.0402)}) {
      for (const double time : {7.5037, 7.6}) {
        const FacesRise mean = patchMean(job.near, place, time), moments = meanOfMoments(job.near, place, time, 600);
        INFO(static_cast<int>(row.pattern) << (row.emission.pulsed ? " pulsed" : " continuous") << " at " << place.transpose() << ", "
                                           << time);
        CHECK(mean.front_K == Catch::Approx(moments.front_K).epsilon(0.02));  // five nodes, and moments that miss flashes
        CHECK(mean.back_K == Catch::Approx(moments.back_K).epsilon(0.02));
      }
    }
  }
}

TEST_CASE("The film of a place in fine time is that of the beam, not of its means", "[heat]") {
  const Frame frame = test::raster(10e-3, 4e-3, 2, 0.1e-3, 0);
  const Job job(steelSheet(3e-3), frame, {true, 50e3, 1}, 1e-4, twoSwaths(), 30, 10);
  const TourStroke& stroke = job.near.tour().strokes.front();
  const HeatQuery at{Point(0.05, 0.04), 7.5, 1 / 50e3};
  const FineHistory fine = fineHistory(job.near, job.frame, test::quarterTurn, at, stroke, 7, 8, 30);
  REQUIRE(fine.time_s.size() == fine.rise.size());
  CHECK(std::ranges::is_sorted(fine.time_s));
  const auto passages = passagesAt(job.frame, test::quarterTurn, stroke, at.place, 1.5e-4, 7, 8);
  REQUIRE_FALSE(passages.empty());
  double peak = 0, mean = 0;
  for (std::size_t i = 1; i < fine.time_s.size(); ++i) {
    peak = std::max(peak, fine.rise[i].front_K);
    mean += 0.5 * (fine.rise[i].front_K + fine.rise[i - 1].front_K) * (fine.time_s[i] - fine.time_s[i - 1]);
  }
  CHECK(peak > 3 * mean);
  const FaceHistory trace = traceAt(job.heat, at.place, traceTimes(job.near.tour(), job.near.boxes(), at.place, 10));
  const double slow = equivalentTintTemperature_C(trace.time_s, trace.front_C);
  CHECK(tenMinuteTemperature_C(grownFilm_m2(job.heat, trace, fine, at.place, 7.5, 1500)) >= slow - 1);
}

TEST_CASE("Lines, frames and swaths of a plate follow packaged finite elements in three dimensions", "[heat]") {
  // tests/reference/SOURCES.md, heated plate: 120 x 80 x 1.5 mm, 120 W in a swinging spot of radius 3 mm, two swaths, then cooling.
  const Job job(steelSheet(1.5e-3), swinging(), {false, 0, 1}, 3e-3, twoSwaths(), 120, 30, 2000);
  const Point probes[] = {{0.05, 0.04}, {0.06, 0.04}, {0.07, 0.04}, {0.04, 0.04}, {0.07, 0.011}, {0.06, 0.069}, {0.03, 0.04}};
  double worst = 0, most = 0;
  for (const std::vector<double>& row : test::readTable("reference/heat/plate_frames.csv")) {
    if (row[0] <= 0) continue;
    for (std::size_t i = 0; i < std::size(probes); ++i) {
      const Faces faces = job.heat.at({probes[i], row[0]});
      worst = std::max({worst, std::abs(faces.front_C - row[1 + 2 * i]), std::abs(faces.back_C - row[2 + 2 * i])});
      most = std::max(most, row[1 + 2 * i]);
    }
  }
  CAPTURE(worst, most);
  CHECK(worst < 0.02 * most);
}
