// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/coat_light.h"

#include "tests/core/removal/paint.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;
using Catch::Approx;
using test::paint;

namespace {

/// Shares that the layers and the metal take of light that arrives on top, and what goes back out.
double sumOfShares(const std::vector<CoatLayer>& coat, double metal) {
  const CoatLight light(coat, metal);
  double arrives = 1, taken = 0;
  for (std::size_t i = 0; i < coat.size(); ++i) {
    taken += arrives * light.whole(i).taken;
    arrives *= light.whole(i).passed;
  }
  return taken + arrives * metal;
}

}  // namespace

TEST_CASE("A thick layer takes its absorptance over its optical depth", "[removal]") {
  for (const double absorptance : {0.1, 0.35, 0.9, 1.0}) {
    const CoatLight light(std::vector{paint(1e-3, 20e-6, absorptance)}, 0.4);
    CAPTURE(absorptance);
    CHECK(light.whole(0).taken == Approx(absorptance).epsilon(1e-9));
    CHECK(light.whole(0).density_1_m == Approx(absorptance / 20e-6).epsilon(1e-9));
    CHECK(light.whole(0).passed == Approx(0).margin(1e-12));
  }
}

TEST_CASE("A film on what reflects as much as itself lets exp(-z/d) through", "[removal]") {
  const CoatLight light(std::vector{paint(30e-6, 25e-6, 0.6)}, 0.6);
  CHECK(light.whole(0).passed == Approx(std::exp(-30.0 / 25)).epsilon(1e-9));
  CHECK(light.whole(0).taken == Approx(0.6 * (1 - std::exp(-30.0 / 25))).epsilon(1e-9));
}

TEST_CASE("A white film of 60 micrometres passes about half the light to the primer", "[removal]") {
  // S 30/mm, K 0.3 to 1.2/mm over a dark primer, by a Kubelka-Munk program of its own (physics of the model, section 4).
  for (const double K : {0.3e3, 0.7e3, 1.2e3}) {
    const KubelkaMunk white{K, 30e3};
    const CoatLight light(std::vector{paint(60e-6, opticalDepth_m(white), 1 - thickReflectance(white)), paint(50e-6, 15e-6, 0.7)}, 0.5);
    CAPTURE(K);
    CHECK(light.whole(0).passed * (light.whole(1).taken + 0.5 * light.whole(1).passed) == Approx(0.35).margin(0.15));
    CHECK(light.whole(0).taken < 0.2);
  }
}

TEST_CASE("No light is made or lost in a coat", "[removal]") {
  // What is not taken comes back out: by hand for one film over a background, R = R0 + T0^2 Rg/(1 - R0 Rg).
  const std::vector<CoatLayer> coat = {paint(12e-6, 60e-6, 0.3), paint(40e-6, 300e-6, 0.8), paint(5e-6, 90e-6, 0.2)};
  for (const double metal : {0.05, 0.4, 1.0}) {
    double background = 1 - metal;
    for (std::size_t i = coat.size(); i-- > 0;) background = filmOver(coat[i].film(), coat[i].thickness_m, background).reflectance;
    CHECK(sumOfShares(coat, metal) == Approx(1 - background).epsilon(1e-12));
  }
}

TEST_CASE("A scorched film takes up more and scatters as before", "[removal]") {
  CoatLayer pale = paint(60e-6, 150e-6, 0.2);
  pale.absorptanceAfterHeating = 0.5;
  CHECK(pale.film(true).scattering_1_m == pale.film().scattering_1_m);
  CHECK(1 - thickReflectance(pale.film(true)) == Approx(0.5).epsilon(1e-9));
  pale.absorptanceAfterHeating = 0.1;  // heating never makes a coat paler
  CHECK(pale.film(true).absorption_1_m == Approx(pale.film().absorption_1_m).epsilon(1e-9));
}
