// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/affordable.h"
#include "core/dose/repeat_cell.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <cmath>
#include <numbers>

using namespace bw;
using namespace bw::test;
using Catch::Approx;

namespace {

/// The formulas of the file format's keys, from the project and the beam that arrives.
void checkOverlap(const Project& project, const Assessment& a) {
  const Settings& s = project.plans[0].settings;
  const double spot = a.beam.spotDiameter_m;
  CHECK(a.overlap.lineOverlap == Approx(1 - s.lineSpacing_m / spot));
  CHECK(a.overlap.lineSpacing_m == s.lineSpacing_m);
  if (project.machines[0].kind == MachineKind::Continuous) {
    CHECK_FALSE(a.overlap.pulseStep_m);
    CHECK_FALSE(a.overlap.pulseOverlap);
    CHECK_FALSE(a.overlap.pulsesPerSpot);
    return;
  }
  // A sine is taken at its fastest, in the middle.
  // Two swings are a little faster than the fast one of them.
  const double speed = swings(s.pattern) ? std::numbers::pi * *s.oscillationRate_Hz * s.width_m : s.scanSpeed_m_s;
  const double step = speed / s.repetitionRate_Hz;
  CHECK(*a.overlap.pulseStep_m == Approx(step).epsilon(1e-3));
  CHECK(*a.overlap.pulseOverlap == Approx(1 - step / spot).epsilon(1e-3));
  CHECK(*a.overlap.pulsesPerSpot == Approx(spot / step).epsilon(1e-3));
}

void checkDose(const Project& project, const Assessment& a) {
  const Settings& s = project.plans[0].settings;
  REQUIRE(a.dose);
  // Mean dose = mean power x lit fraction / (travel x step-over); pulses come in whole numbers.
  CHECK(a.dose->mean_J_m2 == Approx(a.beam.meanPower_W * a.overlap.litFraction / (s.travelSpeed_m_s * s.stepOver_m)).epsilon(3e-3));
  CHECK(a.dose->min_J_m2 <= a.dose->p05_J_m2);
  CHECK(a.dose->p05_J_m2 <= a.dose->p95_J_m2);
  CHECK(a.dose->p95_J_m2 <= a.dose->max_J_m2);
  CHECK(a.dose->min_J_m2 <= a.dose->mean_J_m2);
  CHECK(a.dose->mean_J_m2 <= a.dose->max_J_m2);
  CHECK(a.dose->ripple >= 0);
  CHECK(a.dose->ripple <= 1);
  CHECK(a.dose->missedFraction >= 0);
  CHECK(a.dose->missedFraction <= 1);
}

void checkMap(const Project& project, const Assessment& a) {
  const Settings& s = project.plans[0].settings;
  REQUIRE(a.map);
  CHECK(a.map->across_m() == Approx(s.stepOver_m));
  CHECK(a.map->along_m() == Approx(s.travelSpeed_m_s * a.overlap.framePeriod_s));
  const bool stacked = s.pattern == Pattern::Raster || s.pattern == Pattern::Crossed;
  const double most = stacked ? std::min(a.beam.spotDiameter_m / 8, s.lineSpacing_m / 4) : a.beam.spotDiameter_m / 8;
  CHECK(a.map->cellAcross_m <= most * (1 + 1e-9));
  CHECK(a.map->cellAlong_m <= most * (1 + 1e-9));
  CHECK(a.profile.position_m.size() == a.profile.oneSwath_J_m2.size());
  CHECK(a.profile.position_m.size() == a.profile.summed_J_m2.size());
  CHECK_FALSE(a.stillMap);
  CHECK(a.path.size() > 1);
}

}  // namespace

TEST_CASE("Overlap, dose and map keep the definitions of the file format", "[assess]") {
  for (const Variation& variation : sampled(variations(), 3)) {
    const Project project = varied(variation);
    const Assessment a = assessed(project);
    CAPTURE(variation.name);
    checkOverlap(project, a);
    checkDose(project, a);
    checkMap(project, a);
  }
}

TEST_CASE("The example of the file format, by hand", "[assess]") {
  const Assessment a = assessed(exampleProject());
  CHECK(a.beam.meanPower_W == Approx(255));
  CHECK(*a.beam.pulseEnergy_J == Approx(255 / 240e3));
  CHECK(a.beam.peakPower_W == Approx(255 / 240e3 / 180e-9));
  CHECK(*a.beam.peakFluence_J_m2 == Approx(2 * 255 / 240e3 / (std::numbers::pi * 60e-6 * 60e-6)));
  CHECK(*a.overlap.pulseStep_m == Approx(37.5e-6));
  CHECK(*a.overlap.pulsesPerSpot == Approx(3.2));
  CHECK(a.overlap.framePeriod_s == Approx(176 * (0.032 / 9 + 250e-6)));
  CHECK(a.overlap.litFraction == Approx(1));
  REQUIRE(a.dose);
  CHECK(a.dose->mean_J_m2 == Approx(255 / (0.008 * 0.029)).epsilon(1e-4));
  CHECK(a.profile.litExtent_m == Approx(0.032 + 2 * 9 * 250e-6 / 4));
  REQUIRE(a.dose->edgeRatio);
  CHECK(*a.dose->edgeRatio > 1);  // the beam burns on in the turns
}

TEST_CASE("A still hand has a map of one frame, and no steady dose", "[assess]") {
  for (const bool continuous : {false, true}) {
    Project project = smallProject();
    settingsOf(project).travelSpeed_m_s = 0;
    if (continuous) makeContinuous(project);
    const Assessment a = assessed(project);
    CHECK_FALSE(a.dose);
    CHECK_FALSE(a.map);
    REQUIRE(a.stillMap);
    const double energy = a.beam.meanPower_W * a.overlap.litFraction * a.overlap.framePeriod_s;
    double sum = 0;
    for (const float dose : a.stillMap->dose_J_m2) sum += static_cast<double>(dose);
    CHECK(sum * a.stillMap->cellAcross_m * a.stillMap->cellAlong_m == Approx(energy).epsilon(1e-3));
    CHECK(a.profile.position_m.empty());
    CHECK_FALSE(a.removal.passesNeeded);
    CHECK_FALSE(a.thermal.front_C);
    CHECK_FALSE(a.job.beamTime_s);
    CHECK(hasNote(a, "stands still"));
    for (const VerdictRow& row : a.verdict) {
      const bool needsTravel = row.check != "finish" && row.check != "machine" && row.check != "safety";
      const bool fails = row.check == "removal" || row.check == "temperature";
      CAPTURE(row.check);
      if (needsTravel) CHECK(row.status == (fails ? Status::Fails : Status::NotKnown));
    }
    CHECK(findRemedies(project, a, shippedLibrary()).empty());
  }
}

TEST_CASE("Nothing lit, no power: no crash, nothing promised", "[assess]") {
  const Variation odd[] = {{"all trimmed", [](Project& p) { settingsOf(p).edgeTrim_m = 1; }},
                           {"sine all trimmed", [](Project& p) {
                              settingsOf(p).pattern = Pattern::Sine;
                              settingsOf(p).oscillationRate_Hz = 100;
                              settingsOf(p).edgeTrim_m = 1;
                            }},
                           {"no power", [](Project& p) { settingsOf(p).powerFraction = 0; }},
                           {"no duty", [](Project& p) { settingsOf(p).dutyFraction = 0; }}};
  for (const Variation& variation : odd) {
    const Assessment a = assessed(varied(variation));
    CAPTURE(variation.name);
    CHECK(rowOf(a, "removal").status != Status::Meets);
    CHECK(rowOf(a, "evenness").status != Status::Meets);
    if (a.dose) CHECK(a.dose->mean_J_m2 == Approx(0).margin(1e-9));
  }
}

TEST_CASE("A frame too short for its pulses is remarked upon", "[assess]") {
  Project project = smallProject();
  settingsOf(project).pattern = Pattern::Sine;
  settingsOf(project).oscillationRate_Hz = 23e3;  // 10.4 pulses a frame: eleven are fired
  CHECK(hasNote(assessed(project), "counted anew"));
  settingsOf(project).oscillationRate_Hz = 100;
  CHECK_FALSE(hasNote(assessed(project), "counted anew"));
}

TEST_CASE("Too many pulses to follow one by one still have a dose", "[assess]") {
  struct Row {
    double rate_Hz;
    bool followed;  // straight lines hold any number; at a place there may be too many
  };
  for (const Row& row : {Row{14e6, true}, Row{1e9, false}}) {
    Project project = exampleProject();
    settingsOf(project).repetitionRate_Hz = row.rate_Hz;
    const Assessment a = assessed(project);
    REQUIRE(a.dose);
    const double mean = a.beam.meanPower_W * a.overlap.litFraction / (settingsOf(project).travelSpeed_m_s * settingsOf(project).stepOver_m);
    CHECK(a.dose->mean_J_m2 == Approx(mean).epsilon(1e-4));
    CHECK(a.removal.computed == row.followed);
    CHECK((rowOf(a, "removal").status == Status::NotKnown) == !row.followed);
  }
}

TEST_CASE("Extreme but valid settings come back with a remark, not with a map too large", "[assess]") {
  struct Row {
    Variation variation;
    std::string note;  // empty: it can be computed
  };
  const Row rows[] = {
      {{"travel 1e-9 m/s", [](Project& p) { settingsOf(p).travelSpeed_m_s = 1e-9; }}, ""},
      {{"flat top at 1e-9 m/s",
        [](Project& p) {
          settingsOf(p).travelSpeed_m_s = 1e-9;
          p.machines[0].beamProfile = BeamProfile::FlatTop;
        }},
       ""},
      {{"travel 10 m/s", [](Project& p) { settingsOf(p).travelSpeed_m_s = 10; }}, ""},
      {{"frame of 10 m", [](Project& p) { settingsOf(p).width_m = settingsOf(p).height_m = 10; }}, "pulses"},
      {{"lines 1 nm apart", [](Project& p) { settingsOf(p).lineSpacing_m = 1e-9; }}, "lines"},
      {{"lines 1 um apart", [](Project& p) { settingsOf(p).lineSpacing_m = 1e-6; }}, "points"},
      {{"lines 3 um apart", [](Project& p) { settingsOf(p).lineSpacing_m = 3e-6; }}, "points"},
      {{"lines 4 um apart, tall",
        [](Project& p) {
          settingsOf(p).lineSpacing_m = 4e-6;
          settingsOf(p).height_m = 8e-3;
          settingsOf(p).stepOver_m = 1e-3;
          settingsOf(p).travelSpeed_m_s = 0.01;
        }},
       "too fine"},
      {{"step-over 1 m", [](Project& p) { settingsOf(p).stepOver_m = 1; }}, ""},
      {{"step-over 1 nm", [](Project& p) { settingsOf(p).stepOver_m = 1e-9; }}, ""},
      {{"step-over and travel tiny",
        [](Project& p) {
          settingsOf(p).stepOver_m = 1e-9;
          settingsOf(p).travelSpeed_m_s = 1e-9;
        }},
       ""},
      {{"spot of 50 mm", [](Project& p) { p.machines[0].spotDiameter_m = 0.05; }}, ""},
      {{"spot of 1 nm", [](Project& p) { p.machines[0].spotDiameter_m = 1e-9; }}, "points"},
      {{"far out of focus", [](Project& p) { settingsOf(p).focusOffset_m = 10; }}, ""},
      {{"1000 passes", [](Project& p) { settingsOf(p).passes = 1000; }}, ""},
      {{"sheet 10 nm thin", [](Project& p) { p.part.thickness_m = Range::exact(1e-8); }}, ""},
      {{"block 1 m thick", [](Project& p) { p.part.thickness_m = Range::exact(1); }}, ""},
      {{"sine of 1 MHz",
        [](Project& p) {
          settingsOf(p).pattern = Pattern::Sine;
          settingsOf(p).oscillationRate_Hz = 1e6;
        }},
       ""},
      {{"sine of 0.001 Hz",
        [](Project& p) {
          settingsOf(p).pattern = Pattern::Sine;
          settingsOf(p).oscillationRate_Hz = 1e-3;
        }},
       "pulses"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.variation.name);
    const Project project = varied(row.variation);
    const Assessment a = assessed(project);
    CHECK(a.verdict.size() == 8);
    if (a.thermal.near_C) CHECK(std::isfinite(*a.thermal.near_C));
    if (a.dose && !a.thermal.near_C) CHECK(hasNote(a, "heat: the hand would need"));
    if (row.note.empty()) {
      REQUIRE(a.dose);
      CHECK(std::isfinite(a.dose->mean_J_m2));
      CHECK(std::isfinite(a.dose->cv));
    } else {
      CHECK_FALSE(a.dose);
      CHECK(hasNote(a, row.note));
    }
  }
}
