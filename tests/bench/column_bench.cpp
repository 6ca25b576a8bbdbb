// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column.h"

#include "tests/core/removal/small_raster.h"
#include "tests/core/removal/steel.h"
#include "tests/support/cells_as_ode.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

// The fine column: through the history of one place of a real raster, and against a stiff integrator of the GNU Scientific Library on the
// same cells. That library's stiff methods know full matrices only; a column's are tridiagonal, which is where most of the ratio comes
// from.

namespace bw {
namespace {

using namespace bw::test;

constexpr double history_s = 10e-3;

/// The densest 10 ms that a raster at 240 kHz brings to the place of middling dose.
std::vector<LightPiece> historyOfRaster() {
  Settings settings = SmallRaster::settings();
  settings.repetitionRate_Hz = 240e3;
  const double radius_m = SmallRaster::radius_m;
  const Frame frame = buildFrame(settings, SmallRaster::head());
  const Travel travel(settings.travelSpeed_m_s, settings.travelAngle_rad);
  const Emission emission{true, settings.repetitionRate_Hz, 100};
  const RepeatCell cell{settings.stepOver_m, settings.travelSpeed_m_s * frame.period_s()};
  const std::vector<DabRow> strikes = strikesOf(frame, travel, emission, radius_m);
  const HitFinder hits(strikes, cell, SpotProfile(2), radius_m, {frame.period_s(), SmallRaster::stroke_s, 0});
  const std::vector<Place> places = placesByChance(hits, 16, {});
  const std::vector<LightPiece> light = irradianceOf(places[places.size() / 2].hitsOf(1), 100e-9);

  std::vector<LightPiece> densest;
  for (auto from = light.begin(); from != light.end(); ++from) {
    const auto end = std::find_if(from, light.end(), [&](const LightPiece& piece) { return piece.from_s > from->from_s + history_s; });
    if (end - from > static_cast<std::ptrdiff_t>(densest.size())) densest.assign(from, end);
  }
  const double start = densest.front().from_s;
  for (LightPiece& piece : densest) piece.from_s -= start;
  return densest;
}

void place(benchmark::State& state) {
  const std::vector<LightPiece> light = historyOfRaster();
  const HeatedCells heated;
  double depth_m = 0;
  for (auto _ : state) {
    Column column(heated.layers, ColumnMetal(heated.metal, heated.start_C), heated.thickness_m, {}, ColumnSettings::fine());
    column.follow(light, history_s);
    depth_m = column.depth_m();
  }
  state.counters["pulses"] = static_cast<double>(light.size());
  state.counters["depth_um"] = depth_m * 1e6;
}

constexpr int pulseCount = 10;
constexpr double pause_s = 1 / 240e3;

template <class Advance>
void through(const HeatedCells& heated, Advance advance) {
  double now = 0;
  for (const LightPiece& piece : heated.pulses(pulseCount, pause_s, 0.1)) {
    advance(0, piece.from_s - now);
    advance(piece.irradiance_W_m2, piece.duration_s);
    now = piece.from_s + piece.duration_s;
  }
  advance(0, pulseCount * pause_s - now);
}

Column ourRun(const HeatedCells& heated, const ColumnMetal& metal) {
  Column column(heated.layers, metal, heated.thickness_m, {}, ColumnSettings::fine());
  through(heated, [&](double irradiance, double time) {
    if (irradiance > 0)
      column.shine(irradiance * time, time);
    else
      column.rest(time);
  });
  return column;
}

CellsAsOde theirRun(const HeatedCells& heated, const std::vector<ColumnCell>& cells, double error) {
  CellsAsOde ode(heated, cells);
  through(heated, [&](double irradiance, double time) { ode.advance(irradiance, time, error); });
  return ode;
}

constexpr double theirError = 2e-4;

/// A ratio of times says something only at equal accuracy.
void accuracy(benchmark::State& state) {
  for (auto _ : state) {
    const HeatedCells heated;
    const Column column = ourRun(heated, ColumnMetal(heated.metal, heated.start_C));
    const CellsAsOde theirs = theirRun(heated, column.cells(), theirError), exact = theirRun(heated, column.cells(), 1e-8);
    double our = 0, their = 0, highest = 0;
    for (std::size_t i = 0; i < column.cells().size(); ++i) {
      our = std::max(our, std::abs(column.rise_K(i) - exact.rise_K(i)));
      their = std::max(their, std::abs(theirs.rise_K(i) - exact.rise_K(i)));
      highest = std::max(highest, exact.rise_K(i));
    }
    std::printf("%zu cells after %d pulses, %.0f K at most: ours off by %.1e of that, the library's by %.1e\n", column.cells().size(),
                pulseCount, highest, our / highest, their / highest);
  }
}

void ours(benchmark::State& state) {
  const HeatedCells heated;
  const ColumnMetal metal(heated.metal, heated.start_C);
  for (auto _ : state) benchmark::DoNotOptimize(ourRun(heated, metal));
}

void library(benchmark::State& state) {
  const HeatedCells heated;
  const Column column(heated.layers, ColumnMetal(heated.metal, heated.start_C), heated.thickness_m, {}, ColumnSettings::fine());
  for (auto _ : state) benchmark::DoNotOptimize(theirRun(heated, column.cells(), theirError));
}

BENCHMARK(place)->Name("fine column through 10 ms of a raster at 240 kHz")->Unit(benchmark::kMillisecond);
BENCHMARK(accuracy)->Name("accuracy of the fine column and the library's integrator")->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK(ours)->Name("heat of ten pulses in a column, full-matrix integrator/ours")->Unit(benchmark::kMillisecond);
BENCHMARK(library)->Name("heat of ten pulses in a column, full-matrix integrator/plain")->Iterations(1)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace bw
