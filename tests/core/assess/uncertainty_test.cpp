// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace bw;
using namespace bw::test;

namespace {

/// All that is uncertain of the coat and the metal taken to be known.
Project known(Project project) {
  for (Layer& layer : project.coat) layer.thickness_m = Range::exact(layer.thickness_m.likely);
  return project;
}

}  // namespace

TEST_CASE("The less is known, the wider the passes spread", "[assess]") {
  const auto width = [](const Assessment& deepened) {
    const Spread passes = deepened.ranges->passesNeeded;
    return std::log(std::min(100.0, passes.high) / passes.low);
  };
  Project gauged = known(smallProject()), guessed = gauged;
  for (Layer& layer : guessed.coat) layer.thickness_m = {layer.thickness_m.likely / 3, layer.thickness_m.likely, layer.thickness_m.likely * 3};
  const double gaugedWidth = width(deep(gauged));
  CHECK(gaugedWidth <= width(deep(guessed)));
  Project unknown = gauged;
  for (Layer& layer : unknown.coat) layer.coating = "unknown";
  const Assessment a = deep(unknown);
  CHECK(gaugedWidth < width(a));
  CHECK(rowOf(a, "removal").message.find("prove on a patch") != std::string::npos);
  CHECK(rowOf(a, "removal").status != Status::Meets);
}

TEST_CASE("What matters most is what varies most, and is said with how to measure it", "[assess]") {
  Project project = known(smallProject());
  project.coat.resize(1);
  project.coat[0].coating = "alkyd-dark";
  project.coat[0].thickness_m = {30e-6, 150e-6, 750e-6};
  const Assessment a = deep(project);
  REQUIRE_FALSE(a.ranges->influences.empty());
  CHECK(a.ranges->influences[0].what == "thickness of \"" + project.coat[0].name + "\"");
  CHECK(a.ranges->influences[0].share > 0.5);
  CHECK(a.ranges->influences[0].passesIfKnown.high < a.ranges->passesNeeded.high);
  REQUIRE_FALSE(a.findOutNext.empty());
  CHECK(a.findOutNext[0].how.find("gauge") != std::string::npos);
  CHECK(a.findOutNext[0].narrows.find("becomes") != std::string::npos);
}
