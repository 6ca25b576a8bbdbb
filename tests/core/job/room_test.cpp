// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/room.h"

#include "core/files/library_file.h"
#include "tests/support/catch.h"

using namespace bw;

namespace {

std::vector<LayerMaterial> coatOf(const std::map<std::string, Presence>& components) {
  LayerMaterial layer;
  layer.components = components;
  return {layer};
}

Metal steel() {
  Part part;
  part.substrate = "mild-steel";
  return resolveMetal(part, {}, shippedLibrary());
}

Plan planWith(const std::optional<Extraction>& extraction) {
  Plan plan;
  plan.extraction = extraction;
  return plan;
}

bool anySays(const std::vector<RoomFinding>& findings, const std::string& words) {
  return std::ranges::any_of(findings, [&](const RoomFinding& finding) { return finding.message.find(words) != std::string::npos; });
}

Status worst(const std::vector<RoomFinding>& findings) {
  Status status = Status::Meets;
  for (const RoomFinding& finding : findings) status = worseOf(status, finding.status);
  return status;
}

}  // namespace

TEST_CASE("Dew point: 9.3 degrees at 20 degrees and half humidity, the air's own at full, nothing for dry air", "[job][room]") {
  // 9.3 is what psychrometric tables give (from memory), rounded to a tenth.
  CHECK(dewPoint_C(20, 0.5).value() == Catch::Approx(9.3).margin(0.06));
  for (const double air_C : {-10.0, 0.0, 25.0}) CHECK(dewPoint_C(air_C, 1).value() == Catch::Approx(air_C).margin(1e-9));
  CHECK_FALSE(dewPoint_C(20, 0));
  CHECK_FALSE(dewPoint_C(20, 1.01));
  CHECK_FALSE(dewPoint_C(80, 0.5));
}

TEST_CASE("Planned extraction is told with its flow, and never called enough", "[job][room]") {
  CHECK(extractionFindings(planWith({}), {}, steel()).empty());  // the check itself asks for it
  CHECK(extractionFindings(planWith(Extraction{}), {}, steel()).empty());
  const auto on = extractionFindings(planWith(Extraction{true, {}, {}, {}}), {}, steel());
  CHECK(anySays(on, "its flow is not known"));
  CHECK(worst(on) == Status::Near);
  CHECK(anySays(extractionFindings(planWith(Extraction{true, 900.0 / 3600, {}, {}}), {}, steel()), "900 m³/h"));
}

TEST_CASE("Filters that were named are held against what the coat and the metal give off", "[job][room]") {
  const Plan dustOnly = planWith(Extraction{true, {}, {Filter::FineDust, Filter::SparkTrap}, {}});
  CHECK(worst(extractionFindings(dustOnly, coatOf({{"pvc", Presence::Yes}}), steel())) == Status::Fails);
  CHECK(anySays(extractionFindings(dustOnly, coatOf({{"pvc", Presence::Unknown}}), steel()), "may give off gases"));
  CHECK_FALSE(anySays(extractionFindings(dustOnly, coatOf({{"pvc", Presence::No}, {"lead", Presence::Yes}}), steel()), "gas"));
  const Plan gasOnly = planWith(Extraction{true, {}, {Filter::Gas}, {}});
  CHECK(anySays(extractionFindings(gasOnly, {}, steel()), "fine-dust"));
  CHECK(anySays(extractionFindings(gasOnly, {}, steel()), "spark trap"));
  CHECK_FALSE(anySays(extractionFindings(planWith(Extraction{true, {}, {}, {}}), coatOf({{"pvc", Presence::Yes}}), steel()), "gas"));
}

TEST_CASE("Eyewear for fewer than are in the room, or too weak for the beam, fails; enough of both says nothing", "[job][room]") {
  EyesResult eyes;
  eyes.opticalDensity = 6;
  Site site;
  CHECK(peopleFindings(site, eyes).empty());
  site.people = 3;
  site.eyewear = 2;
  CHECK(anySays(peopleFindings(site, eyes), "3 people in the room, eyewear for 2"));
  CHECK(worst(peopleFindings(site, eyes)) == Status::Fails);
  site.eyewear = 3;
  site.eyewearDensity = 5;
  CHECK(anySays(peopleFindings(site, eyes), "calls for 6 or more"));
  site.eyewearDensity = 6;
  CHECK(peopleFindings(site, eyes).empty());
  site.masks = 1;
  CHECK(worst(peopleFindings(site, eyes)) == Status::Near);
}
