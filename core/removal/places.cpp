// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/places.h"

#include "core/values/stopped.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <numeric>
#include <random>

namespace bw {

namespace {

constexpr double leastShare = 0.01;

PassHits drawnPass(const HitFinder& finder, int draw, const PassesByChance& all) {
  constexpr double across = 0.7548776662466927, along = 0.5698402909980532;  // of the R2 sequence
  const auto whereIn = [draw](double step, double period) { return std::fmod(0.5 + step * draw, 1.0) * period; };
  const std::uint32_t seed = all.seed + static_cast<std::uint32_t>(draw);
  const PassChance chance{seed, Wander(all.speedWander, seed), all.linePitch_m};
  const RepeatCell& cell = finder.cell();
  return std::make_shared<const std::vector<Hit>>(finder.at(Point(whereIn(across, cell.across_m), whereIn(along, cell.along_m)), &chance));
}

void shuffle(std::vector<std::size_t>& order, std::mt19937& random) {  // the same on every machine
  for (std::size_t i = order.size(); i-- > 1;) std::swap(order[i], order[random() % (i + 1)]);
}

PassHits withoutFaint(const PassHits& hits) {
  constexpr std::size_t many = 300;
  constexpr double faint = 0.01;
  if (hits->size() < many) return hits;
  const double least = faint * std::ranges::max_element(*hits, {}, &Hit::fluence_J_m2)->fluence_J_m2;
  std::vector<Hit> strong;
  std::ranges::copy_if(*hits, std::back_inserter(strong), [&](const Hit& hit) { return hit.fluence_J_m2 >= least; });
  const double scale = doseOf(*hits) / doseOf(strong);
  for (Hit& hit : strong) hit.fluence_J_m2 *= scale;
  return std::make_shared<const std::vector<Hit>>(std::move(strong));
}

}  // namespace

void dropFaintHits(std::vector<Place>& places) {
  std::map<const std::vector<Hit>*, PassHits> kept;
  for (Place& place : places) {
    for (PassHits& hits : place.passes) {
      PassHits& known = kept[hits.get()];
      if (!known) known = withoutFaint(hits);
      hits = known;
    }
  }
}

Place sameEachPass(std::vector<Hit> hits) { return {1, doseOf(hits), {std::make_shared<const std::vector<Hit>>(std::move(hits))}}; }

std::vector<Place> placesByChance(const HitFinder& finder, int count, const PassesByChance& chance, std::stop_token stop,
                                  const Crew& crew) {
  std::vector<PassHits> draws(static_cast<std::size_t>(count));
  std::vector<double> doses(draws.size());
  crew.share(draws.size(), [&](std::size_t draw) {
    throwIfStopped(stop);
    draws[draw] = drawnPass(finder, static_cast<int>(draw), chance);
    doses[draw] = doseOf(*draws[draw]);
  });
  std::vector<Place> places(draws.size());
  std::vector<std::size_t> order(draws.size());
  std::iota(order.begin(), order.end(), 0);
  std::mt19937 random(chance.seed);
  const int counted = std::clamp(chance.passes, 1, drawsUntilAgain);
  for (int pass = 0; pass < drawsUntilAgain; ++pass) {
    if (pass > 0) shuffle(order, random);
    for (std::size_t i = 0; i < places.size(); ++i) {
      places[i].share = 1.0 / count;
      places[i].passes.push_back(draws[order[i]]);
      if (pass < counted) places[i].dose_J_m2 += doses[order[i]] / counted;
    }
  }
  std::ranges::stable_sort(places, {}, &Place::dose_J_m2);
  return places;
}

std::vector<Place> classesOf(const std::vector<Place>& places, int classes) {
  const auto count = static_cast<double>(places.size());
  const auto at = [&](double middle, double share) {
    Place place = places[static_cast<std::size_t>(std::min(count - 1, middle * count))];
    place.share = share;
    return place;
  };
  std::vector<Place> chosen = {at(leastShare / 2, leastShare)};
  const double share = (1 - leastShare) / classes;
  for (int i = 0; i < classes; ++i) chosen.push_back(at(leastShare + (i + 0.5) * share, share));
  return chosen;
}

}  // namespace bw
