// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <cmath>
#include <random>

using namespace bw;
using namespace bw::test;

namespace {

/// Something a person dials or guesses, moved by a factor.
struct Dial {
  const char* name;
  std::function<void(Project&, Settings&, double)> turn;
  int passes = 0;  // which way more of it moves the number of passes; 0: either
  int heat = 0;    // and the temperatures
};

void scale(Range& range, double by) { range = Range::exact(range.likely * by); }

std::vector<Dial> dials() {
  return {{"travel", [](Project&, Settings& s, double by) { s.travelSpeed_m_s *= by; }, 1, -1},
          {"step-over", [](Project&, Settings& s, double by) { s.stepOver_m *= by; }},
          {"line spacing", [](Project&, Settings& s, double by) { s.lineSpacing_m *= by; }},
          {"repetition rate", [](Project&, Settings& s, double by) { s.repetitionRate_Hz *= by; }},
          {"power", [](Project&, Settings& s, double by) { s.powerFraction = std::min(1.0, s.powerFraction * by); }, -1, 1},
          {"width", [](Project&, Settings& s, double by) { s.width_m *= by; }},
          {"thickness of the metal", [](Project& p, Settings&, double by) { scale(p.part.thickness_m, by); }, 0, -1},
          {"thickness of the coat",
           [](Project& p, Settings&, double by) {
             for (Layer& layer : p.coat) scale(layer.thickness_m, by);
           },
           1, 0}};
}

Settings& settingsIn(Project& project, const std::string& plan) {
  Plan& found = *std::ranges::find(project.plans, plan, &Plan::name);
  return found.steps.empty() ? found.settings : found.steps.front().settings;
}

int passesOf(const Assessment& a) { return a.removal.passesNeeded.value_or(1000); }

/// Beyond a dozen passes never is near; below it a number does not turn into never, nor move by more than one or a fifth.
void checkPasses(int before, int after) {
  const int fewer = std::min(before, after), more = std::max(before, after);
  if (fewer > 12) return;
  CHECK(more < 1000);
  CHECK(more - fewer <= std::max(1.0, std::ceil(0.2 * fewer)));
}

struct Rises {
  double near_K, front_K, back_K;
};
Rises risesOf(const Assessment& a, double start_C) {
  return {a.thermal.near_C.value_or(start_C) - start_C, a.thermal.front_C.value_or(start_C) - start_C,
          a.thermal.back_C.value_or(start_C) - start_C};
}

/// How many steps of a hundredth, from a tenth below on.
void sweep(const Project& project, const std::string& plan, const Dial& dial, int steps) {
  // Where the last swath falls on the part's edge hangs on the step-over some twenty times over, and on the width: a hundredth moves its
  // lines' turns on to that edge or off it, and an edge sends the heat back.
  const bool movesTurns = std::string(dial.name) == "step-over" || std::string(dial.name) == "width";
  constexpr double farOff = 1.3;  // times what the sample is set to: lines that no longer meet have many places alike
  const double start = project.part.startTemperature_C;
  std::optional<Assessment> before, first;
  for (int i = 0; i < steps; ++i) {
    Project turned = project;
    const double by = 0.9 * std::pow(1.01, i);
    dial.turn(turned, settingsIn(turned, plan), by);
    const Assessment now = assess(turned, plan, shippedLibrary());
    if (before) {
      CAPTURE(project.name, plan, dial.name, by);
      checkPasses(passesOf(*before), passesOf(now));
      const double mostHeat = movesTurns ? 0.6 : by > farOff ? 0.12 : 0.06;
      const Rises a = risesOf(*before, start), b = risesOf(now, start);
      CHECK(b.near_K == Catch::Approx(a.near_K).epsilon(mostHeat).margin(2));
      CHECK(b.front_K == Catch::Approx(a.front_K).epsilon(mostHeat).margin(2));
      CHECK(b.back_K == Catch::Approx(a.back_K).epsilon(mostHeat).margin(2));
    }
    if (!first) first = now;
    before = now;
  }
  // Over the whole sweep the way that physics has, whatever small steps do.
  CAPTURE(project.name, plan, dial.name);
  if (dial.passes != 0) CHECK(dial.passes * (passesOf(*before) - passesOf(*first)) >= 0);
  if (dial.heat != 0) CHECK(dial.heat * (risesOf(*before, start).back_K - risesOf(*first, start).back_K) >= 0);
}

Project sampleNamed(const char* name) {
  return openProject(std::string(BAREWRIGHT_SOURCE_DIR) + "/sample-projects/" + name + ".bwright", shippedLibrary());
}

}  // namespace

TEST_CASE("On the samples no headline number leaps when a setting moves by a hundredth", "[assess][samples]") {
  for (const char* name : {"carriage-side-panel", "lamp-iron-bracket", "luggage-rack-bracket", "water-tank-lid", "lamp-bezel"}) {
    if (!thorough() && std::string(name) != "carriage-side-panel" && std::string(name) != "lamp-bezel") continue;
    const Project project = sampleNamed(name);
    for (const Dial& dial : sampled(dials(), 3)) sweep(project, project.plans.front().name, dial, thorough() ? 100 : 3);
  }
}

TEST_CASE("On the first sample the settings that once leapt do not", "[assess][samples]") {
  // Passes of 3, never and 10 within a hundredth of travel; spacings of 9 and never among 4 and 5; a front of 295 and 136 degrees C at
  // step-overs of 29.9 and 30 mm: each pass was laid in step with the one before, and one place was asked for all temperatures.
  const Project project = sampleProject();
  const auto at = [&](double travel_mm_s, double spacing_mm, double stepOver_mm) {
    Project moved = project;
    Settings& s = settingsOf(moved);
    s.travelSpeed_m_s = travel_mm_s * 1e-3;
    s.lineSpacing_m = spacing_mm * 1e-3;
    s.stepOver_m = stepOver_mm * 1e-3;
    return assessed(moved);
  };
  std::vector<Assessment> near8;
  for (const double travel : {8.0, 8.06, 8.09}) near8.push_back(at(travel, 0.08, 29));
  for (const Assessment& a : near8) {
    CHECK(std::abs(passesOf(a) - passesOf(near8.front())) <= 1);
    CHECK(*a.thermal.front_C == Catch::Approx(*near8.front().thermal.front_C).epsilon(0.05));
  }
  checkPasses(passesOf(at(8, 0.064, 29)), passesOf(at(8, 0.068, 29)));
  CHECK(*at(8, 0.08, 30).thermal.front_C == Catch::Approx(*at(8, 0.08, 29.9).thermal.front_C).epsilon(0.1));
}

TEST_CASE("Steel that hardens under the beam's turns does so in thicker metal too", "[assess]") {
  Project project = sampleProject();
  project.part.substrate = "carbon-steel";
  for (const double thickness_mm : {2.5, 3.0}) {
    CAPTURE(thickness_mm);
    project.part.thickness_m = Range::exact(thickness_mm * 1e-3);
    const Assessment a = assessed(project);
    const auto hardening = std::ranges::find(a.thermal.limits, "hardening", &LimitResult::name);
    REQUIRE(hardening != a.thermal.limits.end());
    REQUIRE(hardening->margin);
    CHECK(*hardening->margin < 0);
  }
}

TEST_CASE("On random plans no headline number leaps", "[assess]") {
  std::mt19937 random(5);
  const auto between = [&](double low, double high) { return low * std::pow(high / low, static_cast<double>(random()) / 4294967296.0); };
  for (int plan = 0; plan < (thorough() ? 20 : 3); ++plan) {
    Project project = smallProject();
    Settings& s = settingsOf(project);
    s.travelSpeed_m_s = between(4e-3, 80e-3);
    s.lineSpacing_m = between(0.05e-3, 0.3e-3);
    s.repetitionRate_Hz = between(40e3, 400e3);
    s.powerFraction = between(0.2, 0.9);
    s.scanSpeed_m_s = between(2, 10);
    s.height_m = between(1e-3, 10e-3);
    s.passes = 1 + static_cast<int>(random() % 4U);
    const auto all = dials();
    sweep(project, project.plans.front().name, all[random() % all.size()], thorough() ? 40 : 6);
  }
}

TEST_CASE("Beyond boiling no temperature is told, and metal that stays molten is said to be lost", "[assess]") {
  Project foil = smallProject();
  makeContinuous(foil);
  foil.machines[0].ratedPower_W = 3000;
  foil.part.thickness_m = Range::exact(50e-6);
  settingsOf(foil).powerFraction = 1;
  const Assessment a = assessed(foil);
  const double boiling = a.thermal.boiling_C;
  for (const auto& reached : {a.thermal.near_C, a.thermal.flash_C, a.thermal.front_C, a.thermal.back_C}) CHECK(*reached <= boiling);
  for (const auto* curve : {&a.thermal.trace.front_C, &a.thermal.trace.near_C, &a.thermal.lastFrame.near_C})
    for (const double temperature : *curve) CHECK(temperature <= boiling);
  CHECK(a.answer.find("holes the metal") != std::string::npos);
  CHECK(rowOf(a, "temperature").status == Status::Fails);
  CHECK(rowOf(a, "temperature").message.find("molten right through") != std::string::npos);
  CHECK(hasNote(a, "the metal boils"));
}
