// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/settings_change.h"
#include "core/files/assessment_file.h"
#include "tests/core/assess/ailing.h"
#include "tests/support/catch.h"

using namespace bw;
using namespace bw::test;

TEST_CASE("Where one change is not enough two together are offered, the one that mends most first", "[assess]") {
  const Project project = hotAndUneven();
  const Assessment now = assessed(project);
  REQUIRE(failingIn(now) >= 2);
  const auto remedies = findRemedies(project, now, shippedLibrary());
  REQUIRE_FALSE(remedies.empty());
  for (const Remedy& remedy : remedies) CHECK(failingIn(*remedies.front().outcome) <= failingIn(*remedy.outcome));
  CAPTURE(remedies.front().label, remedies.front().effect);
  CHECK(failingIn(*remedies.front().outcome) == 0);
  CHECK(remedies.front().label.find("; ") != std::string::npos);
  const Assessment taken = assessed(withSettings(project, now.plan, remedies.front().settings));
  CHECK(writeAssessment(taken) == writeAssessment(*remedies.front().outcome));
  const auto again = findRemedies(project, now, shippedLibrary());
  REQUIRE(again.size() == remedies.size());
  for (std::size_t i = 0; i < again.size(); ++i) CHECK(again[i].label == remedies[i].label);
}
