// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/heat_work.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "core/heat/part_map.h"

#include <benchmark/benchmark.h>

#include <cmath>
#include <numbers>

namespace bw {
namespace {

constexpr double quarterTurn = std::numbers::pi / 2;

/// The first sample as far as its heat.
struct HeatJob {
  Project project = openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/carriage-side-panel.bwright", shippedLibrary());
  Work work = prepare(project, project.plans.front().name, shippedLibrary(), {});
  Assessment first;
  HeatInput input;

  HeatJob() {
    assessScan(work, first);
    assessDose(work, first);
    input = heatInput(work, first.beam.spotDiameter_m / 2, work.metal.absorptance.high * first.beam.meanPower_W);
  }
};

/// Hottest place of the whole tour and the temperature of both faces there against time.
void history(benchmark::State& state) {
  const HeatJob job;
  double seconds = 0;
  for (auto _ : state) seconds = bareHeat(job.work, job.input, quickCells)->tour->tour().end_s();
  state.counters["hand_min"] = seconds / 60;
  state.counters["Mpulses"] = 1e-6 * seconds * job.work.scan->emission.rate_Hz * job.work.scan->frame->litFraction();
}

Frame raster() {
  Settings settings;
  settings.width_m = 32e-3;
  settings.height_m = 14e-3;
  settings.scanSpeed_m_s = 9;
  settings.lineSpacing_m = 0.08e-3;
  ScanHead head;
  head.turnaround_s = 250e-6;
  return buildFrame(settings, head);
}

constexpr double rate_Hz = 240e3, radius_m = 60e-6;
const Plate thick{0.05, 53, 3.45e6, 12};

/// One query that looks back over so many thousand pulses.
void nearQuery(benchmark::State& state) {
  const Frame frame = raster();
  const double oldest = 1e3 * static_cast<double>(state.range(0)) / rate_Hz;
  const PathHeat near(frame, quarterTurn, {true, rate_Hz, 1}, radius_m, thick, endlessTour(8e-3), oldest);
  const HeatQuery query{Point::Zero(), 0, 1 / rate_Hz};
  for (auto _ : state) benchmark::DoNotOptimize(near.rise_K_W(query));
  state.counters["pieces"] = near.pieces(query);
}

/// The same as a plain sum over the pulses, one image.
void pulseByPulse(benchmark::State& state) {
  const Frame frame = raster();
  const Travel travel(8e-3, quarterTurn);
  const double a = thick.diffusivity_m2_s(), period = frame.period_s();
  for (auto _ : state) {
    double sum = 0;
    for (double k = 1; k <= 1e3 * static_cast<double>(state.range(0)); ++k) {
      const double age = k / rate_Hz, inFrame = -age - period * std::floor(-age / period);
      const Stretch& stretch = frame.stretchAt(inFrame);
      if (!stretch.lit) continue;
      const double variance = radius_m * radius_m / 4 + 2 * a * age;
      const Point beam = travel.onPart(stretch.at(inFrame - stretch.begin_s), -age);
      sum += std::exp(-beam.squaredNorm() / (2 * variance)) / (variance * std::sqrt(age));
    }
    benchmark::DoNotOptimize(sum);
  }
}

/// The sheet of tests/reference/heat: 1.0 x 0.6 m, 0.8 mm, two strokes in 120 s; map at every second and the highest of every cell.
struct Sheet {
  PartSheet sheet{{ThermalCurve::Constant, ThermalCurve::Constant, 50, 480, 7850}, 0.8e-3, Point(1.0, 0.6), 12, 0, 20, 20};
  double power_W = 150;
  double near_C = 20;

  static Sheet steel() {
    Sheet steel;
    steel.sheet.metal = {ThermalCurve::CarbonSteel, ThermalCurve::CarbonSteel, 53.334, 439.8, 7850};
    steel.sheet.emissivity = 0.7;
    steel.power_W = 300;
    steel.near_C = 220;
    return steel;
  }

  PartMap map(const PartGrid& grid) const {
    Settings settings;
    settings.width_m = 0.03;
    settings.height_m = 0.014 * 69 / 70;
    settings.scanSpeed_m_s = 200;
    settings.lineSpacing_m = 0.0002;
    const Frame frame = buildFrame(settings, {});
    HandTour tour;
    tour.part_m = sheet.size_m;
    tour.strokes = {{0, 60, 0, Point(0.4855, 0), 0.01, 1, 0}, {60, 120, 60, Point(0.5145, 0.6), -0.01, 1, 0}};
    const Plate plate = plateAt(sheet, near_C);
    const PartHeat part(sheet, grid, plate, 3e-3, frame.period_s());
    const PathHeat near(frame, quarterTurn, {false, 0, 1}, 3e-3, plate, tour, part.handover_s());
    const PartRun run = part.run(near.tour(), near.boxes(), power_W, 0);
    const WorkHeat heat(near, part.enthalpy(), run.field, power_W);
    return partMap(heat, 120);
  }
};

void sheetConstant(benchmark::State& state) {
  const Sheet sheet;
  for (auto _ : state) benchmark::DoNotOptimize(sheet.map({900}));
}

void sheetSteel(benchmark::State& state) {
  const Sheet sheet = Sheet::steel();
  PartGrid grid{900};
  grid.finest_m = 2e-3;
  for (auto _ : state) benchmark::DoNotOptimize(sheet.map(grid));
}

BENCHMARK(history)->Name("front and back history of the first sample's whole tour")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(nearQuery)->Name("near heat looking back over so many thousand pulses/ours")->RangeMultiplier(10)->Range(1, 100000);
BENCHMARK(pulseByPulse)->Name("near heat looking back over so many thousand pulses/plain")->RangeMultiplier(10)->Range(1, 1000);
BENCHMARK(sheetConstant)->Name("maps of 120 s of a sheet, constant properties (see sheet_peer.sh)")->Unit(benchmark::kMillisecond);
BENCHMARK(sheetSteel)->Name("maps of 120 s of a steel sheet that glows (see sheet_peer.sh)")->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace bw
