// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/verdict_rows.h"
#include "tests/core/assess/easy_project.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;

TEST_CASE("Too few passes fail, enough meet, and the row says how many", "[assess]") {
  Project project = easyProject();
  project.coat[0].thickness_m = Range::exact(200e-6);
  const Assessment many = assessed(project);
  REQUIRE(many.removal.passesNeeded);
  const int needed = *many.removal.passesNeeded;
  REQUIRE(needed >= 2);
  for (const int passes : {needed - 1, needed, needed + 1}) {
    settingsOf(project).passes = passes;
    const Assessment a = assessed(project);
    CHECK(a.removal.passesNeeded == needed);
    CHECK(rowOf(a, "removal").status == (passes < needed ? Status::Fails : Status::Meets));
    CHECK((*a.removal.clearedFraction >= 0.99) == (passes >= needed));
  }
}

TEST_CASE("On bare metal there is nothing to take off", "[assess]") {
  Project project = smallProject();
  project.coat.clear();
  const Assessment a = assessed(project);
  CHECK(a.removal.passesNeeded == 0);
  CHECK(a.removal.layers.empty());
  CHECK(a.removal.clearedFraction.value_or(0) == Catch::Approx(1));
  CHECK(rowOf(a, "removal").status == Status::Meets);
  CHECK_FALSE(a.thermal.frontStripping_C);
  CHECK(a.thermal.frontBare_C);
}

TEST_CASE("A layer that should stay and goes fails the removal", "[assess]") {
  Project project = easyProject();
  project.coat[0].keep = true;
  const VerdictRow row = rowOf(assessed(project), "removal");
  CHECK(row.status == Status::Fails);
  CHECK(row.message.find("should stay") != std::string::npos);
}

TEST_CASE("Temperatures are judged by the tightest limit", "[assess]") {
  Project project = smallProject();
  struct Row {
    double limit_C;
    Status status;
  };
  project.part.finish = Finish::Any;
  const double back_C = *assessed(project).thermal.back_C;
  REQUIRE(back_C > 21);
  const double rise = back_C - 20;
  for (const Row& row : {Row{20 + 0.9 * rise, Status::Fails}, Row{20 + 1.1 * rise, Status::Near}}) {
    project.part.limits = {{"back_face_C", row.limit_C}};
    const Assessment a = assessed(project);
    CHECK(rowOf(a, "temperature").status == row.status);
    CHECK(rowOf(a, "temperature").message.find("back face") != std::string::npos);
  }
  project.part.limits = {{"back_face_C", 15}};  // below the start
  const Assessment below = assessed(project);
  CHECK(rowOf(below, "temperature").status != Status::Meets);
  CHECK_FALSE(below.thermal.limits.front().margin);
}

TEST_CASE("Finish: untouched metal must not melt, any finish will do", "[assess]") {
  Project project = smallProject();
  settingsOf(project).repetitionRate_Hz = 100e3;
  project.part.finish = Finish::Any;
  CHECK(rowOf(assessed(project), "finish").status == Status::Meets);
  project.part.finish = Finish::Untouched;
  const Assessment a = assessed(project);
  REQUIRE(a.finish.melts == true);
  CHECK(rowOf(a, "finish").status == Status::Fails);
  settingsOf(project).powerFraction = 0.01;
  const Assessment faint = assessed(project);
  CHECK(faint.finish.melts == false);
  CHECK(rowOf(faint, "finish").status == Status::Meets);
}

TEST_CASE("States have one order: fails, near limit, not known, meets", "[assess]") {
  const Status order[] = {Status::Fails, Status::Near, Status::NotKnown, Status::Meets};
  for (std::size_t i = 0; i + 1 < std::size(order); ++i) {
    CHECK(severity(order[i]) > severity(order[i + 1]));
    CHECK(worseOf(order[i], order[i + 1]) == order[i]);
    CHECK(worseOf(order[i + 1], order[i]) == order[i]);
    CHECK(worstOf({{"a", "", order[i + 1], "", ""}, {"b", "", order[i], "", ""}}) == order[i]);
  }
}

TEST_CASE("A hand that stands still fails, with the seconds to each limit", "[assess]") {
  Project project = smallProject();
  project.part.limits = {{"back_face_C", 150}};
  settingsOf(project).travelSpeed_m_s = 0;
  const Assessment a = assessed(project);
  CHECK(rowOf(a, "temperature").status == Status::Fails);
  CHECK(rowOf(a, "removal").status == Status::Fails);
  CHECK_FALSE(rowOf(a, "temperature").remedy.empty());
  const std::string message = rowOf(a, "temperature").message;
  CAPTURE(message);
  REQUIRE_FALSE(a.thermal.limits.empty());
  for (const LimitResult& limit : a.thermal.limits) {
    CAPTURE(limit.name, limit.predicted_C);
    CHECK(limit.stillHand_s.has_value() == (limit.predicted_C >= limit.limit_C));
    if (limit.warnOnly) continue;
    CHECK((message.find(limit.name) != std::string::npos) == limit.stillHand_s.has_value());
  }
  const LimitResult& back = a.thermal.limits.front();
  REQUIRE(back.name == "back face");
  REQUIRE(back.stillHand_s);
  CHECK(*back.stillHand_s > 0);
  CHECK(a.answer.find("stands still") != std::string::npos);

  settingsOf(project).powerFraction /= 2;
  CHECK(*assessed(project).thermal.limits.front().stillHand_s > *back.stillHand_s);
  settingsOf(project).powerFraction = 1e-5;  // too weak for any limit: still nothing to praise
  CHECK(rowOf(assessed(project), "temperature").status == Status::Near);
}

TEST_CASE("Air and eyes are known once the layers are tested, and never meet", "[assess]") {
  Project project = sampleProject();
  CHECK(rowOf(assessed(project), "safety").status == Status::NotKnown);
  for (Layer& layer : project.coat) {
    for (const char* component : componentKeys) layer.components[component] = Presence::No;
  }
  const VerdictRow row = rowOf(assessed(project), "safety");
  CHECK(row.status == Status::Near);
  CHECK(row.message.find("Test before") == std::string::npos);
  project.coat[0].components["lead"] = Presence::Yes;
  CHECK(rowOf(assessed(project), "safety").status == Status::Near);
}

TEST_CASE("Planned extraction is no longer asked for, and eyewear that is missing fails whatever the coat holds", "[assess]") {
  Project project = sampleProject();
  CHECK(rowOf(assessed(project), "safety").remedy == "Plan extraction.");
  for (Plan& plan : project.plans) plan.extraction = Extraction{true, 0.25, {}, {}};
  const VerdictRow row = rowOf(assessed(project), "safety");
  CHECK(row.message.find("No extraction") == std::string::npos);
  CHECK(row.message.find("900 m³/h") != std::string::npos);
  CHECK(row.remedy != "Plan extraction.");
  project.site = Site{};
  project.site->people = 2;
  project.site->eyewear = 1;
  CHECK(rowOf(assessed(project), "safety").status == Status::Fails);
}

TEST_CASE("Evenness tells the worst first, and leaves out what comes to nothing", "[assess]") {
  Assessment told;
  told.dose.emplace();
  told.dose->mean_J_m2 = 1e5;
  told.dose->missedFraction = 9e-7;
  CHECK(evennessRow(told).message == "Even across the swaths and along the travel.");
  CHECK(evennessRow(told).status == Status::Meets);
  told.dose->rippleAlong = 0.12;
  told.dose->edgeRatio = 1.001;
  CHECK(evennessRow(told).message == "Even across the swaths, ripple along the travel 12 % (even below 15 %).");
  told.dose->missedFraction = 0.08;
  CHECK(evennessRow(told).message.find("8.0 % of the surface gets less than half the mean.") == 0);
  CHECK(evennessRow(told).status == Status::Fails);
  told.dose->ripple = 0.5;
  CHECK(evennessRow(told).message.find("Ripple across the swaths 50 %, along the travel 12 %") == 0);
}
