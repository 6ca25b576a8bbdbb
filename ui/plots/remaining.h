// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"
#include "core/values/project.h"
#include "ui/plots/picked_place.h"
#include "ui/style/theme.h"

namespace bw {

// What the passes leave of the coat: looked up in the results, and put into words.

inline constexpr double gone_m = 1e-9;  // less than this left of a layer is a rounding of its depth

/// The layer on top once so much is gone, counted from the top, and what is left of it; nothing on bare metal.
struct TopLayer {
  std::size_t index = 0;
  double left_m = 0;
};
std::optional<TopLayer> topLayerBelow(const std::vector<LayerResult>& layers, double depth_m);

/// The class of place whose dose is nearest to that of the place.
const PlaceHistory* nearestPlace(const Assessment& assessment, const PickedPlace& place);

/// Coat gone at a place of the map. Precondition: the map knows the pass.
double depthIn(const RemovedMap& map, const PickedPlace& place, std::size_t pass);

/// Coat gone at a place after a pass: from the map of what remains as far as it goes, else as at the class of nearest dose.
std::optional<double> depthAt(const Assessment& assessment, const PickedPlace& place, int pass);

/// Mean over the classes of place.
std::optional<double> meanDepth(const RemovalResult& removal, int pass);

/// Share of the surface that is clear of all that should come off, of the places of all doses: the same that the verdict tells of.
double clearShare(const RemovalResult& removal, int pass);

/// How many passes the results can show.
int passesShown(const Assessment* assessment);

/// "after pass 2", "before the first pass".
QString passWords(int pass);

/// "cream 12 of 28 µm left, then grey, white"; "bare metal".
QString leftWords(const std::vector<LayerResult>& layers, double depth_m);

/// "cream, 12 of 28 µm left".
QString topWords(const std::vector<LayerResult>& layers, double depth_m);

/// The colour of each layer of the result: the paint's own where the project has a layer of that name.
QColor colourOf(const LayerResult& layer, const Project& project);
Behaviour behaviourOf(const LayerResult& layer, const Project& project);

/// What stands for bare metal in drawings of the coat.
QColor metalColour(const Tones& tones);

}  // namespace bw
