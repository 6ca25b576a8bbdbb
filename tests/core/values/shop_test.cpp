// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/shop.h"

#include "tests/support/catch.h"

using namespace bw;

namespace {

Project onePlan() {
  Project project;
  project.plans.resize(1);
  return project;
}

}  // namespace

TEST_CASE("Saying nothing of the shop leaves a project as it is", "[values][shop]") {
  Project project = onePlan();
  project.part.ambientTemperature_C = 12;
  const Project before = project;
  setShop(project, 0, shopOf(project, project.plans[0]));
  CHECK(project == before);
  seedFrom({}, project);
  CHECK(project == before);
}

TEST_CASE("What is written of the shop is read back, and what is taken out again is gone", "[values][shop]") {
  Project project = onePlan();
  const Project before = project;
  ShopFacts shop = shopOf(project, project.plans[0]);
  shop.currency = "EUR";
  shop.prices.labourPerHour = 40;
  shop.site.people = 2;
  shop.extraction.on = true;
  setShop(project, 0, shop);
  CHECK(shopOf(project, project.plans[0]) == shop);
  CHECK(project.part == before.part);
  setShop(project, 0, shopOf(before, before.plans[0]));
  CHECK(project == before);
}

TEST_CASE("There is one air: a change of it reaches part and site, another change neither", "[values][shop]") {
  Project project = onePlan();
  project.part.ambientTemperature_C = 20;
  project.site = Site{};
  project.site->ambient_C = 3;  // as a file may have it
  ShopFacts shop = shopOf(project, project.plans[0]);
  CHECK(shop.site.ambient_C == 3);
  shop.site.people = 2;
  setShop(project, 0, shop);
  CHECK(project.part.ambientTemperature_C == 20);
  shop.site.ambient_C = 8;
  setShop(project, 0, shop);
  CHECK(project.part.ambientTemperature_C == 8);
  CHECK(project.site->ambient_C == 8);
}

TEST_CASE("A new project begins as the shop usually is, its part as warm as the air", "[values][shop]") {
  Project project = onePlan();
  ShopFacts shop;
  shop.currency = "EUR";
  shop.site.ambient_C = 9;
  shop.site.supply_W = 3500;
  shop.extraction = {true, 0.25, {Filter::FineDust}, {}};
  seedFrom(shop, project);
  CHECK(project.part.startTemperature_C == 9);
  CHECK(project.part.ambientTemperature_C == 9);
  CHECK(project.site->supply_W == 3500);
  CHECK(project.plans[0].extraction == shop.extraction);
  CHECK(project.currency == "EUR");
}
