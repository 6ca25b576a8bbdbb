// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/removal_work.h"
#include "core/files/library_file.h"
#include "core/files/project_file.h"

#include <benchmark/benchmark.h>

namespace bw {
namespace {

/// The first sample as far as its places: what removal starts from.
struct SampleRemoval {
  Project project = openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/carriage-side-panel.bwright", shippedLibrary());
  Assessment first = assess(project, {}, shippedLibrary());
  Work work = prepare(project, first.plan, shippedLibrary(), {});

  PassRhythm rhythm;
  std::vector<bool> kept = keptLayers(work.coat);

  SampleRemoval() {
    Assessment scratch;
    assessScan(work, scratch);
    work.nearBare_C = first.thermal.nearBare_C.value_or(20);
    rhythm = rhythmOf(work);
    rhythm.passes = 1;
    rhythm.onlyPlanned = true;
  }

  PlaceRun run(const CoatedMetal& part, const Place& place) const { return runPlace(part, 1e-3, kept, place, rhythm); }
};

/// All layers, one pass, at every place: the hits found anew, as after an edit.
void onePass(benchmark::State& state) {
  const SampleRemoval in;
  const CoatedMetal part = coatedMetal(in.work.coat, warmMetal(in.work));
  for (auto _ : state) {
    const auto places = placesByChance(hitsOf(in.work), 400, {0.06, 0.1e-3, 1});
    for (const Place& place : places) benchmark::DoNotOptimize(in.run(part, place));
  }
}

/// The same hits at one place.
void ledgerOfAPlace(benchmark::State& state) {
  const SampleRemoval in;
  const CoatedMetal part = coatedMetal(in.work.coat, warmMetal(in.work));
  const Place& place = (*in.first.places)[20];
  for (auto _ : state) benchmark::DoNotOptimize(in.run(part, place));
}

void ranges(benchmark::State& state) {
  const SampleRemoval in;
  for (auto _ : state) benchmark::DoNotOptimize(rangesOf(in.work, in.first));
}

void depth(benchmark::State& state) {
  const SampleRemoval in;
  for (auto _ : state) benchmark::DoNotOptimize(inDepth(in.project, shippedLibrary(), in.first));
}

BENCHMARK(onePass)->Name("one pass of the first sample, all layers, all places")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(ledgerOfAPlace)->Name("one pass at one place, ledger")->Unit(benchmark::kMicrosecond)->UseRealTime();
BENCHMARK(ranges)->Name("500 draws of the first sample")->Unit(benchmark::kMillisecond)->Repetitions(5)->ReportAggregatesOnly()->UseRealTime();
BENCHMARK(depth)->Name("the first sample in depth")->Unit(benchmark::kMillisecond)->Repetitions(5)->ReportAggregatesOnly()->UseRealTime();

}  // namespace
}  // namespace bw
