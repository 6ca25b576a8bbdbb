// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/start/first_guess.h"
#include "tests/core/assess/ailing.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

using namespace bw;
using namespace bw::test;

TEST_CASE("No remedy makes a check fail that did not", "[assess]") {
  for (const Variation& variation : sampled(ailing(), 6, 2)) {
    const Project project = varied(variation);
    const Assessment now = assessed(project);
    for (const Remedy& remedy : findRemedies(project, now, shippedLibrary(), {}, typicalOffers()))
      for (const VerdictRow& row : remedy.outcome->verdict) {
        CAPTURE(variation.name, remedy.label, row.check);
        if (rowOf(now, row.check).status != Status::Fails) CHECK(row.status != Status::Fails);
      }
  }
}
