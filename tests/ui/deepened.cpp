// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/deepened.h"

#include "tests/support/fake_heat.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw::fake {

namespace {

constexpr double um = 1e-6;
constexpr double never = std::numeric_limits<double>::infinity();

Spread about(double middle) { return {0.75 * middle, middle, 1.3 * middle}; }

std::optional<Spread> about(const std::optional<double>& middle) { return middle ? std::optional(about(*middle)) : std::nullopt; }

Spread passesAbout(const std::optional<int>& passes) {
  if (!passes) return {6, never, never};
  const double middle = *passes;
  return {std::max(1.0, std::floor(0.7 * middle)), middle, std::ceil(1.5 * middle)};
}

const PlaceHistory& nearestByDose(const std::vector<PlaceHistory>& places, double dose_J_m2) {
  return *std::ranges::min_element(places, {}, [=](const PlaceHistory& one) { return std::abs(one.dose_J_m2 - dose_J_m2); });
}

std::shared_ptr<const RemovedMap> removedMap(const Assessment& first) {
  constexpr int most = 300;  // points a side
  const DoseMap& dose = *first.map;
  RemovedMap map;
  map.columns = std::min(most, dose.columns);
  map.rows = std::min(most, dose.rows);
  map.cellAcross_m = dose.across_m() / map.columns;
  map.cellAlong_m = dose.along_m() / map.rows;
  const std::size_t passes = first.removal.places.front().depth_m.size();
  map.depth_m.resize(passes);
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column) {
      const float here = dose.at(column * dose.columns / map.columns, row * dose.rows / map.rows);
      const PlaceHistory& place = nearestByDose(first.removal.places, static_cast<double>(here));
      for (std::size_t pass = 0; pass < passes; ++pass)
        map.depth_m[pass].push_back(static_cast<float>(place.depth_m[std::min(pass, place.depth_m.size() - 1)]));
    }
  }
  return std::make_shared<const RemovedMap>(std::move(map));
}

std::vector<Spread> depths(const RemovalResult& removal) {
  double whole_m = 0;
  for (const LayerResult& layer : removal.layers) whole_m += layer.thickness_m;
  std::vector<Spread> made;
  for (std::size_t pass = 0; pass < removal.places.front().depth_m.size(); ++pass) {
    double mean_m = 0;
    for (const PlaceHistory& place : removal.places) mean_m += place.share * place.depth_m[std::min(pass, place.depth_m.size() - 1)];
    made.push_back({0.7 * mean_m, mean_m, std::min(whole_m, 1.25 * mean_m)});
  }
  return made;
}

Ranges ranges(const Assessment& first) {
  Ranges made;
  made.samples = 200;
  made.passesNeeded = passesAbout(first.removal.passesNeeded);
  made.neverShare = first.removal.passesNeeded ? 0 : 0.62;
  const double cleared = first.removal.clearedFraction.value_or(0);
  made.clearedFraction = {0.8 * cleared, cleared, std::min(1.0, 1.1 * cleared)};
  made.heatIntoPartFraction = about(first.removal.heatIntoPartFraction.value_or(0));
  made.rate_m2_s = about(first.removal.rate_m2_s);
  made.front_C = about(first.thermal.front_C);
  made.back_C = about(first.thermal.back_C);
  made.etch_m = about(first.finish.etch_m);
  made.totalTime_s = about(first.job.totalTime_s);
  made.cost = about(first.job.cost);
  for (const LayerResult& layer : first.removal.layers)
    made.layers.push_back({passesAbout(layer.passes), about(layer.removed_m), layer.passes ? 0 : 0.62});
  if (!first.removal.places.empty()) made.depth_m = depths(first.removal);
  const Spread& passes = made.passesNeeded;
  made.influences = {{"thickness of the second layer", 0.61, {passes.low + 1, passes.middle, passes.high - 1}},
                     {"light taken up by the first layer", 0.24, {passes.low, passes.middle, passes.high - 1}}};
  return made;
}

}  // namespace

Assessment deepened(const Assessment& first) {
  Assessment made = first;
  made.ranges = ranges(first);
  if (first.map != nullptr && !first.removal.places.empty()) made.removal.map = removedMap(first);
  made.removal.stillHand = StillHand{0.31, 0.92};
  deepenHeat(made.thermal);
  for (std::size_t i = 0; i < made.removal.layers.size(); ++i) made.removal.layers[i].clearsUpTo_rad = 0.9 - 0.1 * static_cast<double>(i);
  return made;
}

Assessment threeLayers() {
  Assessment made;
  made.plan = "first guess";
  made.map = std::make_shared<const DoseMap>(DoseMap{2, 2, 1e-3, 1e-3, 0, 0, {1e4F, 2e4F, 3e4F, 4e4F}});
  made.dose = DoseResult{};
  made.profile.middle_m = 0;
  made.removal.computed = true;
  for (const auto& [name, thickness_m] : {std::pair{"cream", 10 * um}, {"grey", 20 * um}, {"red oxide", 30 * um}}) {
    LayerResult layer;
    layer.name = name;
    layer.thickness_m = thickness_m;
    made.removal.layers.push_back(layer);
  }
  made.removal.layers[2].kept = true;
  RemovedMap map{2, 2, 1e-3, 1e-3, {}};
  const std::vector<std::vector<double>> gone_um = {{0, 0, 0, 0}, {0, 5, 30, 60}, {30, 30, 30, 60}};
  for (const auto& pass : gone_um) {
    map.depth_m.emplace_back();
    for (const double depth_um : pass) map.depth_m.back().push_back(static_cast<float>(depth_um * um));
  }
  for (std::size_t cell = 0; cell < 4; ++cell) {
    PlaceHistory place;
    place.share = 0.25;
    place.dose_J_m2 = static_cast<double>(made.map->dose_J_m2[cell]);
    for (const auto& pass : gone_um) place.depth_m.push_back(pass[cell] * um);
    made.removal.places.push_back(place);
  }
  made.removal.map = std::make_shared<const RemovedMap>(std::move(map));
  made.verdict = {{"removal", "Comes off?", Status::Near, "Clear after 2 passes of 4.", ""},
                  {"temperature", "Cool enough?", Status::Near, "Tightest: paint behind.", ""},
                  {"finish", "Finish?", Status::Near, "Melts 1 µm deep.", ""},
                  {"time", "Time?", Status::Meets, "About 75 min.", ""}};
  return made;
}

std::shared_ptr<const Assessment> shared(Assessment assessment) { return std::make_shared<const Assessment>(std::move(assessment)); }

}  // namespace bw::fake
