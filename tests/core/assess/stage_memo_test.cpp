// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/stage_memo.h"

#include "core/files/assessment_file.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

#include <functional>

using namespace bw;
using namespace bw::test;

namespace {

struct Edit {
  const char* name;
  std::function<void(Project&)> apply;
};

/// The ten that a person makes most, and some that touch one stage alone.
std::vector<Edit> edits() {
  const auto setting = [](auto apply) { return [apply](Project& p) { apply(p.plans[0].settings); }; };
  return {{"power", setting([](Settings& s) { s.powerFraction *= 0.9; })},
          {"rate", setting([](Settings& s) { s.repetitionRate_Hz *= 1.1; })},
          {"spacing", setting([](Settings& s) { s.lineSpacing_m *= 1.1; })},
          {"frame", setting([](Settings& s) { s.width_m *= 0.9; })},
          {"travel", setting([](Settings& s) { s.travelSpeed_m_s *= 1.1; })},
          {"step-over", setting([](Settings& s) { s.stepOver_m *= 0.9; })},
          {"passes", setting([](Settings& s) { s.passes += 1; })},
          {"pause", setting([](Settings& s) { s.pause_s += 20; })},
          {"thickness", [](Project& p) { p.coat[0].thickness_m = p.coat[0].thickness_m * 1.2; }},
          {"kind", [](Project& p) { p.coat[0].coating = p.coat.back().coating; }},
          {"metal", [](Project& p) { p.part.thickness_m = p.part.thickness_m * 1.5; }},
          {"limit", [](Project& p) { p.part.limits["back_face_C"] = 90; }},
          {"boiling",
           [](Project& p) {
             p.library.substrates.push_back(*findSubstrate(shippedLibrary(), p.part.substrate));
             p.library.substrates.back().boiling_C.range = Range::exact(1700);
           }},
          {"start", [](Project& p) { p.part.startTemperature_C += 5; }},
          {"hand",
           [](Project& p) {
             p.plans[0].hand = Hand{HandState::Tired, {}, {}, {}};
           }},
          {"areas",
           [](Project& p) {
             Area& flange = p.part.areas.emplace_back();
             flange.name = "flange";
             flange.area_m2 = 1e-3;
             flange.tilt_rad = 0.5;
           }},
          {"machine", [](Project& p) { p.machines[0].spotDiameter_m *= 1.2; }}};
}

}  // namespace

TEST_CASE("What is remembered changes no answer, whatever was edited before", "[assess]") {
  StageMemo memo;
  Project project = sampleProject();
  for (const Edit& edit : edits()) {
    Project changed = project;
    edit.apply(changed);
    CAPTURE(edit.name);
    const std::string fresh = writeAssessment(assess(changed, {}, shippedLibrary()));
    assess(project, {}, shippedLibrary(), {}, {}, {&memo});
    CHECK(writeAssessment(assess(changed, {}, shippedLibrary(), {}, {}, {&memo})) == fresh);
    project = changed;
  }
}

TEST_CASE("An edit makes anew only what depends on it", "[assess]") {
  StageMemo memo;
  const Project project = sampleProject();
  const auto at = [&](const Project& p) { return assess(p, {}, shippedLibrary(), {}, {}, {&memo}); };
  const Assessment before = at(project);
  const auto after = [&](const char* name) {
    Project changed = project;
    for (const Edit& edit : edits())
      if (std::string(edit.name) == name) edit.apply(changed);
    return at(changed);
  };
  const Assessment passes = after("passes"), thickness = after("thickness"), limit = after("limit"), power = after("power");
  CHECK(passes.map == before.map);
  CHECK(passes.physics->scan == before.physics->scan);
  CHECK(passes.physics->bare != before.physics->bare);
  CHECK(thickness.map == before.map);
  CHECK(thickness.physics->bare == before.physics->bare);
  CHECK(thickness.places != before.places);
  CHECK(limit.places == before.places);
  CHECK(limit.physics->bare == before.physics->bare);
  CHECK(power.map != before.map);
  CHECK(power.physics->bare != before.physics->bare);
}

TEST_CASE("A copy of what is remembered begins with it and then goes its own way", "[assess]") {
  StageMemo memo;
  const Project project = sampleProject();
  const Assessment first = assess(project, {}, shippedLibrary(), {}, {}, {&memo});
  StageMemo copy(memo);
  CHECK(assess(project, {}, shippedLibrary(), {}, {}, {&copy}).map == first.map);
  Project other = project;
  for (int i = 0; i < 20; ++i) {  // more than any stage keeps
    other.plans[0].settings.travelSpeed_m_s *= 1.01;
    assess(other, {}, shippedLibrary(), {}, {}, {&copy});
  }
  CHECK(assess(project, {}, shippedLibrary(), {}, {}, {&memo}).map == first.map);
  CHECK(assess(project, {}, shippedLibrary(), {}, {}, {&copy}).map != first.map);
}
