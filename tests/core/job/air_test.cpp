// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/air.h"

#include "tests/core/job/coated.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;

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
