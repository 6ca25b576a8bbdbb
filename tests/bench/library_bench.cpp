// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/library_backup.h"
#include "core/library/library_store.h"
#include "core/library/sqlite.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/some_recipes.h"

#include <benchmark/benchmark.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>

// A library of a hundred thousand recipes. Each figure stands beside the plain way to the same answer on the same file in the same run:
// reading every text with LIKE instead of the index of words, reading and measuring every recipe instead of the facts in memory, a file
// written and flushed instead of a saved recipe, reading all rows instead of opening. BAREWRIGHT_BENCH_RECIPES sets another number.

namespace {

using namespace bw;
using namespace bw::test;

unsigned recipeCount() {
  const char* wanted = std::getenv("BAREWRIGHT_BENCH_RECIPES");
  return wanted ? static_cast<unsigned>(std::atoi(wanted)) : 100000U;
}

struct LargeLibrary {
  ScratchFolder folder;
  std::filesystem::path path = folder / "library.sqlite";
  std::optional<LibraryStore> store;

  LargeLibrary() {
    const auto start = std::chrono::steady_clock::now();
    store.emplace(path);
    for (unsigned n = 0; n < recipeCount();) {
      store->inOneGo([&] {
        for (const unsigned end = std::min(n + 10000, recipeCount()); n < end; ++n) store->saveRecipe(SomeRecipes::number(n));
      });
    }
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    store.emplace(path);  // the log is taken into the file
    std::printf("%u recipes saved, 10 000 in one go: %.1f s for each 10 000, those made up included; %.0f MB\n", recipeCount(),
                seconds * 1e4 / recipeCount(), static_cast<double>(std::filesystem::file_size(path)) / 1e6);
  }
};

LargeLibrary& large() {
  static LargeLibrary library;
  return library;
}

Database& plainConnection() {
  static Database database(large().path, DatabaseAccess::ReadOnly, std::chrono::seconds(5));
  return database;
}

void openLarge(benchmark::State& state) {
  large();
  for (auto _ : state) benchmark::DoNotOptimize(LibraryStore(large().path).recipeCount());
}

void readAllRows(benchmark::State& state) {
  large();
  for (auto _ : state) {
    Statement all = plainConnection().prepare("SELECT uid, name, note, words FROM recipe");
    std::size_t letters = 0;
    while (all.step()) letters += all.text(0).size() + all.text(1).size() + all.text(2).size() + all.text(3).size();
    benchmark::DoNotOptimize(letters);
  }
}

void saveOne(benchmark::State& state) {
  unsigned n = 1000000;
  LibraryStore& store = *large().store;
  for (auto _ : state) {
    state.PauseTiming();
    const Recipe recipe = SomeRecipes::number(n++);
    state.ResumeTiming();
    benchmark::DoNotOptimize(store.saveRecipe(recipe));
  }
}

/// As much text as a recipe holds, in a file of its own, as safely.
void writeOneFile(benchmark::State& state) {
  const std::string text(4000, 'x');
  unsigned n = 0;
  for (auto _ : state) writeFileAtomically(text, large().folder / (std::to_string(n++ % 100) + ".json"));
}

/// What a user types, letter by letter; the store remembers words, as it does when somebody types.
const char* const typed[] = {"s",         "st", "sto",        "stee",     "steel", "steel p",
                             "steel pan", "c",  "carriage d", "tank lid", "9999",  "pale layers stall"};

void searchTyped(benchmark::State& state) {
  RecipeQuery query;
  query.text = typed[state.range(0)];
  state.SetLabel('"' + query.text + '"');
  LibraryStore& store = *large().store;
  unsigned n = 2000000;
  for (auto _ : state) {
    state.PauseTiming();
    store.saveRecipe(SomeRecipes::number(n++));  // so that nothing is remembered
    state.ResumeTiming();
    benchmark::DoNotOptimize(store.find(query));
  }
}

RecipeQuery twoWords() {
  RecipeQuery query;
  query.text = "tank pale";
  query.machineKind = MachineKind::Pulsed;
  return query;
}

void search(benchmark::State& state) {
  LibraryStore& store = *large().store;
  unsigned n = 3000000;
  for (auto _ : state) {
    state.PauseTiming();
    store.saveRecipe(SomeRecipes::number(n++));
    state.ResumeTiming();
    benchmark::DoNotOptimize(store.find(twoWords()));
  }
}

void searchByReading(benchmark::State& state) {
  for (auto _ : state) {
    Statement all = plainConnection().prepare(
        "SELECT uid, name FROM recipe JOIN recipe_facts USING (recipe_id) WHERE kind = 0 AND (name LIKE ?1 OR note LIKE ?1 OR words LIKE "
        "?1) AND "
        "(name LIKE ?2 OR note LIKE ?2 OR words LIKE ?2) ORDER BY changed DESC");
    all.with("%tank%").with("%pale%");
    std::size_t found = 0;
    while (all.step()) ++found;
    benchmark::DoNotOptimize(found);
  }
}

NearestQuery someWork() {
  const Recipe recipe = SomeRecipes::number(4711);
  NearestQuery query;
  query.part = recipe.version.part;
  query.part.thickness_m = Range::exact(0.0013);
  query.coat = recipe.version.coat;
  query.machine = recipe.version.machines.front();
  query.materials = recipe.version.materials;
  return query;
}

void nearest(benchmark::State& state) {
  const NearestQuery query = someWork();
  for (auto _ : state) benchmark::DoNotOptimize(large().store->nearest(query));
}

/// A thousandth of the library read as recipes, times a thousand: reading all of them takes minutes.
void nearestByReading(benchmark::State& state) {
  LibraryStore& store = *large().store;
  const std::vector<std::string> ids = store.recipeIds();
  for (auto _ : state) {
    const auto start = std::chrono::steady_clock::now();
    std::size_t alike = 0, read = 0;
    for (std::size_t i = 0; i < ids.size(); i += 1000, ++read) alike += store.recipe(ids[i]).version.coat.size();
    benchmark::DoNotOptimize(alike);
    const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    state.SetIterationTime(seconds * static_cast<double>(ids.size()) / static_cast<double>(read));
  }
}

void backup(benchmark::State& state) {
  large();
  for (auto _ : state) benchmark::DoNotOptimize(backUp(large().path, std::chrono::system_clock::now(), 1));
}

BENCHMARK(openLarge)->Name("open a library of 100 000 recipes, read all its texts/ours")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(readAllRows)->Name("open a library of 100 000 recipes, read all its texts/plain")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(saveOne)->Name("save a recipe, write a file/ours")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(writeOneFile)->Name("save a recipe, write a file/plain")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(search)->Name("search two words and a kind, read every text/ours")->Unit(benchmark::kMillisecond)->UseRealTime()->Iterations(30);
BENCHMARK(searchByReading)->Name("search two words and a kind, read every text/plain")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(nearest)->Name("nearest of 100 000, read each recipe/ours")->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(nearestByReading)
    ->Name("nearest of 100 000, read each recipe/plain")
    ->Unit(benchmark::kMillisecond)
    ->UseManualTime()
    ->Iterations(3);
BENCHMARK(searchTyped)
    ->Name("search as typed")
    ->DenseRange(0, std::size(typed) - 1)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime()
    ->Iterations(10);
BENCHMARK(backup)->Name("daily backup of the library, checked")->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();

}  // namespace
