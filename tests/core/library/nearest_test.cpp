// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/library/library_case.h"

#include <algorithm>
#include <cmath>

using namespace bw;
using namespace bw::test;

namespace {

NearestQuery queryOf(const RecipeVersion& version) {
  NearestQuery query;
  query.part = version.part;
  query.coat = version.coat;
  query.machine = version.machines.front();
  query.materials = version.materials;
  return query;
}

/// A recipe of two known layers on mild steel, to be changed by one thing at a time.
Recipe plain() {
  Recipe recipe = SomeRecipes::number(1);
  RecipeVersion& version = recipe.version;
  const Library& shipped = shippedLibrary();
  version.part.substrate = "mild-steel";
  version.part.thickness_m = Range::exact(0.001);
  version.part.finish = Finish::LightEtch;
  version.machines = {typicalMachines()[1]};
  version.plan.machine = version.machines.front().id;
  version.coat.clear();
  version.materials = {};
  version.materials.substrates = {*findSubstrate(shipped, "mild-steel")};
  for (const char* id : {"alkyd-white", "primer-red-oxide"}) {
    Layer layer;
    layer.name = id;
    layer.coating = id;
    layer.thickness_m = Range::exact(50e-6);
    version.coat.push_back(layer);
    version.materials.coatings.push_back(*findCoating(shipped, id));
  }
  return recipe;
}

}  // namespace

TEST_CASE("The same work is at no distance and comes first", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  std::vector<Recipe> recipes;
  for (unsigned n = 0; n < 200; ++n) {
    recipes.push_back(SomeRecipes::number(n));
    recipes.back().id = store.saveRecipe(recipes.back()).id;
  }
  for (const unsigned n : {0U, 17U, 42U, 199U}) {
    NearestQuery query = queryOf(recipes[n].version);
    query.withdrawnToo = true;
    const std::vector<NearRecipe> near = store.nearest(query);
    REQUIRE(near.size() == 10);
    CHECK(near.front().row.id == recipes[n].id);
    CHECK(near.front().distance < 1e-5);
    CHECK(near.front().parts.empty());
    CHECK(std::ranges::is_sorted(near, {}, &NearRecipe::distance));
    for (const NearRecipe& one : near) {
      double sum = 0;
      for (const DistancePart& part : one.parts) sum += part.distance;
      CHECK(sum == Catch::Approx(one.distance).margin(1e-4));
      CHECK(std::ranges::all_of(one.parts, [](const DistancePart& part) { return !part.words.empty(); }));
    }
  }
  // Passing over what is surely too far leaves the same ones: asked for all, the first ten are they.
  NearestQuery query = queryOf(recipes[42].version);
  const std::vector<NearRecipe> ten = store.nearest(query);
  query.most = 1000;
  const std::vector<NearRecipe> all = store.nearest(query);
  CHECK(all.size() < 200);  // those withdrawn are not offered
  for (std::size_t i = 0; i < ten.size(); ++i) CHECK(ten[i].row.id == all[i].row.id);
  query.provenOnly = true;
  CHECK(std::ranges::all_of(store.nearest(query), [](const NearRecipe& near) { return near.row.state == RecipeState::Proven; }));
  query.most = 0;
  CHECK(store.nearest(query).empty());
}

TEST_CASE("Each difference is told in words of its own", "[library]") {
  LibraryCase test;
  LibraryStore store = test.open();
  Recipe recipe = plain();
  store.saveRecipe(recipe);
  NearestQuery query = queryOf(recipe.version);
  const auto only = [&] {
    const NearRecipe near = store.nearest(query).front();
    REQUIRE(near.parts.size() == 1);
    CHECK(near.parts.front().distance == Catch::Approx(near.distance).margin(1e-5));
    return near.parts.front();
  };
  SECTION("metal of the same family is nearer than of another") {
    query.part.substrate = "stainless-steel";
    REQUIRE(findSubstrate(shippedLibrary(), query.part.substrate));
    const DistancePart near = only();
    CHECK(near.what == "metal");
    CHECK_THAT(near.words, Catch::Matchers::Contains(findSubstrate(shippedLibrary(), "mild-steel")->name + " instead of "));
    for (const Substrate& metal : shippedLibrary().substrates) {
      if (metal.family != MetalFamily::Aluminium) continue;
      query.part.substrate = metal.id;
      CHECK(only().distance > near.distance);
    }
  }
  SECTION("plate") {
    query.part.thickness_m = Range::exact(0.002);
    CHECK(only().what == "plate");
    const double doubled = only().distance;
    query.part.thickness_m = Range::exact(0.0005);
    CHECK(only().distance == Catch::Approx(doubled));
    CHECK(only().words == "metal of 1.0 mm instead of 0.50 mm");
  }
  SECTION("a layer more, and a layer less") {
    query.coat.erase(query.coat.begin());
    CHECK(only().what == "layers");
    CHECK(only().distance == Catch::Approx(1));
    CHECK_THAT(only().words, Catch::Matchers::EndsWith(" besides"));
    query.coat = recipe.version.coat;
    query.coat.insert(query.coat.begin() + 1, query.coat.front());
    query.coat[1].coating = "alkyd-dark";
    CHECK(only().distance == Catch::Approx(1));
    CHECK(only().words == "no " + findCoating(shippedLibrary(), "alkyd-dark")->name);
  }
  SECTION("another coating") {
    query.coat.front().coating = "alkyd-dark";
    CHECK(only().what == "layers");
    CHECK(only().distance < 1.01);
    CHECK_THAT(only().words, Catch::Matchers::Contains(" instead of "));
  }
  SECTION("a coating nobody knows is like none other") {
    query.coat.front().coating = "from-mars";
    CHECK(only().what == "layers");
  }
  SECTION("a thicker layer") {
    query.coat.front().thickness_m = Range::exact(100e-6);
    CHECK(only().what == "coat");
    CHECK_THAT(only().words, Catch::Matchers::EndsWith("50 \xc2\xb5m instead of 100 \xc2\xb5m"));
  }
  SECTION("kind of machine") {
    query.machine->kind = MachineKind::Continuous;
    CHECK(only().words == "pulsed instead of continuous");
  }
  SECTION("spot, by the optic that is on") {
    Optic optic;
    optic.id = "wide";
    optic.spotDiameter_m = 2 * query.machine->spotDiameter_m;
    query.machine->optics = {optic};
    CHECK(store.nearest(query).front().parts.empty());
    query.optic = "wide";
    CHECK(only().what == "spot");
  }
  SECTION("no machine in mind") {
    query.machine.reset();
    CHECK(store.nearest(query).front().parts.empty());
  }
  SECTION("finish") {
    query.part.finish = Finish::Untouched;
    CHECK(only().words == "finish light-etch instead of untouched");
  }
  SECTION("bare metal against a coat") {
    query.coat.clear();
    CHECK(store.nearest(query).front().distance == Catch::Approx(2));
  }
}
