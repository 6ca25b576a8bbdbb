// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/shop.h"

namespace bw {
namespace {

/// What says nothing is left out of the project.
template <class T>
std::optional<T> unlessEmpty(const T& value) {
  return value == T{} ? std::nullopt : std::optional(value);
}

void setAir(Project& project, const std::optional<double>& air_C) {
  if (!air_C) return;
  project.part.ambientTemperature_C = *air_C;
  if (project.site && project.site->ambient_C) project.site->ambient_C = air_C;
}

}  // namespace

ShopFacts shopOf(const Project& project, const Plan& plan) {
  ShopFacts shop{
      project.currency, project.prices.value_or(Prices{}), project.site.value_or(Site{}), plan.extraction.value_or(Extraction{}), {}};
  if (!shop.site.ambient_C) shop.site.ambient_C = project.part.ambientTemperature_C;
  return shop;
}

void setShop(Project& project, std::size_t plan, const ShopFacts& shop) {
  const ShopFacts before = shopOf(project, project.plans.at(plan));
  if (shop.site.ambient_C != before.site.ambient_C) setAir(project, shop.site.ambient_C);
  Site site = shop.site;
  site.ambient_C = project.site ? project.site->ambient_C : std::nullopt;
  Site siteBefore = before.site;
  siteBefore.ambient_C = site.ambient_C;
  if (site != siteBefore) project.site = unlessEmpty(site);
  if (shop.extraction != before.extraction) project.plans.at(plan).extraction = unlessEmpty(shop.extraction);
  if (shop.prices != before.prices) project.prices = unlessEmpty(shop.prices);
  project.currency = shop.currency;
}

void seedFrom(const ShopFacts& shop, Project& project) {
  for (std::size_t plan = 0; plan < project.plans.size(); ++plan) setShop(project, plan, shop);
  if (shop.site.ambient_C) project.part.startTemperature_C = *shop.site.ambient_C;
}

}  // namespace bw
