// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/assess.h"
#include "core/beam/delivery.h"
#include "core/dose/evenness.h"
#include "core/dose/stripes.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "tests/bench/plain_dose.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <future>

namespace {

using namespace bw;

const Project& firstSample() {
  static const Project project = openProject(BAREWRIGHT_SOURCE_DIR "/sample-projects/carriage-side-panel.bwright", shippedLibrary());
  return project;
}

/// What the dose map of the sample's first plan is summed from; the grid as fine as the file format's rules ask for.
struct DoseInputs {
  std::vector<Dab> dabs;
  std::vector<DabRow> rows;
  double spotRadius_m = 0;
  LitBounds lit;
  RepeatCell cell;
  Grid grid;
};

DoseInputs doseInputs() {
  const Step step = stepsOf(firstSample().plans.front()).front();
  const Machine& machine = *findMachine(firstSample(), step.machine);
  const Settings& settings = step.settings;
  const BeamResult beam = deliver(machine, settings);
  const Frame frame = buildFrame(settings, machine.scan);
  const Emission emission{machine.kind == MachineKind::Pulsed, settings.repetitionRate_Hz, beam.meanPower_W};

  DoseInputs inputs;
  inputs.spotRadius_m = beam.spotDiameter_m / 2;
  const Travel travel(settings.travelSpeed_m_s, settings.travelAngle_rad);
  inputs.dabs = dabsOf(frame, travel, emission, inputs.spotRadius_m);
  inputs.lit = litBounds(frame, travel);
  inputs.rows = rowsOf(frame, travel, emission, inputs.spotRadius_m);
  inputs.cell = {settings.stepOver_m, settings.travelSpeed_m_s * frame.period_s()};
  inputs.grid = gridOf(inputs.cell, std::min(beam.spotDiameter_m / 8, settings.lineSpacing_m / 4));
  return inputs;
}

void doseMap(benchmark::State& state) {
  const DoseInputs in = doseInputs();
  for (auto _ : state)
    benchmark::DoNotOptimize(steadyMap(in.rows, SpotProfile(BeamProfile::Gaussian), roundSpot(in.spotRadius_m), in.cell, in.grid));
}

/// What the steady region's numbers take: the map, then its statistics and the swath's profile at the same time, as an assessment does.
void steadyRegion(benchmark::State& state) {
  const DoseInputs in = doseInputs();
  const SpotProfile gaussian(BeamProfile::Gaussian);
  for (auto _ : state) {
    const DoseMap map = steadyMap(in.rows, gaussian, roundSpot(in.spotRadius_m), in.cell, in.grid);
    auto evenness = std::async(std::launch::async, [&] { return evennessOf(map); });
    benchmark::DoNotOptimize(swathProfile(in.rows, in.lit, gaussian, in.spotRadius_m, in.cell, columnMeans(map)));
    benchmark::DoNotOptimize(evenness.get());
  }
}

void plainDoseMap(benchmark::State& state) {
  const DoseInputs in = doseInputs();
  for (auto _ : state) benchmark::DoNotOptimize(plainSteadyMap(in.dabs, in.spotRadius_m, in.cell, in.grid));
}

void wholeAssessment(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(assess(firstSample(), {}, shippedLibrary()));
}

// Like against like, then the whole assessment (dose, removal, heat and the rest) against the plain dose map alone.
BENCHMARK(doseMap)
    ->Name("dose map of the first sample/ours")
    ->Unit(benchmark::kMillisecond)
    ->Repetitions(5)
    ->ReportAggregatesOnly()
    ->UseRealTime();
BENCHMARK(plainDoseMap)->Name("dose map of the first sample/plain")->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();
BENCHMARK(steadyRegion)
    ->Name("steady region of the first sample")
    ->Unit(benchmark::kMillisecond)
    ->Repetitions(5)
    ->ReportAggregatesOnly()
    ->UseRealTime();
BENCHMARK(wholeAssessment)
    ->Name("assessment of the first sample/ours")
    ->Unit(benchmark::kMillisecond)
    ->Repetitions(5)
    ->ReportAggregatesOnly()
    ->UseRealTime();
BENCHMARK(plainDoseMap)->Name("assessment of the first sample/plain")->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();

}  // namespace
