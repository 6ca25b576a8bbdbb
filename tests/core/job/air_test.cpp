// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/air.h"

#include "core/files/library_file.h"
#include "tests/support/catch.h"

using namespace bw;

namespace {

CoatedArea coated(double area_m2, const std::vector<std::string>& coatings) {
  CoatedArea area{area_m2, {}};
  for (const std::string& coating : coatings) {
    Layer layer;
    layer.name = coating;
    layer.coating = coating;
    layer.thickness_m = Range::exact(100e-6);
    area.coat.push_back(resolveLayer(layer, {}, shippedLibrary()));
  }
  return area;
}

Metal metalOf(const std::string& substrate) {
  Part part;
  part.substrate = substrate;
  return resolveMetal(part, {}, shippedLibrary());
}

/// Whether some sentence has all of these words.
bool says(const std::vector<std::string>& sentences, const std::vector<std::string>& words) {
  for (const std::string& sentence : sentences) {
    bool all = true;
    for (const std::string& word : words) all = all && sentence.find(word) != std::string::npos;
    if (all) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("Removed mass is thickness times density times area", "[job]") {
  // 1 m2 x 100 um x 1300 kg/m3 = 130 g (arithmetic).
  CoatedArea area = coated(1, {"alkyd-dark"});
  area.coat[0].density_kg_m3 = Range::exact(1300);
  CHECK(coatMass_kg({area}) == Catch::Approx(0.130));
  const AirResult half = air({area}, metalOf("mild-steel"), {}, 0.5, 600.0);
  CHECK(*half.removed_kg == Catch::Approx(0.065));
  CHECK(*half.fume_kg_s == Catch::Approx(0.065 / 600));
  CHECK_FALSE(air({area}, metalOf("mild-steel"), {}, 0.5, std::nullopt).fume_kg_s);
  const AirResult unknown = air({area}, metalOf("mild-steel"), {}, std::nullopt, 600.0);
  CHECK_FALSE(unknown.removed_kg);
  CHECK_FALSE(unknown.fume_kg_s);
  area.coat[0].keep = true;
  CHECK(coatMass_kg({area}) == 0);
}

TEST_CASE("Thinning lead fume with fresh air is hopeless", "[job]") {
  // 0.65 g/h of lead down to 50 ug/m3 (29 CFR 1910.1025) takes 13 000 m3/h (arithmetic).
  CHECK(dilution_m3_s(0.65e-3 / 3600, 50e-9) * 3600 == Catch::Approx(13000));
  const AirResult result = air({coated(1, {"alkyd-dark"})}, metalOf("mild-steel"), {}, 1, 3600.0);
  CHECK(says(result.hazards, {"m³/h", "capture it at the head"}));
}

TEST_CASE("Every component that the library names has its sentence", "[job]") {
  // A layer that surely holds the component is warned of by name, one that may hold it is to be tested.
  for (const Coating& coating : shippedLibrary().coatings) {
    for (const auto& [component, presence] : coating.components) {
      INFO(coating.id << " " << component);
      CoatedArea area = coated(1, {coating.id});
      for (auto& [key, state] : area.coat[0].components) state = key == component ? Presence::Yes : Presence::No;
      const auto known = hazards({area}, metalOf("mild-steel"), {});
      CHECK(says(known, {"(" + coating.id + ")"}));
      CHECK_FALSE(says(known, {"Test before"}));
      area.coat[0].components[component] = Presence::Unknown;
      CHECK(says(hazards({area}, metalOf("mild-steel"), {}), {"Test before the beam is on", "in " + coating.id}));
      area.coat[0].components[component] = Presence::No;
      CHECK_FALSE(says(hazards({area}, metalOf("mild-steel"), {}), {coating.id}));
    }
  }
}

TEST_CASE("Old coats nobody knows are tested for what they may hold", "[job]") {
  const auto list = hazards({coated(1, {"unknown"})}, metalOf("mild-steel"), {});
  for (const char* component : {"lead", "chromate", "asbestos", "PCB", "cadmium", "PVC"}) CHECK(says(list, {"Test before", component}));
  CHECK(list.front().find("Test before") == 0);
  CHECK(says(hazards({coated(1, {"bitumen"})}, metalOf("mild-steel"), {}), {"Test before", "asbestos"}));
  CHECK(says(hazards({coated(1, {"pvc-underseal"})}, metalOf("mild-steel"), {}), {"hydrogen chloride", "gas stage"}));
}

TEST_CASE("Iron dust and light-metal dust never share a filter", "[job]") {
  for (const Substrate& substrate : shippedLibrary().substrates) {
    INFO(substrate.id);
    const auto list = hazards({coated(1, {"clear-lacquer"})}, metalOf(substrate.id), {});
    const bool burnsTogether = substrate.family == MetalFamily::Iron || substrate.family == MetalFamily::Aluminium ||
                               substrate.family == MetalFamily::Magnesium || substrate.family == MetalFamily::Unknown;
    CHECK(says(list, {"ever in one filter", "thermite"}) == burnsTogether);
    CHECK(says(list, {"FIRE"}) == (substrate.family == MetalFamily::Magnesium));
    CHECK(says(list, {"Zinc plating"}) == substrate.platingMelts_C.has_value());
  }
}

TEST_CASE("What lies behind the metal is spoken of, nothing is not", "[job]") {
  Part part;
  const auto base = hazards({}, metalOf("mild-steel"), part);
  part.behind = {Behind::Nothing};
  CHECK(hazards({}, metalOf("mild-steel"), part) == base);
  for (const Behind behind : {Behind::Foam, Behind::Wax, Behind::Wood, Behind::Wiring, Behind::Paint, Behind::Adhesive,
                              Behind::ClosedCavity, Behind::Fuel, Behind::Unknown}) {
    part.behind = {behind};
    CHECK(hazards({}, metalOf("mild-steel"), part).size() == base.size() + 1);
  }
}

TEST_CASE("An area with a coat of its own is counted with it", "[job]") {
  Project project;
  project.coat.resize(1);
  project.coat[0].coating = "alkyd-dark";
  project.coat[0].thickness_m = Range::exact(50e-6);
  project.part.areas.resize(2);
  project.part.areas[0].area_m2 = 1;
  project.part.areas[1].area_m2 = 0.5;
  project.part.areas[1].count = 4;
  project.part.areas[1].coat = Coat(2, project.coat[0]);
  const auto areas = coatedAreas(project, {}, shippedLibrary());
  REQUIRE(areas.size() == 2);
  CHECK(areas[1].area_m2 == 2);
  CHECK(areas[1].coat.size() == 2);
  const double density_kg_m3 = areas[0].coat[0].density_kg_m3.likely;
  CHECK(coatMass_kg(areas) == Catch::Approx((1 * 50e-6 + 2 * 100e-6) * density_kg_m3));
}
