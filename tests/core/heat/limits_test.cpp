// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/limits.h"

#include "tests/support/catch.h"

#include <algorithm>

using namespace bw;

namespace {

const HeatPeaks peaks{300, 200, 120, 230, 900, 250, 190};

Metal steel() {
  Metal metal;
  metal.melting_C = Property{Range::exact(1520), "a handbook", false};
  metal.tint_C = Property{Range::exact(210), "a chart", false};
  metal.hardening_C = Property{Range::exact(700), "a book", false};
  return metal;
}

const LimitResult* find(const std::vector<LimitResult>& limits, const std::string& part) {
  const auto found = std::ranges::find_if(limits, [&](const LimitResult& l) { return l.name.find(part) != std::string::npos; });
  return found == limits.end() ? nullptr : &*found;
}

const LimitResult& named(const std::vector<LimitResult>& limits, const std::string& part) {
  const LimitResult* limit = find(limits, part);
  INFO(part);
  REQUIRE(limit);
  return *limit;
}

/// A coat of one layer of zinc that must stay.
std::vector<LayerMaterial> keptZinc() {
  LayerMaterial zinc;
  zinc.name = "galvanising";
  zinc.coating = "the shop's own";
  zinc.keep = true;
  zinc.melts_C = Property{Range::exact(419.6), "NASA TM-4513 (1993)", false};
  return {zinc};
}

std::vector<LimitResult> limitsWith(const Part& part, const std::vector<LayerMaterial>& coat = {}) {
  return limitsOf(part, steel(), coat, peaks);
}

}  // namespace

TEST_CASE("A margin is the share of the way from the start to the limit that is left", "[heat]") {
  Part part;
  part.limits = {{"back_face_C", 150}, {"front_face_C", 260}};
  const auto limits = limitsWith(part);
  CHECK(*named(limits, "back face").margin == Catch::Approx((150.0 - 120) / (150 - 20)));
  CHECK(*named(limits, "front face").margin == Catch::Approx((260.0 - 200) / (260 - 20)));
  CHECK(*named(limits, "tint").margin == Catch::Approx((210.0 - 230) / (210 - 20)));
  CHECK(*named(limits, "hardening").margin == Catch::Approx((700.0 - 300) / (700 - 20)));
  for (const LimitResult& limit : limits) CHECK_FALSE(limit.source.empty());
}

TEST_CASE("A limit not above the start has no margin", "[heat]") {
  Part part;
  part.startTemperature_C = 60;
  for (const double limit : {40.0, 60.0}) {
    part.limits = {{"back_face_C", limit}};
    CHECK_FALSE(named(limitsWith(part), "back face").margin);
  }
  part.limits = {{"back_face_C", 61}};
  CHECK(named(limitsWith(part), "back face").margin);
}

TEST_CASE("What lies behind binds unless the project sets a back limit of its own", "[heat]") {
  for (const Behind behind : {Behind::Wax, Behind::Foam, Behind::Fuel, Behind::Unknown}) {
    Part part;
    part.behind = {behind};
    CHECK_FALSE(named(limitsWith(part), " behind").warnOnly);
    part.limits = {{"back_face_C", 150}};
    const auto limits = limitsWith(part);
    const bool grave = behind == Behind::Fuel || behind == Behind::ClosedCavity || behind == Behind::Unknown;
    CHECK(named(limits, " behind").warnOnly == !grave);
    CHECK_FALSE(named(limits, "back face").warnOnly);
  }
  Part part;
  part.behind = {Behind::Nothing};
  CHECK_FALSE(find(limitsWith(part), " behind"));
}

TEST_CASE("Unknown behind is held to the careful limit", "[heat]") {
  Part part;
  part.behind = {Behind::Unknown};
  CHECK(named(limitsWith(part), "unknown behind").limit_C == 60);
}

TEST_CASE("Zinc that is kept, or comes with the substrate, must not melt", "[heat]") {
  CHECK_FALSE(find(limitsWith({}), "kept layer"));
  CHECK(named(limitsWith({}, keptZinc()), "kept layer \"galvanising\" melts").limit_C == Catch::Approx(419.6));
  CHECK(named(limitsWith({}, keptZinc()), "kept layer").predicted_C == peaks.near_C);
  std::vector<LayerMaterial> leaves = keptZinc();
  leaves.front().keep = false;
  CHECK_FALSE(find(limitsWith({}, leaves), "kept layer"));
  Metal galvanised = steel();
  galvanised.platingMelts_C = Property{Range::exact(419.6), "NASA TM-4513", false};
  const auto limits = limitsOf({}, galvanised, keptZinc(), peaks);
  CHECK(find(limits, "plating"));
  CHECK_FALSE(find(limits, "kept layer"));
}

TEST_CASE("Tint warns only where any finish will do", "[heat]") {
  Part part;
  CHECK_FALSE(named(limitsWith(part), "tint").warnOnly);
  part.finish = Finish::Any;
  CHECK(named(limitsWith(part), "tint").warnOnly);
}

TEST_CASE("What boils out of an alloy is a limit of any metal that states it", "[heat]") {
  CHECK_FALSE(find(limitsWith({}), "boils out"));
  Metal own = steel();
  own.id = "the shop's gunmetal";
  own.partBoils_C = Property{Range{880, 907, 930}, "a handbook", false};
  const auto limits = limitsOf({}, own, {}, peaks);
  CHECK(named(limits, "boils out").limit_C == 907);
  CHECK(named(limits, "boils out").predicted_C == peaks.near_C);
}

TEST_CASE("An own limit holds on the face it names, whatever it is called", "[heat]") {
  Part part;
  part.limits = {{"fronton_seal_C", 150}, {"soldered_seam_C", 183}, {"unsaid_C", 90}};
  part.limitFaces = {{"fronton_seal_C", Face::Back}, {"soldered_seam_C", Face::Front}};
  const auto limits = limitsWith(part);
  CHECK(named(limits, "fronton seal").predicted_C == peaks.back_C);
  CHECK(named(limits, "fronton seal").where == "back");
  CHECK(named(limits, "soldered seam").predicted_C == peaks.front_C);
  CHECK(named(limits, "soldered seam").where == "front");
  CHECK(named(limits, "unsaid").where == "back");
  CHECK(named(limits, "unsaid").source.find("without a face") != std::string::npos);
}

TEST_CASE("A limit that only the upper end of its range reaches is near, and told before one with less margin", "[heat]") {
  LimitResult paint{"paint", "back", 94, 150, (150.0 - 94) / 130, "", false};
  CHECK(statusOf(paint) == Status::Meets);
  paint.predictedRange_C = Spread{80, 95, 149};
  CHECK(statusOf(paint) == Status::Meets);
  paint.predictedRange_C = Spread{80, 95, 154};
  CHECK(statusOf(paint) == Status::Near);
  const LimitResult wood{"wood", "back", 110, 150, (150.0 - 110) / 130, "", false};
  REQUIRE(statusOf(wood) == Status::Meets);
  CHECK(tellingLimit({wood, paint})->name == "paint");
  CHECK(tellingLimit({paint, {"wax", "back", 61, 60, -0.1, "", false}})->name == "wax");
  CHECK(statusOf({"below the room", "back", 20, 5, std::nullopt, "", false}) == Status::NotKnown);
}

TEST_CASE("The worst margin leaves out warnings and limits without one", "[heat]") {
  const LimitResult tight{"a", "back", 0, 0, 0.1, "", false}, tighter{"b", "back", 0, 0, 0.05, "", true}, wide{"c", "front", 0, 0, 0.7, "", false};
  const LimitResult without{"d", "back", 0, 0, std::nullopt, "", false};
  CHECK(*worstMargin({wide, tight, tighter, without}) == 0.1);
  CHECK(*worstMargin({wide}) == 0.7);
  CHECK_FALSE(worstMargin({tighter, without}));
  CHECK_FALSE(worstMargin({}));
}

TEST_CASE("Melting is judged by the finish: within a pulse only where the metal must stay untouched", "[heat]") {
  Part part;
  part.finish = Finish::Untouched;
  CHECK_FALSE(named(limitsWith(part), "within a pulse").warnOnly);
  CHECK(named(limitsWith(part), "within a pulse").predicted_C == peaks.flash_C);
  part.finish = Finish::LightEtch;
  CHECK(named(limitsWith(part), "within a pulse").warnOnly);
  CHECK_FALSE(named(limitsWith(part), "for 10 ms").warnOnly);
  CHECK(named(limitsWith(part), "for 10 ms").predicted_C == peaks.front_C);
}

TEST_CASE("Tint under the beam only warns where the beam melts the metal", "[heat]") {
  Part part;
  part.finish = Finish::LightEtch;
  CHECK_FALSE(named(limitsWith(part), "under the beam").warnOnly);  // 900 degrees within a pulse
  HeatPeaks melting = peaks;
  melting.flash_C = 3000;
  const auto limits = limitsOf(part, steel(), {}, melting);
  CHECK(named(limits, "under the beam").warnOnly);
  CHECK(named(limits, "under the beam").source.find("not modelled") != std::string::npos);
}

TEST_CASE("Paint behind softens by its temperature and scorches by its time at temperature", "[heat]") {
  Part part;
  part.behind = {Behind::Paint};
  CHECK(named(limitsWith(part), "softens").predicted_C == peaks.back_C);
  CHECK(named(limitsWith(part), "scorches").predicted_C == peaks.scorchEquivalent_C);
  CHECK(named(limitsWith(part), "scorches").limitUpTo_C == 230);
  for (const Behind behind : {Behind::Sealer, Behind::Rubber, Behind::Solder, Behind::Adhesive, Behind::Wax}) {
    part.behind = {behind};
    const LimitResult limit = named(limitsWith(part), "behind");
    CHECK(limit.limitUpTo_C >= limit.limit_C);
    CHECK(limit.where == "back");
  }
}

TEST_CASE("Each limit that is passed has its moment, and a hand that stops its seconds", "[heat]") {
  Part part;
  part.limits = {{"back_face_C", 100}, {"front_C", 190}, {"seam_C", 500}};
  std::vector<LimitResult> limits = limitsWith(part);
  ThermalResult thermal;  // each face by the curve of its own place
  thermal.flashRise_K = 600;
  thermal.trace.time_s = {1, 2, 3, 4};
  thermal.trace.front_C = {20, 120, 220, 150};
  thermal.trace.back_C = {20, 70, 90, 90};
  thermal.trace.near_C = {20, 300, 300, 150};
  thermal.backTrace.time_s = {1, 2, 3, 4};
  thermal.backTrace.front_C = {20, 100, 150, 130};
  thermal.backTrace.back_C = {20, 80, 120, 110};
  addMoments(limits, thermal);
  CHECK(*named(limits, "back face").reached_s == Catch::Approx(2.5));
  CHECK(*named(limits, "front face").reached_s == Catch::Approx(2.7));
  CHECK_FALSE(named(limits, "seam").reached_s);
  CHECK_FALSE(named(limits, "hardening").reached_s);

  addStillHand(limits, {{0, 1, 2}, {90, 190, 290}, {80, 180, 280}, {90, 190, 290}, 1}, 600);
  CHECK(*named(limits, "back face").stillHand_s == Catch::Approx(0.2));  // stopped before the tour itself reached it
  CHECK(*named(limits, "front face").stillHand_s == Catch::Approx(1));
  CHECK_FALSE(named(limits, "seam").stillHand_s);
  const LimitResult& tint = named(limits, "ten-minute");
  CHECK_FALSE(tint.stillHand_s);  // two seconds are too short to colour at 290 degrees
}
