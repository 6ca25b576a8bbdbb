// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/bundle_file.h"
#include "core/exchange/export.h"
#include "core/exchange/import_apply.h"
#include "core/library/recipe_json.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/some_recipes.h"

#include <benchmark/benchmark.h>

#include <chrono>
#include <cstdio>

// A bundle of ten thousand recipes from its text to the disk, beside the plain way in the same run: each recipe a text of its own with all
// its profiles, read and saved one by one. The plain way does a tenth, times ten.

namespace {

using namespace bw;
using namespace bw::test;

constexpr unsigned recipeCount = 10000;
constexpr unsigned plainShare = 10;

const std::string& bundleText() {
  static const std::string text = [] {
    const ScratchFolder folder;
    LibraryStore store(folder / "theirs.sqlite");
    store.inOneGo([&] {
      for (unsigned n = 0; n < recipeCount; ++n) store.saveRecipe(SomeRecipes::number(n));
    });
    ExportChoice choice;
    choice.all = true;
    const auto start = std::chrono::steady_clock::now();
    std::string written = writeBundle(exportBundle(store, choice).bundle);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    std::printf("bundle of %u recipes: %.1f MB, exported in %.1f s\n", recipeCount, static_cast<double>(written.size()) / 1e6, seconds);
    return written;
  }();
  return text;
}

double secondsSince(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void importBundle(benchmark::State& state) {
  const std::string& text = bundleText();
  for (auto _ : state) {
    state.PauseTiming();
    const ScratchFolder folder;
    LibraryStore store(folder / "mine.sqlite");
    state.ResumeTiming();
    BundleReadResult result = readBundle(text);
    if (!result.problems.empty()) state.SkipWithError("the bundle cannot be read");
    const ImportPlan plan = planImport(store, std::move(result.bundle));
    benchmark::DoNotOptimize(applyImport(store, plan));
    if (store.recipeCount() != recipeCount) state.SkipWithError("recipes are missing");
  }
}

void importOneByOne(benchmark::State& state) {
  std::vector<std::string> texts;
  for (unsigned n = 0; n < recipeCount / plainShare; ++n) texts.push_back(jsonText(writeJson(SomeRecipes::number(n))));
  for (auto _ : state) {
    const ScratchFolder folder;
    LibraryStore store(folder / "mine.sqlite");
    const auto start = std::chrono::steady_clock::now();
    for (const std::string& text : texts) {
      Problems problems;
      Recipe recipe;
      readJson(parseJson(text, problems), "$", recipe, problems);
      recipe.id.clear();
      benchmark::DoNotOptimize(store.saveRecipe(recipe));
    }
    state.SetIterationTime(secondsSince(start) * plainShare);
  }
}

/// The steps of the import alone.
void readOnly(benchmark::State& state) {
  const std::string& text = bundleText();
  for (auto _ : state) benchmark::DoNotOptimize(readBundle(text));
}

/// The same bundle once more: all of it is known.
void importAgain(benchmark::State& state) {
  const ScratchFolder folder;
  LibraryStore store(folder / "mine.sqlite");
  applyImport(store, planImport(store, readBundle(bundleText()).bundle));
  for (auto _ : state) {
    const ImportPlan plan = planImport(store, readBundle(bundleText()).bundle);
    if (plan.count(ImportStatus::Identical) != recipeCount) state.SkipWithError("a recipe was not known again");
  }
}

BENCHMARK(importBundle)->Name("import 10 000 recipes, one by one/ours")->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(2);
BENCHMARK(importOneByOne)->Name("import 10 000 recipes, one by one/plain")->Unit(benchmark::kMillisecond)->UseManualTime()->Iterations(1);
BENCHMARK(readOnly)->Name("read a bundle of 10 000 recipes")->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(2);
BENCHMARK(importAgain)->Name("plan 10 000 recipes that are all there")->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(1);

}  // namespace
