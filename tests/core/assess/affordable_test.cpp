// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/affordable.h"

#include "core/dose/repeat_cell.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <cmath>

using namespace bw;
using namespace bw::test;

TEST_CASE("Lines as close as a remark says can be computed", "[assess]") {
  for (const Pattern pattern : {Pattern::Raster, Pattern::Crossed, Pattern::Circles}) {
    Project project = smallProject();
    settingsOf(project).pattern = pattern;
    settingsOf(project).lineSpacing_m = 1e-8;
    const Assessment tooClose = assessed(project);
    CAPTURE(static_cast<int>(pattern), tooClose.whyNoDose);
    CHECK_FALSE(tooClose.dose);
    CHECK(tooClose.whyNoDose.find("would do") != std::string::npos);
    CHECK(rowOf(tooClose, "evenness").message == "Not known: " + tooClose.whyNoDose + ".");
    const Work work = prepare(project, "", shippedLibrary(), {});
    settingsOf(project).lineSpacing_m = affordable::leastSpacing_m(work, tooClose.beam.spotDiameter_m);
    CHECK(assessed(project).dose);
    settingsOf(project).lineSpacing_m /= 2;
    CHECK_FALSE(assessed(project).dose);
  }
}
