// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/hazards.h"

#include "core/assess/assess.h"
#include "tests/core/job/coated.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace bw;
using namespace bw::test;

namespace {

std::vector<std::string> idsOf(const std::vector<Precaution>& all) {
  std::vector<std::string> ids;
  for (const Precaution& one : all) ids.push_back(one.id);
  return ids;
}

bool has(const std::vector<Precaution>& all, const std::string& start) {
  return std::ranges::any_of(all, [&](const Precaution& one) { return one.id.starts_with(start); });
}

/// One layer of that coating on mild steel with nothing behind, and a plan that has extraction on.
Project oneLayer(const std::string& coating) {
  Project project;
  project.coat.resize(1);
  project.coat[0].name = "top";
  project.coat[0].coating = coating;
  project.coat[0].thickness_m = Range::exact(50e-6);
  project.part.behind = {Behind::Nothing};
  project.machines.resize(1);
  project.machines[0].id = "m";
  project.machines[0].wavelength_m = 1064e-9;
  project.machines[0].ratedPower_W = 300;
  project.machines[0].spotDiameter_m = 100e-6;
  project.plans.resize(1);
  project.plans[0].machine = "m";
  project.plans[0].extraction = Extraction{true, {}, {}, {}};
  return project;
}

std::vector<Precaution> precautionsOf(const Project& project) { return precautions(project, project.plans[0], shippedLibrary()); }

}  // namespace

TEST_CASE("Every component that the library names has its sentence", "[job]") {
  // A layer that surely holds the component is warned of by name, one that may hold it is to be tested.
  for (const Coating& coating : shippedLibrary().coatings) {
    for (const auto& [component, presence] : coating.components) {
      INFO(coating.id << " " << component);
      CoatedArea area = coated(1, {coating.id});
      for (auto& [key, state] : area.coat[0].components) state = key == component ? Presence::Yes : Presence::No;
      const auto known = hazards({area}, metalOf("mild-steel"), {});
      CHECK(says(known, {"(" + coating.id + ")"}));
      CHECK_FALSE(says(known, {"test before"}));
      area.coat[0].components[component] = Presence::Unknown;
      CHECK(says(hazards({area}, metalOf("mild-steel"), {}), {"test before the beam is on", "in " + coating.id}));
      area.coat[0].components[component] = Presence::No;
      CHECK_FALSE(says(hazards({area}, metalOf("mild-steel"), {}), {coating.id}));
    }
  }
}

TEST_CASE("Old coats nobody knows are tested for what they may hold", "[job]") {
  const auto list = hazards({coated(1, {"unknown"})}, metalOf("mild-steel"), {});
  for (const char* component : {"Lead", "Chromate", "Asbestos", "PCB", "Cadmium", "PVC"})
    CHECK(says(list, {component + std::string(" in unknown: test before")}));
  CHECK(says(hazards({coated(1, {"bitumen"})}, metalOf("mild-steel"), {}), {"test before", "Asbestos in bitumen"}));
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

TEST_CASE("Fire is spoken of before anything else", "[job]") {
  Part part;
  part.behind = {Behind::Paint, Behind::Fuel};
  const auto list = hazards({coated(1, {"unknown"})}, metalOf("mild-steel"), part);
  CHECK(list.front().harm == Harm::Fire);
  CHECK(list.front().text.starts_with("Fuel behind the face"));
  CHECK(std::ranges::is_sorted(list, {}, &Hazard::harm));
  CHECK(hazards({}, metalOf("magnesium-alloy"), {}).front().harm == Harm::Fire);
}

TEST_CASE("Fuel, a closed cavity, asbestos and PCB stop the work, and come first", "[job]") {
  Project project = oneLayer("clear-lacquer");
  CHECK(openStops(precautionsOf(project)).empty());
  project.part.behind = {Behind::Fuel, Behind::ClosedCavity};
  project.coat[0].components = {{"asbestos", Presence::Yes}, {"pcb", Presence::Yes}, {"lead", Presence::Unknown}};
  const auto all = precautionsOf(project);
  const auto stops = openStops(all);
  CHECK(idsOf(stops) == std::vector<std::string>{"fuel-behind", "closed-cavity-behind", "asbestos: top", "pcb: top"});
  CHECK(std::ranges::is_sorted(all, std::greater(), &Precaution::stops));
  for (const Precaution& stop : stops) CHECK_FALSE(stop.todo.empty());
}

TEST_CASE("No remedy is looked for while the work is stopped", "[job]") {
  Project project = oneLayer("clear-lacquer");
  project.part.behind = {Behind::Fuel};
  Assessment shown;
  shown.precautions = precautionsOf(project);
  shown.verdict = {{"removal", "Comes off?", Status::Fails, "", ""}};
  CHECK(findRemedies(project, shown, shippedLibrary(), {}).empty());
}

TEST_CASE("A stop is settled by a name, only for what it was given for", "[job]") {
  Project project = oneLayer("clear-lacquer");
  project.part.behind = {Behind::Fuel};
  project.beforeBeam = {{"fuel-behind", "mk", "2026-03-13", "tank taken out", {}}};
  auto all = precautionsOf(project);
  CHECK(openStops(all).empty());
  REQUIRE(all.front().cleared);
  CHECK(all.front().cleared->note == "tank taken out");
  project.part.behind.push_back(Behind::ClosedCavity);
  CHECK(openStops(precautionsOf(project)).size() == 1);
}

TEST_CASE("A test of the coat is open until somebody says what it showed", "[job]") {
  Project project = oneLayer("clear-lacquer");
  project.coat[0].components = {{"lead", Presence::Unknown}};
  REQUIRE(has(precautionsOf(project), "test-lead: top"));
  const Library& shipped = shippedLibrary();
  Project tested = project;
  tested.beforeBeam = {{"test-lead: top", "mk", "2026-03-13", "none found", {}}};
  tested.coat = withTested(tested.coat, "lead", Presence::No, tested.library, shipped);
  const auto all = precautionsOf(tested);
  CHECK(has(all, "test-lead: top"));  // and can still be read
  CHECK(openCount(all) + 1 == openCount(precautionsOf(project)));
  CHECK(tested.coat[0].components.at("lead") == Presence::No);
  CHECK(withTested(tested.coat, "lead", Presence::Yes, {}, shipped) == tested.coat);       // what is known stays
  CHECK(withTested(project.coat, "cadmium", Presence::Yes, {}, shipped) == project.coat);  // nobody asked
  // Another layer asks anew.
  tested.coat.push_back(project.coat[0]);
  tested.coat[1].name = "primer";
  CHECK(has(precautionsOf(tested), "test-lead: primer"));
  // Opened again it is as before.
  tested.coat = withoutTest({tested.coat[0]}, "lead");
  CHECK(tested.coat[0].components.empty());
}

TEST_CASE("Asbestos that a test finds stops the work", "[job]") {
  Project project = oneLayer("bitumen");
  REQUIRE(has(precautionsOf(project), "test-asbestos"));
  project.coat = withTested(project.coat, "asbestos", Presence::Yes, {}, shippedLibrary());
  CHECK(idsOf(openStops(precautionsOf(project))) == std::vector<std::string>{"asbestos: top"});
}

TEST_CASE("Extraction, eyewear and fire watch are always asked for, with another beam anew", "[job]") {
  Project project = oneLayer("clear-lacquer");
  CHECK_FALSE(has(precautionsOf(project), "extraction"));
  project.plans[0].extraction.reset();
  CHECK(has(precautionsOf(project), "extraction"));
  const auto before = precautionsOf(project);
  const auto eyewear = std::ranges::find_if(before, [](const Precaution& one) { return one.id.starts_with("eyewear"); });
  REQUIRE(eyewear != before.end());
  CHECK(eyewear->what.find("1064 nm") != std::string::npos);
  CHECK(eyewear->what.find("everyone in the room") != std::string::npos);
  project.beforeBeam = {{eyewear->id, "mk", "2026-03-13", "", {}}};
  CHECK(openCount(precautionsOf(project)) + 1 == openCount(before));
  project.machines[0].ratedPower_W = 3000;
  CHECK(openCount(precautionsOf(project)) == openCount(before));
  CHECK(has(before, "fire-watch"));
  project.part.behind = {Behind::Wood};
  CHECK(has(precautionsOf(project), "fire-watch: wood"));
}

TEST_CASE("Nobody having looked behind the metal is asked for", "[job]") {
  Project project = oneLayer("clear-lacquer");
  CHECK_FALSE(has(precautionsOf(project), "behind-unknown"));
  for (const std::vector<Behind>& said : {std::vector<Behind>{}, {Behind::Unknown}}) {
    project.part.behind = said;
    CHECK(has(precautionsOf(project), "behind-unknown"));
  }
}
