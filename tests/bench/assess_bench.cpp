// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/stage_memo.h"
#include "core/beam/delivery.h"
#include "core/dose/evenness.h"
#include "core/dose/stripes.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "tests/bench/plain_dose.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <future>
#include <string>

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

/// What a person changes most, a little more each time.
struct Edit {
  const char* name;
  void (*apply)(Project& project, int time);
};

Settings& settingsOf(Project& project) { return project.plans.front().settings; }

constexpr Edit edits[] = {
    {"power", [](Project& p, int i) { settingsOf(p).powerFraction *= 1 - 0.001 * i; }},
    {"repetition rate", [](Project& p, int i) { settingsOf(p).repetitionRate_Hz *= 1 - 0.001 * i; }},
    {"line spacing", [](Project& p, int i) { settingsOf(p).lineSpacing_m *= 1 + 0.001 * i; }},
    {"frame", [](Project& p, int i) { settingsOf(p).width_m *= 1 - 0.001 * i; }},
    {"travel", [](Project& p, int i) { settingsOf(p).travelSpeed_m_s *= 1 + 0.001 * i; }},
    {"step-over", [](Project& p, int i) { settingsOf(p).stepOver_m *= 1 - 0.001 * i; }},
    {"passes", [](Project& p, int i) { settingsOf(p).passes += 1 + i % 3; }},
    {"pause", [](Project& p, int i) { settingsOf(p).pause_s += i; }},
    {"layer thickness", [](Project& p, int i) { p.coat.front().thickness_m = p.coat.front().thickness_m * (1 + 0.001 * i); }},
    {"layer kind", [](Project& p, int i) {
       p.coat.front().coating = p.coat.back().coating;
       p.coat.front().thickness_m = p.coat.front().thickness_m * (1 + 0.001 * i);
     }}};

/// With what is remembered from before the edit, as in the window.
void edited(benchmark::State& state, const Edit& edit) {
  StageMemo memo;
  assess(firstSample(), {}, shippedLibrary(), {}, {}, {&memo});
  int time = 0;
  for (auto _ : state) {
    state.PauseTiming();
    Project project = firstSample();
    edit.apply(project, ++time);
    state.ResumeTiming();
    benchmark::DoNotOptimize(assess(project, {}, shippedLibrary(), {}, {}, {&memo}));
  }
}

const bool editsAreThere = [] {
  for (const Edit& edit : edits) {
    const std::string name = std::string("edit of ") + edit.name + ", assessment from nothing";
    benchmark::RegisterBenchmark((name + "/ours").c_str(), edited, edit)->Unit(benchmark::kMillisecond)->Iterations(10)->UseRealTime();
    benchmark::RegisterBenchmark((name + "/plain").c_str(), wholeAssessment)->Unit(benchmark::kMillisecond)->Iterations(10)->UseRealTime();
  }
  return true;
}();

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
