// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/entry_fields.h"

#include "core/files/library_file.h"
#include "core/library/differences.h"
#include "core/start/typical_machines.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace bw;
using Shape = EntryField::Shape;

namespace {

const EntryField& fieldAt(const std::vector<EntryField>& fields, const std::string& key) {
  const auto found = std::ranges::find(fields, key, &EntryField::key);
  INFO(key);
  REQUIRE(found != fields.end());
  return *found;
}

MachineCard card() {
  MachineCard card;
  card.machine = machineLike(MachineKind::Pulsed, 300, 120e-6);
  card.machine.optics.emplace_back().id = "long";
  card.checks.emplace_back().date = "2026-03-01";
  card.pieces.emplace_back().what = "tip";
  return card;
}

}  // namespace

TEST_CASE("Every shipped entry can be entered again field by field and stays what it was", "[library]") {
  for (Coating coating : shippedLibrary().coatings) {
    const Coating before = coating;
    for (const EntryField& field : fieldsOf(coating)) {
      INFO(coating.id << " " << field.key);
      CHECK(field.set(field.get()).empty());
    }
    CHECK(differences(before, coating).empty());
  }
  for (Substrate substrate : shippedLibrary().substrates) {
    const Substrate before = substrate;
    for (const EntryField& field : fieldsOf(substrate)) {
      INFO(substrate.id << " " << field.key);
      CHECK(field.set(field.get()).empty());
    }
    CHECK(differences(before, substrate).empty());
  }
  for (const Machine& machine : typicalMachines()) {
    MachineCard owned;
    owned.machine = machine;
    for (const EntryField& field : fieldsOf(owned)) {
      INFO(machine.id << " " << field.key);
      CHECK(field.set(field.get()).empty());
    }
    CHECK(differences(owned.machine, machine).empty());
  }
}

TEST_CASE("A range is entered in its own unit with source and mark", "[library]") {
  Coating coating = shippedLibrary().coatings.front();
  const auto fields = fieldsOf(coating);
  const EntryField& depth = fieldAt(fields, "optical_depth_um");
  CHECK(depth.shape == Shape::Range);
  CHECK(depth.unit == "µm");
  CHECK(depth.set({{10, 20, 30}, "measured on the door", false}).empty());
  CHECK(coating.opticalDepth_m.range == Range{10e-6, 20e-6, 30e-6});
  CHECK(coating.opticalDepth_m.source == "measured on the door");
  CHECK_FALSE(coating.opticalDepth_m.estimate);
}

TEST_CASE("What is not accepted is said and changes nothing", "[library]") {
  Coating coating = shippedLibrary().coatings.front();
  const Coating before = coating;
  const auto fields = fieldsOf(coating);
  const EntryField& absorptance = fieldAt(fields, "absorptance");
  for (const FieldValue& bad :
       {FieldValue{{0.1, 0.2, 1.5}, "s", false}, FieldValue{{0.3, 0.2, 0.4}, "s", false}, FieldValue{{0.1, 0.2}, "s", false},
        FieldValue{{}, "s", false}, FieldValue{{0.1, 0.2, std::nan("")}, "s", false}, FieldValue{{0.1, 0.2, 0.3}, "", false}}) {
    CHECK_THAT(absorptance.set(bad), Catch::Matchers::EndsWith("."));
  }
  CHECK_FALSE(fieldAt(fields, "behaviour").set({{}, "sings", false}).empty());
  CHECK_FALSE(fieldAt(fields, "name").set({}).empty());
  CHECK(coating == before);
}

TEST_CASE("An optional range comes with a source that says it has none, and goes when it is cleared", "[library]") {
  Coating coating = shippedLibrary().coatings.front();
  coating.residueShare.reset();
  const auto fields = fieldsOf(coating);
  const EntryField& residue = fieldAt(fields, "residue_share");
  CHECK(residue.optional);
  CHECK(residue.get() == FieldValue{});
  CHECK(residue.set({{0.1, 0.1, 0.1}, "", false}).empty());
  REQUIRE(coating.residueShare);
  CHECK(coating.residueShare->estimate);
  CHECK_FALSE(coating.residueShare->source.empty());
  CHECK(residue.set({}).empty());
  CHECK_FALSE(coating.residueShare);
}

TEST_CASE("Hazards are told one by one, and what was not looked into stays out", "[library]") {
  Coating coating = shippedLibrary().coatings.front();
  coating.components.clear();
  const auto fields = fieldsOf(coating);
  CHECK(fieldAt(fields, "components.lead").get().text.empty());
  CHECK(fieldAt(fields, "components.lead").set({{}, "yes", false}).empty());
  CHECK(coating.components == std::map<std::string, Presence>{{"lead", Presence::Yes}});
  CHECK(fieldAt(fields, "components.lead").set({}).empty());
  CHECK(coating.components.empty());
}

TEST_CASE("A machine card has its optics, pieces and checks, and no field for what tells it apart", "[library]") {
  MachineCard owned = card();
  const auto fields = fieldsOf(owned);
  CHECK(std::ranges::none_of(fields, [](const EntryField& field) { return field.key == "machine.id"; }));
  CHECK(fieldAt(fields, "machine.optics.1.stand_off_mm").set({{150}, "", false}).empty());
  CHECK(*owned.machine.optics[0].standOff_m == Catch::Approx(0.15));
  CHECK(fieldAt(fields, "machine.pulse_durations_ns").set({{30, 60}, "", false}).empty());
  CHECK(owned.machine.pulseDurations_s.size() == 2);
  CHECK(fieldAt(fields, "machine.repetition_rate_kHz").set({{200, 100}, "", false}) == "The lowest comes first.");
  CHECK(fieldAt(fields, "machine.scan.axes").set({{1.5}, "", false}).find("whole") != std::string::npos);
  CHECK(fieldAt(fields, "cover_glass_h").set({{41}, "", false}).empty());
  CHECK(*owned.coverGlass_s == Catch::Approx(41 * 3600));
  CHECK(fieldAt(fields, "machine.delivered_power_W").set({}).empty());
  CHECK_FALSE(owned.machine.deliveredPower_W);
  CHECK(fieldAt(fields, "pieces.1.what").set({}).find("has to stand") != std::string::npos);
}
