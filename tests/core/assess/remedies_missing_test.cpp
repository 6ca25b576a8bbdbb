// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/settings_change.h"
#include "core/files/assessment_file.h"
#include "core/start/first_guess.h"
#include "core/start/typical_machines.h"
#include "tests/core/assess/ailing.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

using namespace bw;
using namespace bw::test;

TEST_CASE("Passes that are missing, settings beyond the machine: there is a remedy", "[assess]") {
  using Expected = std::pair<std::size_t, std::string>;
  for (const auto& [which, check] : sampled(std::vector{Expected{0, "removal"}, Expected{4, "machine"}}, 2, 1)) {
    const Project project = varied(ailing()[which]);
    const Assessment now = assessed(project);
    REQUIRE(rowOf(now, check).status == Status::Fails);
    const auto remedies = findRemedies(project, now, shippedLibrary());
    CHECK(std::ranges::any_of(remedies, [&](const Remedy& remedy) { return remedy.check == check; }));
  }
}
