// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/library_file.h"

#include "core/files/library_json.h"
#include "core/files/project_file.h"
#include "core/materials/kubelka_munk.h"
#include "tests/support/catch.h"

#include <fstream>
#include <iterator>

using namespace bw;

namespace {

const std::string substratesPath = BAREWRIGHT_SOURCE_DIR "/resources/materials/substrates.json";
const std::string coatingsPath = BAREWRIGHT_SOURCE_DIR "/resources/materials/coatings.json";

std::string fileText(const std::string& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// Every object of the file that has a "value", with its path: the properties, whatever the struct knows of them.
void collectProperties(const Json& json, const std::string& path, std::vector<std::pair<std::string, const Json*>>& found) {
  if (!json.is_structured()) return;
  if (json.contains("value")) found.emplace_back(path, &json);
  for (const auto& [key, member] : json.items()) collectProperties(member, path + "." + key, found);
}

/// A small library text with one coating, for spoiling.
Json oneCoating() {
  Library library;
  library.coatings.push_back(*findCoating(shippedLibrary(), "alkyd-dark"));
  LibraryFile file{library};
  return writeJson(file);
}

const std::string noSubstrates = R"({"format": "barewright-library", "version": 1, "substrates": []})";

}  // namespace

TEST_CASE("The library in the program is the one in the files, read whole", "[library]") {
  const Library fromFiles = readLibrary(fileText(substratesPath), fileText(coatingsPath));
  CHECK(fromFiles == shippedLibrary());
  CHECK(shippedLibrary().substrates.size() >= 13);
  CHECK(shippedLibrary().coatings.size() >= 29);
  // Written back it says the same, so no key of the files is misspelt or passed over.
  LibraryFile substrates{{shippedLibrary().substrates, {}}};
  LibraryFile coatings{{{}, shippedLibrary().coatings}};
  CHECK(nlohmann::json(writeJson(substrates)) == nlohmann::json::parse(fileText(substratesPath)));
  CHECK(nlohmann::json(writeJson(coatings)) == nlohmann::json::parse(fileText(coatingsPath)));
}

TEST_CASE("The ids that project files rely on exist", "[library]") {
  for (const char* id :
       {"alkyd-dark", "alkyd-white", "primer-red-oxide", "unknown", "unknown-dark", "unknown-pale", "unknown-powder", "unknown-rust"}) {
    INFO(id);
    CHECK(findCoating(shippedLibrary(), id));
  }
  CHECK(findSubstrate(shippedLibrary(), "mild-steel"));
  for (const char* id : {"unknown-metal", "unknown-steel", "unknown-nonmagnetic"}) CHECK(findSubstrate(shippedLibrary(), id));
}

TEST_CASE("Every property of the library names its source and is in order", "[library]") {
  for (const auto& path : {substratesPath, coatingsPath}) {
    const Json json = Json::parse(fileText(path));
    std::vector<std::pair<std::string, const Json*>> properties;
    collectProperties(json, "$", properties);
    REQUIRE(properties.size() > 100);
    for (const auto& [where, property] : properties) {
      INFO(where << " " << property->dump());
      const std::string source = property->value("source", "");
      CHECK(source.size() >= 10);
      // What says of itself that it is a guess carries the mark, so that the window can show it.
      if (source.rfind("estimate", 0) == 0) CHECK(property->value("estimate", false));
    }
  }
}

TEST_CASE("Coatings hold together", "[library]") {
  for (const Coating& coating : shippedLibrary().coatings) {
    INFO(coating.id);
    CHECK(coating.colour.size() == 7);
    CHECK(coating.absorptance.range.low > 0);
    CHECK(coating.removalTemperature_C.range.low > 100);
    // What must be held to leave is more than what merely heats the coat to that temperature.
    const double sensible_J_m3 =
        coating.density_kg_m3.range.likely * coating.specificHeat_J_kgK.range.likely * (coating.removalTemperature_C.range.likely - 20);
    CHECK(coating.removalEnthalpy_J_m3.range.likely > sensible_J_m3);
    CHECK((coating.behaviour == Behaviour::Softens) <= coating.residueShare.has_value());
    CHECK((coating.behaviour == Behaviour::Scorches) <= coating.absorptanceAfterHeating.has_value());
    CHECK(coating.scattering_1_m.has_value() == coating.absorption_1_m.has_value());
  }
}

TEST_CASE("Absorptance and optical depth of a scattering coat follow from its S and K", "[library]") {
  int scattering = 0;
  for (const Coating& coating : shippedLibrary().coatings) {
    if (!coating.scattering_1_m) continue;
    INFO(coating.id);
    ++scattering;
    const KubelkaMunk film{coating.absorption_1_m->range.likely, coating.scattering_1_m->range.likely};
    // The file's values have two digits.
    CHECK(1 - thickReflectance(film) == Catch::Approx(coating.absorptance.range.likely).margin(0.01));
    CHECK(opticalDepth_m(film) == Catch::Approx(coating.opticalDepth_m.range.likely).epsilon(0.05));
  }
  CHECK(scattering >= 5);
}

TEST_CASE("An unknown coating is wider than every coating it may turn out to be", "[library]") {
  struct Family {
    const char* unknown;
    std::vector<std::string> members;
  };
  // Clear coats and bare zinc are left out of "unknown": one sees that they are clear or metal.
  const std::vector<Family> families = {
      {"unknown",
       {"alkyd-dark", "alkyd-mid", "alkyd-white", "alkyd-cream", "primer-red-oxide", "primer-zinc-rich", "primer-epoxy", "e-coat",
        "filler-polyester", "acrylic-basecoat", "polyurethane-2k", "powder-coat-dark", "powder-coat-grey", "powder-coat-pale", "bitumen",
        "pvc-underseal", "red-lead-primer", "chromate-primer"}},
      {"unknown-dark", {"alkyd-dark", "e-coat", "powder-coat-dark", "bitumen"}},
      {"unknown-pale", {"alkyd-white", "alkyd-cream", "powder-coat-pale"}},
      {"unknown-powder", {"powder-coat-dark", "powder-coat-grey", "powder-coat-pale"}},
      {"unknown-rust", {"rust-light", "rust-heavy", "mill-scale"}},
  };
  for (const Family& family : families) {
    const Coating* unknown = findCoating(shippedLibrary(), family.unknown);
    REQUIRE(unknown);
    CHECK(unknown->unknown);
    for (const std::string& id : family.members) {
      INFO(family.unknown << " " << id);
      const Coating* known = findCoating(shippedLibrary(), id);
      REQUIRE(known);
      CHECK_FALSE(known->unknown);
      for (const auto member :
           {&Coating::absorptance, &Coating::opticalDepth_m, &Coating::removalEnthalpy_J_m3, &Coating::removalTemperature_C}) {
        const Range& wide = (unknown->*member).range;
        const Range& narrow = (known->*member).range;
        CHECK(wide.low <= narrow.low);
        CHECK(wide.high >= narrow.high);
        CHECK(wide.high / wide.low > narrow.high / narrow.low);
      }
    }
  }
}

TEST_CASE("A metal of which only the magnet's answer is known is as wide as all it may be", "[library]") {
  const std::pair<const char*, std::vector<const char*>> groups[] = {
      {"unknown-steel", {"mild-steel", "carbon-steel", "galvanised-steel", "cast-iron"}},
      {"unknown-nonmagnetic",
       {"stainless-steel", "aluminium-sheet", "aluminium-6xxx", "cast-aluminium", "brass", "copper", "titanium", "magnesium-alloy"}}};
  constexpr Property Substrate::*properties[] = {
      &Substrate::absorptance,      &Substrate::conductivity_W_mK, &Substrate::density_kg_m3,     &Substrate::specificHeat_J_kgK,
      &Substrate::melting_C,        &Substrate::boiling_C,         &Substrate::vaporisation_J_m3, &Substrate::expansion_1_K,
      &Substrate::youngsModulus_Pa, &Substrate::poissonRatio,      &Substrate::yield_Pa};
  for (const auto& [unknown, members] : groups) {
    for (const auto property : properties) {
      const Range wide = (findSubstrate(shippedLibrary(), unknown)->*property).range;
      double low = 1e300, high = -1e300;
      for (const char* id : members) {
        const Range one = (findSubstrate(shippedLibrary(), id)->*property).range;
        low = std::min(low, one.low);
        high = std::max(high, one.high);
      }
      INFO(unknown << " " << wide.low << " to " << wide.high);
      CHECK(wide.low == low);
      CHECK(wide.high == high);
    }
  }
}

TEST_CASE("Substrates hold together", "[library]") {
  for (const Substrate& metal : shippedLibrary().substrates) {
    INFO(metal.id);
    CHECK(metal.melting_C.range.high < metal.boiling_C.range.high);
    CHECK(metal.refractiveIndex.has_value() == metal.extinctionCoefficient.has_value());
    for (const auto& limit : {metal.tint_C, metal.hardening_C, metal.temper_C, metal.platingMelts_C}) {
      if (limit) CHECK(limit->range.likely < metal.melting_C.range.likely);
    }
    // Boiling a volume away takes more than heating it to the boil.
    const double heating_J_m3 = metal.density_kg_m3.range.likely * metal.specificHeat_J_kgK.range.likely * metal.boiling_C.range.likely;
    CHECK(metal.vaporisation_J_m3.range.likely > heating_J_m3);
    CHECK((metal.family == MetalFamily::Unknown) == (metal.id == "unknown-metal" || metal.id == "unknown-nonmagnetic"));
  }
}

TEST_CASE("Energy to boil a metal away follows from its heats", "[library]") {
  // Enthalpy from 300 K to the melt, melting point, specific heat of the melt: NASA TM-4513. Boiling point, heat of vaporisation and
  // density: from memory.
  struct Row {
    const char* id;
    double density_kg_m3, toMelt_J_kg, melting_C, melt_J_kgK, boiling_C, vaporisation_J_kg;
  };
  const std::vector<Row> rows = {{"mild-steel", 7874, 1300e3, 1535.8, 824, 2861, 6.1e6},
                                 {"aluminium-sheet", 2699, 1068e3, 660.5, 1177, 2490, 10.8e6},
                                 {"copper", 8960, 673e3, 1084.8, 516, 2562, 4.7e6},
                                 {"magnesium-alloy", 1738, 1075e3, 649.9, 1411, 1090, 5.25e6}};
  for (const Row& row : rows) {
    INFO(row.id);
    const double sum_J_m3 =
        row.density_kg_m3 * (row.toMelt_J_kg + row.melt_J_kgK * (row.boiling_C - row.melting_C) + row.vaporisation_J_kg);
    CHECK(findSubstrate(shippedLibrary(), row.id)->vaporisation_J_m3.range.likely == Catch::Approx(sum_J_m3).epsilon(0.02));
  }
  const double zinc_J_m3 = 7140 * (277e3 + 480 * (907 - 419.6) + 1.76e6);
  CHECK(findCoating(shippedLibrary(), "zinc-galvanising")->removalEnthalpy_J_m3.range.likely == Catch::Approx(zinc_J_m3).epsilon(0.02));
}

TEST_CASE("A spoilt library is refused with the place and what is accepted", "[library]") {
  using Catch::Matchers::Contains;
  const auto reading = [](const Json& json) { return readLibrary(noSubstrates, jsonText(json)); };
  REQUIRE_NOTHROW(reading(oneCoating()));

  Json disordered = oneCoating();
  disordered["coatings"][0]["absorptance"]["value"] = {0.9, 0.5, 0.97};
  CHECK_THROWS_WITH(reading(disordered), Contains("$.coatings[0].absorptance.value") && Contains("accepted"));

  Json outOfRange = oneCoating();
  outOfRange["coatings"][0]["absorptance"]["value"] = {0.5, 0.9, 1.2};
  CHECK_THROWS_WITH(reading(outOfRange), Contains("$.coatings[0].absorptance.value[2]"));

  Json unsourced = oneCoating();
  unsourced["coatings"][0]["density_kg_m3"].erase("source");
  CHECK_THROWS_WITH(reading(unsourced), Contains("$.coatings[0].density_kg_m3.source"));

  Json twice = oneCoating();
  twice["coatings"].push_back(twice["coatings"][0]);
  CHECK_THROWS_WITH(reading(twice), Contains("$.coatings[1].id") && Contains("twice"));

  CHECK_THROWS_AS(readLibrary("{", "{}"), FileError);
}
