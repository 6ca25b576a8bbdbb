// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/materials/kubelka_munk.h"

#include "tests/support/catch.h"

#include <cmath>

using namespace bw;

namespace {

/// The flux equations -dI/dx = -(S+K) I + S J, dJ/dx = -(S+K) J + S I of Kubelka and Munk, added up from the background by thin
/// slices: an independent road to the same film.
FilmLight addedUp(const KubelkaMunk& film, double thickness_m, double backgroundReflectance) {
  constexpr int slices = 200000;
  const double s = film.scattering_1_m * thickness_m / slices;
  const double t = 1 - (film.scattering_1_m + film.absorption_1_m) * thickness_m / slices;
  double reflectance = backgroundReflectance;
  double transmittance = 1;
  for (int i = 0; i < slices; ++i) {
    const double bounces = 1 - s * reflectance;
    transmittance *= t / bounces;
    reflectance = s + t * t * reflectance / bounces;
  }
  return {reflectance, transmittance};
}

}  // namespace

TEST_CASE("A film agrees with thin slices added up", "[materials]") {
  for (const double absorption_1_m : {0.0, 300.0, 5000.0}) {
    for (const double scattering_1_m : {0.0, 1000.0, 30000.0}) {
      for (const double background : {0.0, 0.4, 0.9}) {
        INFO(absorption_1_m << " " << scattering_1_m << " " << background);
        const KubelkaMunk film{absorption_1_m, scattering_1_m};
        const auto closed = filmOver(film, 60e-6, background);
        const auto slices = addedUp(film, 60e-6, background);
        CHECK(closed.reflectance == Catch::Approx(slices.reflectance).margin(1e-4));
        CHECK(closed.transmittance == Catch::Approx(slices.transmittance).margin(1e-4));
      }
    }
  }
}

TEST_CASE("Limits of a film", "[materials]") {
  const KubelkaMunk white{700, 30000};
  SECTION("a thick film hides its background") {
    CHECK(filmOver(white, 0.005, 0.0).reflectance == Catch::Approx(thickReflectance(white)));
    CHECK(filmOver(white, 0.005, 0.9).reflectance == Catch::Approx(thickReflectance(white)));
    CHECK(filmOver(white, 1.0, 0.9).transmittance == Catch::Approx(0).margin(1e-12));
  }
  SECTION("without scattering it is Beer and Lambert's law") {
    CHECK(filmOver({4000, 0}, 100e-6, 0).transmittance == Catch::Approx(std::exp(-0.4)));
    CHECK(filmOver({4000, 0}, 100e-6, 0.5).reflectance == Catch::Approx(0.5 * std::exp(-0.8)));
    CHECK(thickReflectance({4000, 0}) == 0);
    CHECK(opticalDepth_m({4000, 0}) == Catch::Approx(1 / 4000.0));
  }
  SECTION("without absorption no light is lost") {
    const auto film = filmOver({0, 30000}, 60e-6, 0);
    CHECK(film.reflectance + film.transmittance == Catch::Approx(1));
    CHECK(film.transmittance == Catch::Approx(1 / (1 + 30000 * 60e-6)));
  }
  SECTION("no film changes nothing") {
    CHECK(filmOver(white, 0, 0.3).reflectance == Catch::Approx(0.3));
    CHECK(filmOver(white, 0, 0.3).transmittance == Catch::Approx(1));
  }
  SECTION("what is neither returned nor passed on is taken up, never less than nothing") {
    for (double thickness_m = 0; thickness_m < 1e-3; thickness_m += 10e-6) {
      const auto film = filmOver(white, thickness_m, 0.4);
      const double taken = 1 - film.reflectance - film.transmittance * (1 - 0.4);
      CHECK(taken >= -1e-12);
      CHECK(taken <= 1 - film.reflectance);
    }
  }
}

TEST_CASE("A white film of 60 um passes about half of the light to the primer", "[materials]") {
  // S about 30/mm and K 0.3 to 1.2/mm are estimates; red oxide primer returns about 0.4 of what reaches it.
  for (const double absorption_1_m : {300.0, 700.0, 1200.0}) {
    CHECK(filmOver({absorption_1_m, 30000}, 60e-6, 0.4).transmittance == Catch::Approx(0.5).margin(0.1));
  }
}

TEST_CASE("Absorptance and depth give back S and K", "[materials]") {
  for (const double absorptance : {0.05, 0.2, 0.6, 1.0}) {
    const KubelkaMunk film = kubelkaMunkFrom(absorptance, 120e-6);
    CHECK(1 - thickReflectance(film) == Catch::Approx(absorptance));
    CHECK(opticalDepth_m(film) == Catch::Approx(120e-6));
  }
}
