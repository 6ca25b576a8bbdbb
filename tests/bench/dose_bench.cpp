// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/repeat_cell.h"
#include "tests/bench/stamp_loop.h"

#include <benchmark/benchmark.h>

#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <limits>
#include <utility>

namespace {

using namespace bw;

constexpr double radius_m = 50e-6;
constexpr double cell_m = 20e-6;
constexpr double length_m = 60e-3;
const SpotProfile gaussian(BeamProfile::Gaussian);

CanvasGrid square(int cells, double cell) { return {cells, cells, Point::Zero(), Point::Constant(cell), false}; }
const CanvasGrid field = square(3000, cell_m);

/// `pulses` of them in `lines` lines 60 mm long, evenly stacked on the field, forth and back. Each climbs by half the gap to the next, as a
/// frame's lines do while the hand moves on.
std::vector<DabRow> linesOf(int lines, double pulses) {
  const double gap = length_m / lines, count = std::round(pulses / lines), pitch = length_m / count;
  std::vector<DabRow> rows;
  for (int n = 0; n < lines; ++n) {
    const bool back = n % 2 == 1;
    const Point step(back ? -pitch : pitch, gap / 2 / count);
    rows.push_back({Point(back ? length_m - pitch / 2 : pitch / 2, (n + 0.25) * gap), step, static_cast<std::int64_t>(count), false, 1e-3});
  }
  return rows;
}

constexpr int lines = 333;
std::vector<DabRow> close() { return linesOf(lines, 0.8e6); }         // 25 um apart, half a spot radius
std::vector<DabRow> apart() { return linesOf(lines, 0.2e6); }         // 100 um apart in the same lines, two radii
std::vector<DabRow> apartAll() { return linesOf(4 * lines, 0.8e6); }  // 100 um apart, as many as the close ones, lines 45 um apart

/// The same turned by a quarter, as with a hand that moves along its lines.
std::vector<DabRow> upright() {
  std::vector<DabRow> rows = close();
  for (DabRow& row : rows) {
    std::swap(row.first.x(), row.first.y());
    std::swap(row.step.x(), row.step.y());
  }
  return rows;
}

using Sum = std::vector<float> (*)(const std::vector<DabRow>& rows);

std::vector<float> blank() { return blankCells(field); }  // the same memory for all

std::vector<float> oursOnOneThread(const std::vector<DabRow>& rows) {
  std::vector<float> cells = blank();
  GaussianCanvas canvas(field, roundSpot(radius_m), cells, 0, field.rows);
  for (const DabRow& row : rows) canvas.add(row);
  return cells;
}

std::vector<float> ours(const std::vector<DabRow>& rows) { return sumOnto(field, rows, gaussian, roundSpot(radius_m)).dose_J_m2; }

std::vector<float> stamped(const std::vector<DabRow>& rows) {
  std::vector<float> cells = blank();
  stampEach(field, radius_m, rows, cells);
  return cells;
}

std::vector<float> products(const std::vector<DabRow>& rows) {
  std::vector<float> cells = blank();
  stampProducts(field, radius_m, rows, cells);
  return cells;
}

/// The map's memory written and read once, fresh from the system: what no sum can do without.
std::vector<float> writeAndRead(const std::vector<DabRow>&) {
  std::vector<float> cells = blank();
  benchmark::DoNotOptimize(cells.data());
  double sum = 0;
  for (std::size_t i = 0; i < cells.size(); i += 4) sum += static_cast<double>((cells[i] + cells[i + 1]) + (cells[i + 2] + cells[i + 3]));
  benchmark::DoNotOptimize(sum);
  return cells;
}

/// A ratio of times says something only between sums that agree.
void demandAgreement(const std::vector<DabRow>& rows) {
  const std::vector<float> ourSum = oursOnOneThread(rows), plain = stamped(rows), tougher = products(rows);
  double mean = 0, worst = 0;
  for (std::size_t i = 0; i < plain.size(); ++i) {
    mean += static_cast<double>(plain[i]) / static_cast<double>(plain.size());
    worst = std::max({worst, static_cast<double>(std::abs(ourSum[i] - plain[i])), static_cast<double>(std::abs(ourSum[i] - tougher[i]))});
  }
  std::printf("%zu rows: largest difference between ours and the stamps %.1e of the mean dose\n", rows.size(), worst / mean);
  if (worst > 1e-4 * mean) {
    std::fprintf(stderr, "dose_bench: ours and the stamps differ; their times say nothing\n");
    std::exit(1);
  }
}

void run(benchmark::State& state, Sum sum, std::vector<DabRow> (*rowsOf)()) {
  const std::vector<DabRow> rows = rowsOf();
  for (auto _ : state) benchmark::DoNotOptimize(sum(rows));
}

double fastest_ms(const std::function<void()>& work) {
  double best = std::numeric_limits<double>::infinity();
  for (int n = 0; n < 5; ++n) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    best = std::min(best, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
  }
  return best;
}

double peakMemory_MB() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

/// How time grows with pulses in the same lines, and with cells over the same pulses. Memory first: the peak of the process only rises.
void growth(benchmark::State& state) {
  for (auto _ : state) {
    const std::vector<DabRow> rows = close();
    const double before = peakMemory_MB();
    benchmark::DoNotOptimize(ours(rows));
    std::printf("\nmap of %d x %d floats: %.0f MB; peak memory rose by %.0f MB\n", field.columns, field.rows,
                4e-6 * field.columns * field.rows / 1.048576, peakMemory_MB() - before);
    std::printf("pulses, millions      0.1     0.2     0.4     0.8\nour time, ms     ");
    for (const double pulses : {0.1e6, 0.2e6, 0.4e6, 0.8e6}) {
      const std::vector<DabRow> some = linesOf(lines, pulses);
      std::printf("%8.1f", fastest_ms([&] { benchmark::DoNotOptimize(oursOnOneThread(some)); }));
    }
    std::printf("\ncells, millions      1.13    2.25     4.5       9\nour time, ms     ");
    for (const double cells : {1.125e6, 2.25e6, 4.5e6, 9e6}) {
      const int side = static_cast<int>(std::round(std::sqrt(cells)));
      const CanvasGrid grid = square(side, length_m / side);
      std::printf("%8.1f", fastest_ms([&] {
                    std::vector<float> map = blankCells(grid);
                    GaussianCanvas canvas(grid, roundSpot(radius_m), map, 0, side);
                    for (const DabRow& row : rows) canvas.add(row);
                    benchmark::DoNotOptimize(map.data());
                  }));
    }
    std::printf("\n\n");
  }
}

void agreement(benchmark::State& state) {
  for (auto _ : state) {
    for (const auto rowsOf : {close, upright, apart, apartAll}) demandAgreement(rowsOf());
  }
}

void often(benchmark::internal::Benchmark* benchmark) {
  benchmark->Unit(benchmark::kMillisecond)->Repetitions(5)->ReportAggregatesOnly()->UseRealTime();
}

BENCHMARK(growth)->Name("growth of the dose map's time")->Iterations(1)->Unit(benchmark::kMillisecond);
BENCHMARK(agreement)->Name("agreement of ours with the stamps")->Iterations(1)->Unit(benchmark::kMillisecond);

BENCHMARK_CAPTURE(run, , oursOnOneThread, close)->Name("0.8 M pulses half a radius apart, exponential stamps/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , stamped, close)->Name("0.8 M pulses half a radius apart, exponential stamps/plain")->Apply(often);
BENCHMARK_CAPTURE(run, , oursOnOneThread, close)->Name("0.8 M pulses half a radius apart, product stamps/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , products, close)->Name("0.8 M pulses half a radius apart, product stamps/plain")->Apply(often);
BENCHMARK_CAPTURE(run, , ours, close)->Name("0.8 M pulses half a radius apart, ours in two threads, exponential stamps/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , stamped, close)
    ->Name("0.8 M pulses half a radius apart, ours in two threads, exponential stamps/plain")
    ->Apply(often);
// Above 0.25: ours takes less than four times as long.
BENCHMARK_CAPTURE(run, , oursOnOneThread, close)->Name("0.8 M pulses half a radius apart, map written and read once/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , writeAndRead, close)->Name("0.8 M pulses half a radius apart, map written and read once/plain")->Apply(often);
BENCHMARK_CAPTURE(run, , oursOnOneThread, upright)
    ->Name("0.8 M pulses half a radius apart, upright, exponential stamps/ours")
    ->Apply(often);
BENCHMARK_CAPTURE(run, , stamped, upright)->Name("0.8 M pulses half a radius apart, upright, exponential stamps/plain")->Apply(often);
BENCHMARK_CAPTURE(run, , oursOnOneThread, apart)->Name("0.2 M pulses two radii apart, exponential stamps/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , stamped, apart)->Name("0.2 M pulses two radii apart, exponential stamps/plain")->Apply(often);
BENCHMARK_CAPTURE(run, , oursOnOneThread, apart)->Name("0.2 M pulses two radii apart, product stamps/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , products, apart)->Name("0.2 M pulses two radii apart, product stamps/plain")->Apply(often);
BENCHMARK_CAPTURE(run, , oursOnOneThread, apartAll)->Name("0.8 M pulses two radii apart, exponential stamps/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , stamped, apartAll)->Name("0.8 M pulses two radii apart, exponential stamps/plain")->Apply(often);
BENCHMARK_CAPTURE(run, , oursOnOneThread, apartAll)->Name("0.8 M pulses two radii apart, product stamps/ours")->Apply(often);
BENCHMARK_CAPTURE(run, , products, apartAll)->Name("0.8 M pulses two radii apart, product stamps/plain")->Apply(often);

}  // namespace
