// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/other_ways.h"

#include "core/job/work.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace bw {
namespace {

// All figures here: common practice, no source.
constexpr double minute_s = 60;
constexpr double setUpOther_s = 25 * minute_s;       // masking, protecting, cleaning up, waste
constexpr double oneGo_m = 100e-6;                   // of coat that one go takes off
constexpr double scrapePaint_s_m2 = 120 * minute_s;  // hot air and scraper, each go
constexpr double brushRust_s_m2 = 180 * minute_s;    // needle scaler and wire brush, each layer
constexpr double blastFirst_s_m2 = 60 * minute_s;
constexpr double blastMore_s_m2 = 30 * minute_s;      // each further go
constexpr double dissolve_s_m2 = 60 * minute_s;       // brushing on, taking off, washing; each go
constexpr double dissolveTough_s_m2 = 90 * minute_s;  // thermoplastics and bitumen
constexpr double soak_s = 30 * minute_s, soakTough_s = 60 * minute_s;
constexpr double blastsFlat_m = 2e-3;  // thinner sheet warps under the blast

bool isRust(const LayerMaterial& layer) { return layer.behaviour == Behaviour::Spalls; }
bool isTough(const LayerMaterial& layer) { return layer.behaviour == Behaviour::Softens; }

/// What need not stay.
std::vector<LayerMaterial> unwanted(const std::vector<LayerMaterial>& coat) {
  std::vector<LayerMaterial> layers;
  std::ranges::copy_if(coat, std::back_inserter(layers), [](const LayerMaterial& layer) { return !layer.keep; });
  return layers;
}

/// Goes of all layers that hold, thin ones together.
double goesOf(const std::vector<LayerMaterial>& layers, bool (*counts)(const LayerMaterial&)) {
  double thickness_m = 0;
  for (const LayerMaterial& layer : layers) thickness_m += counts(layer) ? layer.thickness_m.likely : 0;
  return std::ceil(thickness_m / oneGo_m);
}

OtherWay scraping(const std::vector<LayerMaterial>& layers, double area_m2) {
  OtherWay way{"scraping and wire brush", setUp_s, 0, {}, "leaves scratches"};
  const auto isPaint = [](const LayerMaterial& layer) { return !isRust(layer); };
  way.work_s += goesOf(layers, isPaint) * scrapePaint_s_m2 * area_m2;
  way.work_s += static_cast<double>(std::ranges::count_if(layers, isRust)) * brushRust_s_m2 * area_m2;
  return way;
}

OtherWay blasting(const std::vector<LayerMaterial>& layers, double area_m2) {
  const double goes = goesOf(layers, [](const LayerMaterial&) { return true; });
  return {"abrasive blasting",
          setUpOther_s + (blastFirst_s_m2 + std::max(0.0, goes - 1) * blastMore_s_m2) * area_m2,
          0,
          {},
          "roughens the metal"};
}

OtherWay dissolving(const std::vector<LayerMaterial>& layers, double area_m2) {
  OtherWay way{"solvent or paint stripper", setUpOther_s, 0, {}, "gives off vapour, burns skin and leaves waste"};
  const auto isPlain = [](const LayerMaterial& layer) { return !isTough(layer); };
  const double plain = goesOf(layers, isPlain), tough = goesOf(layers, isTough);
  way.work_s += (plain * dissolve_s_m2 + tough * dissolveTough_s_m2) * area_m2;
  way.wait_s = plain * soak_s + tough * soakTough_s;
  return way;
}

}  // namespace

std::vector<OtherWay> otherWays(const std::vector<LayerMaterial>& coat, const Part& part, double area_m2,
                                std::optional<double> hourlyCost) {
  const std::vector<LayerMaterial> layers = unwanted(coat);
  if (layers.empty() || !(area_m2 > 0)) return {};
  const bool keeps = layers.size() < coat.size(), delicate = keeps || part.finish == Finish::Untouched;
  std::vector<OtherWay> ways;
  if (std::ranges::none_of(layers, isRust)) ways.push_back(dissolving(layers, area_m2));
  if (!delicate) ways.push_back(scraping(layers, area_m2));
  if (!delicate && part.thickness_m.likely >= blastsFlat_m) ways.push_back(blasting(layers, area_m2));
  for (OtherWay& way : ways)
    if (hourlyCost) way.cost = *hourlyCost * way.work_s / 3600;
  std::ranges::stable_sort(ways, {}, &OtherWay::work_s);
  return ways;
}

}  // namespace bw
