// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/remaining.h"

#include "ui/style/format.h"
#include "ui/style/hatch.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

namespace bw {

namespace {

struct Remaining {
  Q_DECLARE_TR_FUNCTIONS(Remaining)
};

const Layer* layerOf(const LayerResult& result, const Project& project) {
  const auto found = std::ranges::find(project.coat, result.name, &Layer::name);
  return found == project.coat.end() ? nullptr : &*found;
}

int cellAt(double value_m, double cell_m, int cells) { return std::clamp(static_cast<int>(value_m / cell_m), 0, cells - 1); }

double clearShareOf(const std::vector<float>& depths_m, const std::vector<LayerResult>& layers) {
  double unkept_m = 0, bottom_m = 0;  // where the lowest layer ends that should come off
  for (const LayerResult& layer : layers) {
    bottom_m += layer.thickness_m;
    if (!layer.kept) unkept_m = bottom_m;
  }
  const auto clear = std::ranges::count_if(depths_m, [=](float depth_m) { return static_cast<double>(depth_m) > unkept_m - gone_m; });
  return static_cast<double>(clear) / static_cast<double>(std::max<std::size_t>(1, depths_m.size()));
}

}  // namespace

std::optional<TopLayer> topLayerBelow(const std::vector<LayerResult>& layers, double depth_m) {
  double bottom_m = 0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    bottom_m += layers[i].thickness_m;
    if (depth_m < bottom_m - gone_m) return TopLayer{i, std::min(layers[i].thickness_m, bottom_m - depth_m)};
  }
  return std::nullopt;
}

const PlaceHistory* nearestPlace(const Assessment& assessment, const PickedPlace& place) {
  const DoseMap* map = assessment.map.get();
  const auto& places = assessment.removal.places;
  if (map == nullptr || map->dose_J_m2.empty() || places.empty()) return nullptr;
  const double dose = static_cast<double>(
      map->at(cellAt(place.across_m, map->cellAcross_m, map->columns), cellAt(place.along_m, map->cellAlong_m, map->rows)));
  return &*std::ranges::min_element(places, {}, [dose](const PlaceHistory& one) { return std::abs(one.dose_J_m2 - dose); });
}

double depthIn(const RemovedMap& map, const PickedPlace& place, std::size_t pass) {
  const auto column = static_cast<std::size_t>(cellAt(place.across_m, map.cellAcross_m, map.columns));
  const auto row = static_cast<std::size_t>(cellAt(place.along_m, map.cellAlong_m, map.rows));
  return static_cast<double>(map.depth_m[pass][row * static_cast<std::size_t>(map.columns) + column]);
}

std::optional<double> depthAt(const Assessment& assessment, const PickedPlace& place, int pass) {
  const auto after = static_cast<std::size_t>(std::max(0, pass));
  if (const RemovedMap* map = assessment.removal.map.get(); map != nullptr && after < map->depth_m.size())
    return depthIn(*map, place, after);
  const PlaceHistory* nearest = nearestPlace(assessment, place);
  if (nearest == nullptr || nearest->depth_m.empty()) return std::nullopt;
  return nearest->depth_m[std::min(after, nearest->depth_m.size() - 1)];
}

std::optional<double> meanDepth(const RemovalResult& removal, int pass) {
  double sum_m = 0, shares = 0;
  for (const PlaceHistory& place : removal.places) {
    if (place.depth_m.empty()) continue;
    sum_m += place.share * place.depth_m[std::min(static_cast<std::size_t>(std::max(0, pass)), place.depth_m.size() - 1)];
    shares += place.share;
  }
  return shares > 0 ? std::optional(sum_m / shares) : std::nullopt;
}

double clearShare(const RemovalResult& removal, int pass) {
  const auto after = static_cast<std::size_t>(std::max(0, pass));
  if (!removal.clearedAfter.empty()) return removal.clearedAfter[std::min(after, removal.clearedAfter.size() - 1)];
  if (removal.map != nullptr && after < removal.map->depth_m.size()) return clearShareOf(removal.map->depth_m[after], removal.layers);
  double share = 0, all = 0;
  for (const PlaceHistory& place : removal.places) {
    all += place.share;
    if (place.passesToClear && *place.passesToClear <= pass) share += place.share;
  }
  return all > 0 ? share / all : 0;
}

int passesShown(const Assessment* assessment) {
  std::size_t points = 1;
  if (assessment != nullptr) {
    for (const PlaceHistory& place : assessment->removal.places) points = std::max(points, place.depth_m.size());
  }
  return static_cast<int>(points) - 1;
}

QString passWords(int pass) { return pass == 0 ? Remaining::tr("before the first pass") : Remaining::tr("after pass %1").arg(pass); }

QString topWords(const std::vector<LayerResult>& layers, double depth_m) {
  const auto top = topLayerBelow(layers, depth_m);
  if (!top) return Remaining::tr("bare metal");
  const LayerResult& layer = layers[top->index];
  const QString name = QString::fromStdString(layer.name) + (layer.kept ? Remaining::tr(" (stays)") : QString());
  if (layer.thickness_m - top->left_m < gone_m) return Remaining::tr("%1, untouched").arg(name);
  const QString whole = format::micrometres(layer.thickness_m);
  return Remaining::tr("%1, %2 of %3 left").arg(name, format::number(top->left_m * 1e6), whole);
}

QString leftWords(const std::vector<LayerResult>& layers, double depth_m) {
  const auto top = topLayerBelow(layers, depth_m);
  QStringList under;
  for (std::size_t i = top ? top->index + 1 : layers.size(); i < layers.size(); ++i) under << QString::fromStdString(layers[i].name);
  const QString text = topWords(layers, depth_m);
  return under.isEmpty() ? text : Remaining::tr("%1; under it %2").arg(text, under.join(QStringLiteral(", ")));
}

QColor colourOf(const LayerResult& layer, const Project& project) {
  const Layer* found = layerOf(layer, project);
  return found != nullptr ? layerColour(*found, project.library) : QColor("#9a9fa2");
}

Behaviour behaviourOf(const LayerResult& layer, const Project& project) {
  const Layer* found = layerOf(layer, project);
  return found != nullptr ? behaviourOf(*found, project.library) : Behaviour::Decomposes;
}

QColor metalColour(const Tones& tones) { return blend(tones.sheet, tones.quiet, 0.28); }

}  // namespace bw
