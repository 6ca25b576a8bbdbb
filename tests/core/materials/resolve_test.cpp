// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/resolve.h"

#include "core/files/library_file.h"
#include "core/materials/kubelka_munk.h"
#include "core/values/unusable.h"
#include "tests/support/catch.h"

using namespace bw;

namespace {

Layer layerOf(const std::string& coating) {
  Layer layer;
  layer.name = "top";
  layer.coating = coating;
  layer.thickness_m = Range::exact(45e-6);
  return layer;
}

LayerMaterial resolved(const Layer& layer, const Library& project = {}) { return resolveLayer(layer, project, shippedLibrary()); }

}  // namespace

TEST_CASE("A layer is what the library says of its coating", "[materials]") {
  const Coating& coating = *findCoating(shippedLibrary(), "alkyd-dark");
  const LayerMaterial material = resolved(layerOf("alkyd-dark"));
  CHECK(material.name == "top");
  CHECK(material.thickness_m == Range::exact(45e-6));
  CHECK(material.absorptance == coating.absorptance.range);
  CHECK(material.removalEnthalpy_J_m3 == coating.removalEnthalpy_J_m3.range);
  CHECK(material.ejectionTime_s == coating.ejectionTime_s.range);
  CHECK(material.residueShare == Range::exact(0));
  CHECK(material.absorptanceAfterHeating == material.absorptance);
  CHECK_FALSE(material.scattering_1_m);
  CHECK(material.components == coating.components);
}

TEST_CASE("The layer's own word goes before the project's library, that before the shipped one", "[materials]") {
  Library project;
  project.coatings.push_back(*findCoating(shippedLibrary(), "alkyd-dark"));
  project.coatings[0].absorptance.range = Range::exact(0.6);
  project.coatings[0].density_kg_m3.range = Range::exact(1111);
  Layer layer = layerOf("alkyd-dark");
  layer.overrides.absorptance = Range{0.1, 0.2, 0.3};
  layer.components["lead"] = Presence::No;
  const LayerMaterial material = resolved(layer, project);
  CHECK(material.absorptance == Range{0.1, 0.2, 0.3});
  CHECK(material.density_kg_m3 == Range::exact(1111));
  CHECK(material.components.at("lead") == Presence::No);
  CHECK(material.components.at("chromate") == Presence::Unknown);  // the library's, still there
}

TEST_CASE("A stated absorptance carries over to the scattering coefficients", "[materials]") {
  Layer layer = layerOf("alkyd-white");
  CHECK(resolved(layer).scattering_1_m == findCoating(shippedLibrary(), "alkyd-white")->scattering_1_m->range);
  layer.overrides.absorptance = Range::exact(0.3);
  layer.overrides.opticalDepth_m = Range::exact(100e-6);
  const LayerMaterial material = resolved(layer);
  const KubelkaMunk film{material.absorption_1_m->likely, material.scattering_1_m->likely};
  CHECK(1 - thickReflectance(film) == Catch::Approx(0.3));
  CHECK(opticalDepth_m(film) == Catch::Approx(100e-6));
  layer.overrides.absorptance = Range{0.0, 0.3, 0.5};
  const LayerMaterial wide = resolved(layer);
  for (const Range& range : {*wide.scattering_1_m, *wide.absorption_1_m}) {
    CHECK(range.low < range.likely);
    CHECK(range.likely < range.high);
  }
}

TEST_CASE("A layer that behaves otherwise than its coating takes the wide values of the unknown coating", "[materials]") {
  const Coating& unknown = *findCoating(shippedLibrary(), "unknown");
  Layer layer = layerOf("alkyd-dark");
  layer.behaviour = Behaviour::Softens;
  CHECK(resolved(layer).residueShare == unknown.residueShare->range);
  layer.residueShare = Range::exact(0.1);
  CHECK(resolved(layer).residueShare == Range::exact(0.1));
  layer.behaviour = Behaviour::Scorches;
  CHECK(resolved(layer).residueShare == Range::exact(0));
  CHECK(resolved(layer).absorptanceAfterHeating == unknown.absorptanceAfterHeating->range);
}

TEST_CASE("A metal keeps its curve unless the part states a number", "[materials]") {
  Part part;
  const Metal metal = resolveMetal(part, {}, shippedLibrary());
  CHECK(metal.id == "mild-steel");
  CHECK(metal.family == MetalFamily::Iron);
  CHECK(metal.conductivityCurve == ThermalCurve::CarbonSteel);
  CHECK(metal.tint_C->range.likely == 210);
  part.substrateProperties.conductivity_W_mK = Range::exact(45);
  part.substrateProperties.melting_C = Range::exact(1500);
  const Metal own = resolveMetal(part, {}, shippedLibrary());
  CHECK(own.conductivityCurve == ThermalCurve::Constant);
  CHECK(own.specificHeatCurve == ThermalCurve::CarbonSteel);
  CHECK(own.conductivity_W_mK == Range::exact(45));
  CHECK(own.melting_C.range == Range::exact(1500));
  CHECK(own.melting_C.source != metal.melting_C.source);
}

TEST_CASE("What neither library knows is unusable, and the sentence names it", "[materials]") {
  using Catch::Matchers::Contains;
  CHECK_THROWS_AS(resolved(layerOf("moon-dust")), Unusable);
  CHECK_THROWS_WITH(resolved(layerOf("moon-dust")), Contains("moon-dust") && Contains("unknown"));
  Part part;
  part.substrate = "adamant";
  CHECK_THROWS_WITH(resolveMetal(part, {}, shippedLibrary()), Contains("adamant"));
}

TEST_CASE("A limit of a metal or a coating is its own, under whatever name the shop keeps it", "[materials]") {
  Library project;
  project.substrates.push_back(*findSubstrate(shippedLibrary(), "brass"));
  project.substrates[0].id = "shop-gunmetal";
  project.coatings.push_back(*findCoating(shippedLibrary(), "zinc-galvanising"));
  project.coatings[0].id = "shop-plating";
  Part part;
  part.substrate = "shop-gunmetal";
  CHECK(resolveMetal(part, project, shippedLibrary()).partBoils_C->range.likely == 907);
  CHECK(resolved(layerOf("shop-plating"), project).melts_C->range.likely == 419.6);
  part.substrate = "mild-steel";
  CHECK_FALSE(resolveMetal(part, project, shippedLibrary()).partBoils_C);
}

TEST_CASE("An entry taken along before a limit was known has it from the shipped one", "[materials]") {
  Library project;
  project.substrates.push_back(*findSubstrate(shippedLibrary(), "brass"));
  project.substrates[0].partBoils_C.reset();
  project.coatings.push_back(*findCoating(shippedLibrary(), "zinc-galvanising"));
  project.coatings[0].melts_C.reset();
  Part part;
  part.substrate = "brass";
  CHECK(resolveMetal(part, project, shippedLibrary()).partBoils_C);
  CHECK(resolved(layerOf("zinc-galvanising"), project).melts_C);
}
