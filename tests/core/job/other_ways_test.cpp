// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/other_ways.h"

#include "core/files/library_file.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace bw;

namespace {

LayerMaterial layerOf(const std::string& coating, double thickness_m = 90e-6, bool keep = false) {
  Layer layer;
  layer.name = coating;
  layer.coating = coating;
  layer.thickness_m = Range::exact(thickness_m);
  layer.keep = keep;
  return resolveLayer(layer, {}, shippedLibrary());
}

Part partOf(double thickness_m, Finish finish) {
  Part part;
  part.thickness_m = Range::exact(thickness_m);
  part.finish = finish;
  return part;
}

std::vector<std::string> namesOf(const std::vector<OtherWay>& ways) {
  std::vector<std::string> names;
  for (const OtherWay& way : ways) names.push_back(way.name);
  std::ranges::sort(names);
  return names;
}

const std::string blasting = "abrasive blasting", scraping = "scraping and wire brush", solvent = "solvent or paint stripper";

}  // namespace

TEST_CASE("Other processes are named only where they leave what shall stay", "[job]") {
  const Part thick = partOf(6e-3, Finish::LightEtch), sheet = partOf(1e-3, Finish::LightEtch), delicate = partOf(6e-3, Finish::Untouched);
  using Names = std::vector<std::string>;
  CHECK(namesOf(otherWays({layerOf("alkyd-dark")}, thick, 0.1, 18)) == Names{blasting, scraping, solvent});
  CHECK(namesOf(otherWays({layerOf("alkyd-dark")}, sheet, 0.1, 18)) == Names{scraping, solvent});  // thin sheet warps under the blast
  CHECK(namesOf(otherWays({layerOf("alkyd-dark")}, delicate, 0.1, 18)) == Names{solvent});
  CHECK(namesOf(otherWays({layerOf("rust-heavy")}, thick, 0.1, 18)) == Names{blasting, scraping});  // nothing dissolves rust
  CHECK(namesOf(otherWays({layerOf("bitumen"), layerOf("zinc-galvanising", 20e-6, true)}, thick, 0.1, 18)) == Names{solvent});
  CHECK(otherWays({layerOf("rust-heavy")}, delicate, 0.1, 18).empty());
}

TEST_CASE("Nothing to take off, no area: no other process", "[job]") {
  const Part part = partOf(6e-3, Finish::Any);
  CHECK(otherWays({}, part, 0.1, 18).empty());
  CHECK(otherWays({layerOf("zinc-galvanising", 20e-6, true)}, part, 0.1, 18).empty());
  CHECK(otherWays({layerOf("alkyd-dark")}, part, 0, 18).empty());
}

TEST_CASE("Work grows with area and coat, cost with work, the quickest stands first", "[job]") {
  const Part part = partOf(6e-3, Finish::Any);
  const auto find = [](const std::vector<OtherWay>& ways, const std::string& name) {
    return *std::ranges::find(ways, name, &OtherWay::name);
  };
  const auto little = otherWays({layerOf("alkyd-dark")}, part, 0.1, 18), large = otherWays({layerOf("alkyd-dark")}, part, 1, 18);
  const auto thick = otherWays({layerOf("alkyd-dark", 400e-6)}, part, 0.1, 18);
  for (const std::string& name : {blasting, scraping, solvent}) {
    CHECK(find(large, name).work_s > find(little, name).work_s);
    CHECK(find(thick, name).work_s > find(little, name).work_s);
    CHECK(*find(little, name).cost == Catch::Approx(18 * find(little, name).work_s / 3600));
  }
  CHECK(find(thick, solvent).wait_s > find(little, solvent).wait_s);
  CHECK(std::ranges::is_sorted(little, {}, &OtherWay::work_s));
  CHECK_FALSE(otherWays({layerOf("alkyd-dark")}, part, 0.1, std::nullopt).front().cost);
}
