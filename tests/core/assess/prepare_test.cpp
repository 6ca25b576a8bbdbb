// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

#include <limits>

using namespace bw;
using namespace bw::test;

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

/// What assess says of an unusable project; empty where it does not mind.
std::string complaint(const Project& project, const std::string& plan = "") {
  try {
    assess(project, plan, shippedLibrary());
    return "";
  } catch (const Unusable& unusable) {
    return unusable.what();
  }
}

template <class Member>
void checkRefused(const std::string& word, Member member, const std::vector<double>& values) {
  for (const double value : values) {
    Project project = smallProject();
    member(project) = value;
    const std::string said = complaint(project);
    CAPTURE(word, value, said);
    CHECK(said.find(word) != std::string::npos);
  }
}

}  // namespace

TEST_CASE("Numbers that cannot be meant are refused with a sentence naming them", "[assess]") {
  checkRefused("power setting", [](Project& p) -> double& { return settingsOf(p).powerFraction; }, {-0.1, notANumber, endless});
  checkRefused("duty", [](Project& p) -> double& { return settingsOf(p).dutyFraction; }, {-0.1, notANumber, endless});
  checkRefused("repetition rate", [](Project& p) -> double& { return settingsOf(p).repetitionRate_Hz; }, {0, -1, notANumber, endless});
  checkRefused("pulse duration", [](Project& p) -> double& { return settingsOf(p).pulseDuration_s; }, {0, -1, notANumber, endless});
  checkRefused("focus offset", [](Project& p) -> double& { return settingsOf(p).focusOffset_m; }, {notANumber, endless});
  checkRefused("width", [](Project& p) -> double& { return settingsOf(p).width_m; }, {0, -1, notANumber, endless});
  checkRefused("height", [](Project& p) -> double& { return settingsOf(p).height_m; }, {-1, notANumber, endless});
  checkRefused("line spacing", [](Project& p) -> double& { return settingsOf(p).lineSpacing_m; }, {0, -1, notANumber, endless});
  checkRefused("scan speed", [](Project& p) -> double& { return settingsOf(p).scanSpeed_m_s; }, {0, -1, notANumber, endless});
  checkRefused("edge trim", [](Project& p) -> double& { return settingsOf(p).edgeTrim_m; }, {-1e-3, notANumber, endless});
  checkRefused("travel speed", [](Project& p) -> double& { return settingsOf(p).travelSpeed_m_s; }, {-1, notANumber, endless});
  checkRefused("travel angle", [](Project& p) -> double& { return settingsOf(p).travelAngle_rad; }, {notANumber, endless});
  checkRefused("step-over", [](Project& p) -> double& { return settingsOf(p).stepOver_m; }, {0, -1, notANumber, endless});
  checkRefused("pause", [](Project& p) -> double& { return settingsOf(p).pause_s; }, {-1, notANumber, endless});
  checkRefused("rated power", [](Project& p) -> double& { return p.machines[0].ratedPower_W; }, {0, -1, notANumber, endless});
  checkRefused("spot diameter", [](Project& p) -> double& { return p.machines[0].spotDiameter_m; }, {0, -1, notANumber, endless});
  checkRefused("wavelength", [](Project& p) -> double& { return p.machines[0].wavelength_m; }, {0, -1, notANumber, endless});
  checkRefused("M2", [](Project& p) -> double& { return p.machines[0].M2; }, {0, 0.5, notANumber, endless});
  checkRefused("turnaround", [](Project& p) -> double& { return p.machines[0].scan.turnaround_s; }, {-1, notANumber, endless});
  checkRefused("thickness", [](Project& p) -> double& { return p.part.thickness_m.likely; }, {0, -1, notANumber, endless});
}

TEST_CASE("A sine needs its rate, not a scan speed", "[assess]") {
  Project project = smallProject();
  settingsOf(project).pattern = Pattern::Sine;
  settingsOf(project).scanSpeed_m_s = 0;
  CHECK(complaint(project).find("oscillation rate") != std::string::npos);
  settingsOf(project).oscillationRate_Hz = 100;
  CHECK(complaint(project).empty());
}

TEST_CASE("Each pattern needs what draws it and no more", "[assess]") {
  struct Row {
    Pattern pattern;
    bool height, spacing, speed, rate;
  };
  for (const Row& row : {Row{Pattern::Line, false, false, true, false}, Row{Pattern::Sine, false, false, false, true},
                         Row{Pattern::Raster, true, true, true, false}, Row{Pattern::Crossed, true, true, true, false},
                         Row{Pattern::Circles, false, true, true, false}, Row{Pattern::Spiral, false, true, true, false},
                         Row{Pattern::TwoSine, true, true, false, true}}) {
    const auto without = [&](auto change) {
      Project project = smallProject();
      settingsOf(project).pattern = row.pattern;
      settingsOf(project).oscillationRate_Hz = 100;
      change(settingsOf(project));
      return complaint(project);
    };
    CAPTURE(static_cast<int>(row.pattern));
    CHECK(without([](Settings&) {}).empty());
    CHECK(without([](Settings& s) { s.width_m = 0; }).find("width") != std::string::npos);
    CHECK(without([](Settings& s) { s.height_m = -1; }).empty() != row.height);
    CHECK(without([](Settings& s) { s.lineSpacing_m = 0; }).empty() != row.spacing);
    CHECK(without([](Settings& s) { s.scanSpeed_m_s = 0; }).empty() != row.speed);
    CHECK(without([](Settings& s) { s.oscillationRate_Hz.reset(); }).empty() != row.rate);
    CHECK(without([](Settings& s) { s.oscillationRate_Hz = 0; }).empty() != row.rate);
  }
}

TEST_CASE("Less than one pass is refused", "[assess]") {
  Project project = smallProject();
  settingsOf(project).passes = 0;
  CHECK(complaint(project).find("pass") != std::string::npos);
}

TEST_CASE("Names that lead nowhere are refused, and what there is is told", "[assess]") {
  Project project = smallProject();
  CHECK(complaint(project, "second guess").find("first guess") != std::string::npos);
  CHECK(complaint(project, "first guess").empty());
  project.plans[0].machine = "lost";
  CHECK(complaint(project).find("\"lost\"") != std::string::npos);
  project.plans.clear();
  CHECK(complaint(project).find("no plan") != std::string::npos);

  project = smallProject();
  project.part.substrate = "moon-rock";
  CHECK(complaint(project).find("moon-rock") != std::string::npos);
  project = smallProject();
  project.coat[1].coating = "chewing-gum";
  CHECK(complaint(project).find("chewing-gum") != std::string::npos);
}

TEST_CASE("A step's optic takes the place of the machine's spot and reach", "[assess]") {
  Project project = smallProject();
  Optic wide;
  wide.id = "wide";
  wide.spotDiameter_m = 240e-6;
  wide.maxWidth_m = 5e-3;
  project.machines[0].optics = {wide};
  Step step;
  step.machine = project.machines[0].id;
  step.settings = settingsOf(project);
  step.optic = "wide";
  project.plans[0].steps = {step};
  const Assessment a = assessed(project);
  CHECK(a.beam.spotDiameter_m == Catch::Approx(240e-6));
  CHECK(rowOf(a, "machine").status == Status::Fails);  // the frame is 6 mm wide
  project.plans[0].steps[0].optic = "narrow";
  CHECK(complaint(project).find("\"narrow\"") != std::string::npos);
}
