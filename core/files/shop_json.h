// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How a shop is kept in the library. See json_io.h for the verbs; its parts are described where projects are.

#include "core/files/project_json.h"
#include "core/values/shop.h"

namespace bw {

template <class Io>
void describe(Io& io, ShopFacts& shop) {
  io.may("currency", shop.currency, shortText);
  io.may("prices", shop.prices);
  io.may("site", shop.site);
  io.may("extraction", shop.extraction);
  io.rest(shop.extras);
}

}  // namespace bw
