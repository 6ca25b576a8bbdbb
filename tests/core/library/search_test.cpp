// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/library/library_case.h"

#include <algorithm>
#include <set>

using namespace bw;
using namespace bw::test;

namespace {

/// A library of a few hundred recipes, and the same recipes to go through one by one.
struct Filled : LibraryCase {
  LibraryStore store = open();
  std::vector<Recipe> recipes;

  Filled() {
    store.inOneGo([&] {
      for (unsigned n = 0; n < 400; ++n) {
        recipes.push_back(SomeRecipes::number(n));
        recipes.back().id = store.saveRecipe(recipes.back()).id;
      }
    });
  }

  template <class Accepts>
  std::set<std::string> those(Accepts accepts) const {
    std::set<std::string> ids;
    for (const Recipe& recipe : recipes) {
      if (accepts(recipe)) ids.insert(recipe.id);
    }
    return ids;
  }
  std::set<std::string> found(RecipeQuery query) {
    query.most = 1000;
    const RecipeFindings findings = store.find(query);
    CHECK(findings.total == findings.rows.size());
    std::set<std::string> ids;
    for (const RecipeRow& row : findings.rows) ids.insert(row.id);
    return ids;
  }
};

std::string lower(std::string text) {
  std::ranges::transform(text, text.begin(), [](char c) { return static_cast<char>(c >= 'A' && c <= 'Z' ? c + 32 : c); });
  return text;
}

/// Whether a word of the text begins so; the plain way.
bool hasWord(const std::string& text, const std::string& beginning) {
  const std::string all = " " + lower(text);
  for (std::size_t at = all.find(beginning); at != std::string::npos; at = all.find(beginning, at + 1)) {
    if (at > 0 && !std::isalnum(static_cast<unsigned char>(all[at - 1]))) return true;
  }
  return false;
}

std::string textOf(const Recipe& recipe) {
  const RecipeVersion& version = recipe.version;
  std::string text = version.name + "\n" + version.note + "\n" + version.part.substrate + "\n" + version.machines.front().id + "\n" +
                     version.machines.front().name + "\nopen face\n" + version.savedBy + "\n" +
                     (version.machines.front().kind == MachineKind::Pulsed ? "pulsed" : "continuous") + "\n";
  text += version.part.finish == Finish::Any ? "any" : version.part.finish == Finish::LightEtch ? "light-etch" : "untouched";
  for (const Substrate& metal : version.materials.substrates) text += "\n" + metal.name;
  for (const Layer& layer : version.coat) text += "\n" + layer.name + "\n" + layer.coating;
  for (const Coating& coating : version.materials.coatings) text += "\n" + coating.name;
  if (version.proof) text += "\nmk behind the door hinge";
  return text;
}

double coatOf(const Recipe& recipe) {
  double sum = 0;
  for (const Layer& layer : recipe.version.coat) sum += layer.thickness_m.likely;
  return sum;
}

}  // namespace

TEST_CASE("Words and their beginnings find what reading everything finds", "[library]") {
  Filled test;
  for (const char* text : {"s", "st", "steel", "carriage", "Carriage DOOR", "tank lid", "pale", "399", "mk hinge", "pulsed light",
                           "carriage steel pulsed wait", "  -- tank!!  ", "no such thing", "etch", "1 kw"}) {
    CAPTURE(text);
    RecipeQuery query;
    query.text = text;
    CHECK(test.found(query) == test.those([&](const Recipe& recipe) {
      std::string word;
      bool all = true;
      for (const char c : lower(text) + " ") {
        if (std::isalnum(static_cast<unsigned char>(c)))
          word += c;
        else if (!word.empty())
          all = all && hasWord(textOf(recipe), std::exchange(word, {}));
      }
      return all;
    }));
  }
}

TEST_CASE("A text of no words keeps nothing out, and letters match without case or accents", "[library]") {
  Filled test;
  RecipeQuery query;
  for (const char* text : {"", "   ", "\"'*^:()-", "\xe2\x80\x93 \xe2\x80\xa6", "\xf0\x9f\x94\xa5"}) {
    CAPTURE(text);
    query.text = text;
    CHECK(test.found(query).size() == test.recipes.size());
  }
  Recipe recipe = SomeRecipes::number(999);
  recipe.version.name = "T\xc3\xbcr der Draisine";
  test.store.saveRecipe(recipe);
  for (const char* text : {"t\xc3\xbcr", "T\xc3\x9cR", "tur drais", "draisine"}) {
    CAPTURE(text);
    query.text = text;
    CHECK(test.found(query).size() == 1);
  }
}

TEST_CASE("Facets keep out what going through all recipes keeps out", "[library]") {
  Filled test;
  const std::string steel = test.recipes[0].version.part.substrate, paint = test.recipes[1].version.coat.front().coating;
  RecipeQuery query;
  SECTION("substrate") {
    query.substrates = {steel, "no such metal"};
    CHECK(test.found(query) == test.those([&](const Recipe& recipe) { return recipe.version.part.substrate == steel; }));
  }
  SECTION("a substrate nobody has") {
    query.substrates = {"no such metal"};
    CHECK(test.found(query).empty());
  }
  SECTION("coatings") {
    query.coatings = {paint};
    CHECK(test.found(query) == test.those([&](const Recipe& recipe) {
      return std::ranges::find(recipe.version.coat, paint, &Layer::coating) != recipe.version.coat.end();
    }));
  }
  SECTION("thickness of the coat, its bounds included") {
    query.coatFrom_m = coatOf(test.recipes[3]);
    query.coatTo_m = *query.coatFrom_m + 100e-6;
    const auto inside = test.those(
        [&](const Recipe& recipe) { return coatOf(recipe) > *query.coatFrom_m - 1e-9 && coatOf(recipe) < *query.coatTo_m + 1e-9; });
    CHECK(inside.contains(test.recipes[3].id));
    CHECK(test.found(query) == inside);
  }
  SECTION("thickness of the metal") {
    query.plateTo_m = 0.0015;
    CHECK(test.found(query) == test.those([](const Recipe& recipe) { return recipe.version.part.thickness_m.likely < 0.00151; }));
  }
  SECTION("machine, finish and proof together") {
    query.machineKind = MachineKind::Pulsed;
    query.finish = Finish::Any;
    query.provenOnly = true;
    const auto all = test.those([](const Recipe& recipe) {
      return recipe.version.machines.front().kind == MachineKind::Pulsed && recipe.version.part.finish == Finish::Any &&
             recipe.state == RecipeState::Proven;
    });
    CHECK(all.size() > 3);
    CHECK(test.found(query) == all);
  }
  SECTION("without those that were withdrawn") {
    query.withdrawnToo = false;
    CHECK(test.found(query) == test.those([](const Recipe& recipe) { return recipe.state != RecipeState::Withdrawn; }));
  }
}

TEST_CASE("A facet's count is what choosing it would find", "[library]") {
  Filled test;
  RecipeQuery query;
  query.text = "carriage";
  query.machineKind = MachineKind::Pulsed;
  const auto metals = test.store.find(query).facets.substrates;
  REQUIRE_FALSE(metals.empty());
  query.substrates = {std::ranges::max_element(metals, {}, &FacetCount::count)->value};
  const RecipeFacets facets = test.store.find(query).facets;
  REQUIRE(facets.substrates.size() > 3);
  REQUIRE(facets.coatings.size() > 3);
  REQUIRE(facets.machineKinds.size() == 2);
  for (const FacetCount& metal : facets.substrates) {
    RecipeQuery chosen = query;
    chosen.substrates = {metal.value};
    CHECK(test.found(chosen).size() == metal.count);
  }
  for (const FacetCount& coating : facets.coatings) {
    RecipeQuery chosen = query;
    chosen.coatings = {coating.value};
    CHECK(test.found(chosen).size() == coating.count);
  }
  for (const FacetCount& kind : facets.machineKinds) {
    RecipeQuery chosen = query;
    chosen.machineKind = kind.value == "pulsed" ? MachineKind::Pulsed : MachineKind::Continuous;
    CHECK(test.found(chosen).size() == kind.count);
  }
  for (const FacetCount& state : facets.states) {
    if (state.value != "proven") continue;
    RecipeQuery chosen = query;
    chosen.provenOnly = true;
    CHECK(test.found(chosen).size() == state.count);
  }
  CHECK(std::ranges::is_sorted(facets.coatings, std::ranges::greater{}, &FacetCount::count));
}

TEST_CASE("Proven recipes come first, the last saved before earlier ones, page by page", "[library]") {
  Filled test;
  RecipeQuery query;
  query.most = 1000;
  const std::vector<RecipeRow> all = test.store.find(query).rows;
  const auto rank = [](const RecipeRow& row) { return row.state == RecipeState::Proven ? 0 : row.state == RecipeState::Draft ? 1 : 2; };
  CHECK(std::ranges::is_sorted(all, {}, rank));
  const auto place = [&](const RecipeRow& row) { return std::ranges::find(test.recipes, row.id, &Recipe::id) - test.recipes.begin(); };
  for (std::size_t i = 1; i < all.size(); ++i) {
    if (rank(all[i - 1]) == rank(all[i])) CHECK(place(all[i - 1]) > place(all[i]));
  }
  query.most = 7;
  query.skip = 14;
  const RecipeFindings page = test.store.find(query);
  CHECK(page.total == all.size());
  REQUIRE(page.rows.size() == 7);
  CHECK(page.rows.front().id == all[14].id);
  query.skip = 100000;
  CHECK(test.store.find(query).rows.empty());

  const RecipeRow& row = all.front();
  const Recipe& recipe = test.recipes[static_cast<std::size_t>(place(row))];
  CHECK(row.name == recipe.version.name);
  CHECK(row.substrate == recipe.version.part.substrate);
  CHECK(row.coatings.size() == recipe.version.coat.size());
  CHECK(row.coat_m == Catch::Approx(coatOf(recipe)));
  CHECK(row.hasProof);
  CHECK(row.version == 1);
}

TEST_CASE("What was saved anew is found by its new words and not by its old ones", "[library]") {
  Filled test;
  LibraryStore other = test.open();
  Recipe recipe = test.store.recipe(test.recipes[7].id);
  recipe.version.name = "quokka";
  recipe.version.coat.resize(1);
  recipe.version.coat.front().coating = "wombat-paint";
  test.store.saveRecipe(recipe);
  for (LibraryStore* store : {&test.store, &other}) {
    RecipeQuery query;
    query.text = "quokka wombat";
    CHECK(store->find(query).total == 1);
    query.text = test.recipes[7].version.name;
    CHECK(store->find(query).total == 0);
    query.text.clear();
    query.coatings = {"wombat-paint"};
    CHECK(store->find(query).total == 1);
  }
  other.setState(recipe.id, 2, RecipeState::Withdrawn, "not with this beam", "mk");
  RecipeQuery query;
  query.text = "quokka";
  REQUIRE(test.store.find(query).rows.size() == 1);
  CHECK(test.store.find(query).rows.front().state == RecipeState::Withdrawn);
  CHECK(test.store.find(query).rows.front().reason == "not with this beam");
}

TEST_CASE("A slip of typing is forgiven where no word begins as typed", "[library]") {
  Filled test;
  Recipe recipe = SomeRecipes::number(999);
  recipe.version.name = "Maroon undercarriage";
  const std::string id = test.store.saveRecipe(recipe).id;
  RecipeQuery query;
  for (const char* text : {"maron", "maroom", "mraoon", "marroon", "undercariage", "udnercarriag"}) {
    CAPTURE(text);
    query.text = text;
    CHECK(test.found(query) == std::set<std::string>{id});
  }
  for (const char* text : {"mxr", "baroon", "mrnoon", "undrcriege"}) {  // another word: too short, wrong at the start, too far
    CAPTURE(text);
    query.text = text;
    CHECK(test.found(query).empty());
  }
}
