// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/hot_place.h"

#include "tests/core/heat/beams.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace bw;

namespace {

const Plate sheet = test::plateOf(1.2e-3, 52, 3.5e6, 12);
const Travel travel(8e-3, test::quarterTurn);

}  // namespace

TEST_CASE("The hottest spot found is as hot as a scan of the whole frame finds", "[heat]") {
  struct Row {
    bool pulsed;
    double turnaround_s, radius_m;
  };
  for (const Row& row : {Row{true, 250e-6, 60e-6}, Row{true, 250e-6, 250e-6}, Row{true, 1e-3, 100e-6}, Row{true, 0, 100e-6},
                         Row{false, 250e-6, 100e-6}, Row{false, 1e-3, 250e-6}}) {
    const bool pulsed = row.pulsed;
    const Frame frame = test::raster(20e-3, 3e-3, 6, 0.15e-3, row.turnaround_s);
    const Emission emission{pulsed, pulsed ? 100e3 : 0.0, 1};
    const PathHeat near(frame, test::quarterTurn, emission, row.radius_m, sheet, endlessTour(travel.speed_m_s()), sheet.mixingAge_s());
    const HotSpot hot = hottestSpots(near, frame, test::quarterTurn, emission).front();
    double scanned = 0;
    const auto moments = static_cast<int>(frame.period_s() * 50e3);
    for (int i = 0; i < moments; ++i) {
      const double time = i / 50e3;  // a pulse, in step with the train
      const Stretch& stretch = frame.stretchAt(time);
      const Point place = travel.onPart(stretch.at(time - stretch.begin_s), time);
      scanned = std::max(scanned, near.rise_K_W({place, time, pulsed ? 1e-5 : 0}).front_K);
    }
    INFO((pulsed ? "pulsed" : "continuous") << ", w " << row.radius_m << " m, turns of " << row.turnaround_s << " s: found "
                                            << hot.point_K_W << ", scanned " << scanned);
    CHECK(hot.point_K_W > 0.96 * scanned);
    CHECK(hot.point_K_W == Catch::Approx(near.rise_K_W(hot.query).front_K));
    const FacesRise patch = patchMean(near, hot.query.place, hot.query.time_s);
    CHECK(patch.front_K > 0);
    CHECK(patch.front_K < hot.point_K_W);
    CHECK(patch.back_K <= patch.front_K);
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
    const PathHeat near(frame, test::quarterTurn, emission, row.radius_m, sheet, endlessTour(travel.speed_m_s()), sheet.mixingAge_s());
    const HotSpot hot = hottestSpots(near, frame, test::quarterTurn, emission).front();
    double hottest = 0;
    for (const Dab& dab : dabsOf(frame, travel, emission, row.radius_m))
      hottest = std::max(hottest, near.rise_K_W({dab.position, dab.time_s, 1 / row.rate_Hz}).front_K);
    INFO("pattern " << static_cast<int>(row.pattern) << ", w " << row.radius_m << " m, turns of " << row.turnaround_s << " s: found "
                    << hot.point_K_W << ", scanned " << hottest);
    CHECK(hot.point_K_W > 0.96 * hottest);
    CHECK(hot.point_K_W <= hottest * (1 + 1e-9));
    const bool round = row.pattern == Pattern::Circles || row.pattern == Pattern::Spiral;
    if (round) CHECK(hot.query.place.norm() < 3 * settings.lineSpacing_m + travel.speed_m_s() * frame.period_s());
  }
}

TEST_CASE("Nowhere and never on the part does the beam meet much hotter metal than at the place found", "[heat]") {
  PartSheet steel{{ThermalCurve::Constant, ThermalCurve::Constant, 52, 446, 7850}, 1.2e-3, Point(0.09, 0.06), 12, 0, 20, 20};
  TourPlan plan;
  plan.part_m = steel.size_m;
  plan.travelSpeed_m_s = 8e-3;
  plan.stepOver_m = 19e-3;  // the last swath hangs over the edge
  plan.passes = 2;
  const Frame frame = test::raster(20e-3, 5e-3, 3, 0.2e-3, 250e-6);
  const Emission emission{true, 50e3, 1};
  constexpr double radius_m = 150e-6, power_W = 60;
  const Plate plate = plateAt(steel, 20);
  const PartHeat part(steel, {900}, plate, radius_m, frame.period_s());
  const PathHeat near(frame, test::quarterTurn, emission, radius_m, plate, tourOf(plan), part.handover_s());
  const PartRun run = part.run(near.tour(), near.boxes(), power_W, 30);
  const WorkHeat heat(near, part.enthalpy(), run.field, power_W);
  const PathHeat steady(frame, test::quarterTurn, emission, radius_m, plate, endlessTour(8e-3), plate.mixingAge_s());
  const HotPlace hot = hottestPlace(heat, frame, test::quarterTurn, emission, hottestSpots(steady, frame, test::quarterTurn, emission));
  CHECK(heat.at(hot.query).front_C == Catch::Approx(hot.point_C));
  CHECK(hot.patch.front_C <= hot.point_C);
  CHECK(hot.patch.back_C <= hot.patch.front_C);

  double hottest = 0, patch = 0, back = 0;  // every 37th pulse of the tour
  const Travel turned(0, test::quarterTurn);
  for (const TourStroke& stroke : near.tour().strokes) {
    for (double time = stroke.begin_s; time < stroke.end_s; time += 37 * 331 / 50e3) {
      const double inFrame = std::fmod(time - stroke.clock_s, frame.period_s());
      const Stretch& stretch = frame.stretchAt(inFrame);
      const Point place = stroke.middleAt(time) + turned.onPart(stretch.at(inFrame - stretch.begin_s), 0);
      if ((place.array() < 0).any() || (place.array() > near.tour().part_m.array()).any()) continue;
      hottest = std::max(hottest, heat.at({place, time, 1 / 50e3}).front_C);
      const Faces faces = heat.with(place, time, patchMean(near, place, time));
      patch = std::max(patch, faces.front_C);
      back = std::max(back, faces.back_C);
    }
  }
  INFO("found " << hot.point_C << ", " << hot.patch.front_C << ", " << hot.patch.back_C << "; by pulses " << hottest << ", " << patch
                << ", " << back);
  CHECK(hot.point_C - 20 > 0.93 * (hottest - 20));
  CHECK(hot.patch.front_C - 20 > 0.9 * (patch - 20));
  CHECK(hot.patch.back_C - 20 > 0.9 * (back - 20));
}

namespace {

/// A small job of any kind, heated.
struct RandomJob {
  PartSheet sheet;
  TourPlan plan;
  Frame frame;
  Emission emission;
  double radius_m, power_W;
  Plate plate;
  PartHeat part;
  PathHeat near;
  PartRun run;
  WorkHeat heat;

  explicit RandomJob(std::mt19937& random)
      : sheet{{ThermalCurve::Constant, ThermalCurve::Constant, between(random, 20, 200), 446, 7850},
              between(random, 0.6e-3, 4e-3),
              Point(between(random, 0.03, 0.08), between(random, 0.03, 0.06)),
              12,
              0,
              20,
              20},
        plan(planOn(sheet, random)),
        frame(test::raster(between(random, 6e-3, 15e-3), between(random, 1e-3, 5e-3), between(random, 1.5, 6),
                           between(random, 0.15e-3, 0.4e-3), between(random, 50e-6, 400e-6))),
        emission{random() % 3U > 0, between(random, 20e3, 120e3), 1},
        radius_m(between(random, 60e-6, 250e-6)),
        power_W(between(random, 20, 80)),
        plate(plateAt(sheet, 20)),
        part(sheet, {600}, plate, radius_m, frame.period_s()),
        near(frame, test::quarterTurn, emission, radius_m, plate, tourOf(plan), part.handover_s()),
        run(part.run(near.tour(), near.boxes(), power_W, 10)),
        heat(near, part.enthalpy(), run.field, power_W) {}

  static double between(std::mt19937& random, double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
  }
  static TourPlan planOn(const PartSheet& sheet, std::mt19937& random) {
    TourPlan plan;
    plan.part_m = sheet.size_m;
    plan.travelSpeed_m_s = between(random, 5e-3, 40e-3);
    plan.stepOver_m = between(random, 6e-3, 14e-3);
    plan.passes = 1 + static_cast<int>(random() % 2U);
    return plan;
  }
  HotPlace hottest() const {
    const PathHeat steady(frame, test::quarterTurn, emission, radius_m, plate, endlessTour(plan.travelSpeed_m_s),
                          std::max(plate.mixingAge_s(), 20 / 20e3));
    return hottestPlace(heat, frame, test::quarterTurn, emission, hottestSpots(steady, frame, test::quarterTurn, emission));
  }
};

/// A patch somewhere at some time, with frames of any phase.
struct Patch {
  Point place;
  double end_s;
  FrameShift frames;
  double hottest_C = 0;  // of one face
};

/// Climbs by chance: ever smaller steps of everything at once, each kept that makes the face hotter.
double climbed_C(const RandomJob& in, Patch patch, double Faces::*face, std::mt19937& random) {
  const auto step = [&](double size) { return RandomJob::between(random, -size, size) * std::pow(RandomJob::between(random, 0, 1), 2); };
  constexpr int tries = 120;
  for (int i = 0; i < tries; ++i) {
    const double shrink = std::pow(0.1, 1.5 * i / tries);
    Patch moved = patch;
    moved.place += Point(step(shrink * 10 * in.radius_m), step(shrink * 10 * in.radius_m));
    moved.place = moved.place.cwiseMax(Point::Zero()).cwiseMin(in.near.tour().part_m);
    moved.end_s += step(shrink * 2 * patchTime_s);
    moved.frames.even_s += step(shrink * 2 * patchTime_s);
    moved.frames.odd_s += step(shrink * 0.3 * in.frame.period_s());
    moved.hottest_C = in.heat.patchAt(moved.place, moved.end_s, moved.frames).*face;
    if (moved.hottest_C > patch.hottest_C) patch = moved;
  }
  return patch.hottest_C;
}

double climbedFromBest_C(const RandomJob& in, std::vector<Patch> patches, double Faces::*face, std::mt19937& random) {
  constexpr std::size_t most = 6;
  std::ranges::sort(patches, std::greater(), &Patch::hottest_C);
  double hottest = 20;
  for (std::size_t i = 0; i < std::min(most, patches.size()); ++i) hottest = std::max(hottest, climbed_C(in, patches[i], face, random));
  return hottest;
}

}  // namespace

TEST_CASE("On random jobs no pulse, whatever the frames' phase, meets hotter metal than the hottest found", "[heat]") {
  std::mt19937 random(11);
  for (int job = 0; job < (test::thorough() ? 30 : 5); ++job) {
    const RandomJob in(random);
    const HotPlace hot = in.hottest();
    CAPTURE(job, in.emission.pulsed, in.radius_m, in.sheet.thickness_m, in.plan.travelSpeed_m_s);
    CHECK(in.heat.with(hot.query.place, hot.query.time_s, in.near.rise_K_W(hot.query)).front_C == Catch::Approx(hot.point_C));

    // Where the beam is, at any time of any stroke, turns and ends as often as all the rest.
    const Travel turned(0, test::quarterTurn);
    const double pulse = in.emission.pulsed ? 1 / in.emission.rate_Hz : 0;
    double point = 20;
    std::vector<Patch> fronts, backs;
    for (int sample = 0; sample < (test::thorough() ? 4000 : 1500); ++sample) {
      const TourStroke& stroke = in.near.tour().strokes[random() % in.near.tour().strokes.size()];
      const double share = RandomJob::between(random, 0, 1);
      const double time = std::lerp(stroke.begin_s, stroke.end_s,
                                    sample % 2 == 0 ? share
                                    : share < 0.5   ? 0.1 * share
                                                    : 1 - 0.1 * (1 - share));
      double inFrame = RandomJob::between(random, 0, in.frame.period_s());
      if (sample % 3 > 0) {  // from a turn's middle on
        const auto& pieces = in.frame.stretches();
        const Stretch& piece = pieces[random() % pieces.size()];
        inFrame = piece.begin_s +
                  piece.duration_s * (piece.isStraight() ? RandomJob::between(random, 0, 0.1) : RandomJob::between(random, 0.4, 1));
      }
      if (pulse > 0) inFrame = pulse * std::floor(inFrame / pulse);
      const Stretch& piece = in.frame.stretchAt(std::min(inFrame, in.frame.period_s() * (1 - 1e-9)));
      const Point place = stroke.middleAt(time) + turned.onPart(piece.at(inFrame - piece.begin_s), 0);
      if ((place.array() < 0).any() || (place.array() > in.near.tour().part_m.array()).any()) continue;
      HeatQuery query{place, time, pulse};
      query.frames.even_s = query.frames.odd_s = time - stroke.clock_s - inFrame;
      query.spreading = in.heat.spreading(place, time);
      point = std::max(point, in.heat.with(place, time, in.near.rise_K_W(query)).front_C);
      if (sample % 4 > 0) continue;
      const double later = time + RandomJob::between(random, 0, 2 * patchTime_s);
      const Faces faces = in.heat.patchAt(place, later, query.frames);
      fronts.push_back({place, later, query.frames, faces.front_C});
      backs.push_back({place, later, query.frames, faces.back_C});
    }
    const double front = climbedFromBest_C(in, fronts, &Faces::front_C, random),
                 back = climbedFromBest_C(in, backs, &Faces::back_C, random);
    INFO("found " << hot.point_C << ", " << hot.patch.front_C << ", " << hot.patch.back_C << "; climbed to " << point << ", " << front
                  << ", " << back);
    constexpr double boiling_C = 2862;  // of iron; what would be hotter is not told, nor sought closely
    CHECK(hot.point_C - 20 > 0.98 * (std::min(point, boiling_C) - 20));
    CHECK(hot.patch.front_C - 20 > 0.95 * (front - 20));  // of 30 jobs two miss more than 1 % of the front's rise, 1.4 and 4.5 %
    CHECK(hot.patch.back_C - 20 > 0.98 * (back - 20));    // and one 0.7 % of the back's
  }
}
