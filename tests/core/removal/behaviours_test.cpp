// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/ledger.h"
#include "core/removal/threshold.h"
#include "tests/core/removal/paint.h"
#include "tests/core/removal/steel.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;
using Catch::Approx;
using test::paint;

// How layers leave: residue, spalling, scorching, flakes. Facts of the trade are common practice, no source.

namespace {

constexpr double pulse_s = 100e-9, gap_s = 10e-6;

CoatLayer white(double thickness_m) {
  const KubelkaMunk film{0.7e3, 30e3};
  return paint(thickness_m, opticalDepth_m(film), 1 - thickReflectance(film));
}

/// Passes of a few strong pulses until the coat is gone.
int passesOf(const std::vector<CoatLayer>& coat, double fluence_J_m2, int pulses = 6, double duration_s = pulse_s) {
  const CoatedMetal part(coat, steel());
  Ledger ledger(part);
  for (int pass = 1; pass <= 400; ++pass) {
    ledger.beginPass();
    for (int i = 0; i < pulses; ++i) {
      ledger.pulse(fluence_J_m2, duration_s);
      ledger.rest(gap_s);
    }
    ledger.rest(10);
    const EnergyAccount& energy = ledger.energy();
    REQUIRE(std::abs(energy.absorbed - energy.carriedOff - energy.intoPart - ledger.stored_J_m2()) <= 1e-6 * energy.absorbed);
    if (ledger.isBare()) return pass;
  }
  return 1000;
}

}  // namespace

TEST_CASE("A softening layer leaves its residue pass by pass unless the pulses blow it off", "[removal]") {
  CoatLayer bitumen = paint(2e-3, 10e-6, 0.93);  // so thick that what stays still shades the metal
  bitumen.behaviour = Behaviour::Softens;
  bitumen.residueShare = 0.3;
  bitumen.liftChance = 0;
  const CoatedMetal part({bitumen}, steel());
  Ledger ledger(part);
  const double slow_s = 1e-3, fluence = 50e6;  // a continuous beam's irradiance: 5e10 W/m2
  double left = bitumen.thickness_m;
  for (int pass = 0; pass < 3; ++pass) {
    ledger.beginPass();
    ledger.pulse(fluence, slow_s);
    ledger.rest(10);
    CHECK(ledger.left_m(0) == Approx(0.3 * left).epsilon(1e-9));
    left = ledger.left_m(0);
  }
  // The same energy in short pulses above 1e11 W/m2 leaves nothing.
  CHECK(passesOf({bitumen}, 1e5, 1000) == 1);
  CHECK(passesOf({bitumen}, 5e6, 10, slow_s) > 3);
}

TEST_CASE("What spalls leaves at its sensible heat", "[removal]") {
  CoatLayer rust = paint(1e-3, 4e-6, 0.7);
  const double sensible = rust.sensibleEnthalpy_J_m3();
  REQUIRE(sensible < rust.removalEnthalpy_J_m3);
  CHECK(rust.leavesAt_J_m3() == rust.removalEnthalpy_J_m3);
  rust.behaviour = Behaviour::Spalls;
  CHECK(rust.leavesAt_J_m3() == sensible);
  const CoatedMetal part({rust}, steel());
  const double s = rust.diffusivity_m2_s * pulse_s / (rust.opticalDepth_m * rust.opticalDepth_m);
  Ledger cold(part), hot(part);
  const double threshold = sensible * rust.opticalDepth_m / rust.absorptance * heatedDepths(s);
  cold.pulse(0.999 * threshold, pulse_s);
  hot.pulse(1.001 * threshold, pulse_s);
  CHECK(cold.depth_m() == 0);
  CHECK(hot.depth_m() > 0);
}

TEST_CASE("A scorching coat comes off sooner than one that stays pale", "[removal]") {
  CoatLayer pale = white(150e-6);
  pale.liftChance = 0;
  CoatLayer scorching = pale;
  scorching.behaviour = Behaviour::Scorches;
  scorching.absorptanceAfterHeating = 0.5;
  const double fluence = 0.5e5;
  CHECK(passesOf({scorching}, fluence, 12) < passesOf({pale}, fluence, 12));
}

TEST_CASE("A pale film flakes off a heated primer, and sooner the likelier it is", "[removal]") {
  CoatLayer pale = white(60e-6);
  const CoatLayer primer = paint(30e-6, 10e-6, 0.8);
  const double fluence = 1e5;
  int before = 1001;
  for (const double chance : {0.0, 0.02, 0.1, 0.6}) {
    pale.liftChance = chance;
    const int passes = passesOf({pale, primer}, fluence);
    CAPTURE(chance);
    CHECK(passes <= before);
    before = passes;
  }
  pale.liftChance = 0;
  CHECK(before < passesOf({pale, primer}, fluence));
  // Too weak to heat the primer to its removal temperature, nothing flakes, however likely.
  pale.liftChance = 1;
  CHECK(passesOf({pale, primer}, 0.02e5, 1) == 1000);
}

TEST_CASE("White takes several times the passes of dark, and never stalls for ever", "[removal]") {
  for (const double fluence : {0.15e5, 0.25e5, 0.4e5}) {
    const int dark = passesOf({paint(60e-6, 8e-6, 0.92)}, fluence), pale = passesOf({white(60e-6)}, fluence);
    CAPTURE(fluence, dark, pale);
    CHECK(pale >= 2 * dark);
    CHECK(pale < 400);
  }
}

TEST_CASE("A lacquer flakes off metal that a pulse makes hot through it", "[removal]") {
  CoatLayer lacquer = paint(15e-6, 2e-3, 0.9);
  lacquer.liftChance = 1;
  const CoatedMetal part({lacquer}, steel());
  // The metal's rise 2 q sqrt(tau/(pi k rho c)) (Carslaw and Jaeger 2.9) against the lacquer's removal temperature.
  const double perFluence = steel().flashRise_K(steel().absorptance * part.light.whole(0).passed / pulse_s, pulse_s);
  for (const double share : {0.99, 1.01}) {
    Ledger ledger(part);
    ledger.pulse(share * lacquer.removalRise_K / perFluence, pulse_s);
    CHECK(ledger.isBare() == (share > 1));
  }
}

TEST_CASE("A thin pale film comes off metal that pulses through it keep hot", "[removal]") {
  // Ten joules per square centimetre, again and again before the last has gone: the metal's face stays above the removal temperature.
  CoatLayer pale = white(60e-6);
  pale.liftChance = 0;
  CHECK(passesOf({pale}, 1e5) == 1);
  CHECK(passesOf({pale}, 1e5, 1) > 1);  // alone, a flash is over before the film's foot has felt it
  CHECK(passesOf({pale}, 0.2e5) == 1000);
}

TEST_CASE("A coat cut into layers wears as the same coat in one", "[removal]") {
  const auto depthAfter = [](int layers, int pulses) {
    const CoatedMetal part(std::vector<CoatLayer>(static_cast<std::size_t>(layers), paint(300e-6 / layers, 10e-6, 0.9)), steel());
    Ledger ledger(part);
    for (int i = 0; i < pulses; ++i) {
      ledger.pulse(1e5, pulse_s);
      ledger.rest(gap_s);
    }
    return ledger.depth_m();
  };
  for (const int pulses : {1, 4, 12}) {
    const double whole = depthAfter(1, pulses);
    for (const int layers : {3, 10, 100}) {
      CAPTURE(pulses, layers);
      CHECK(depthAfter(layers, pulses) == Approx(whole).epsilon(0.02));
    }
  }
  CHECK(passesOf({}, 1e5) == 1);
}
