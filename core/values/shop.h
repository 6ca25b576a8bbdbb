// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

namespace bw {

/// A shop as it usually is: seeds new projects, each of which then has its own.
struct ShopFacts {
  std::string currency;
  Prices prices;
  Site site;
  Extraction extraction;
  Extras extras;
  bool operator==(const ShopFacts&) const = default;
};

/// What a plan of the project says of the shop. The air is the site's, or else that around the part.
ShopFacts shopOf(const Project& project, const Plan& plan);

/// Writes what differs into the project and that plan. Air that is known is then the part's too; nothing else of the part is touched.
void setShop(Project& project, std::size_t plan, const ShopFacts& shop);

/// The same for all plans of a new project, whose part is as warm as the shop's air.
void seedFrom(const ShopFacts& shop, Project& project);

}  // namespace bw
