// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/removal/coat_layer.h"
#include "core/removal/column_metal.h"

#include <span>
#include <vector>

namespace bw {

/// One cell of a column, a slice of the coat or of the metal.
struct ColumnCell {
  std::size_t layer = 0;  // of the coat, from the top; the number of layers is the metal
  double size_m = 0;
  double capacity_J_m2K = 0;     // cold
  double conductivity_W_mK = 0;  // cold
  double plateau_J_m2 = 0;       // held when the temperature stops rising; infinite in the metal
  double leaves_J_m2 = 0;        // held when it goes; infinite in the metal
  double taken = 0;              // of light that arrives at its face, what it takes up
  double passed = 0;             // of the same, what arrives at the next cell's face, bounces included
};

/// How finely a column is cut.
struct ColumnGrain {
  double cellsPerDepth = 6;  // to the optical depth of a layer
  double leastInCoat = 30;
  double mostInLayer = 60;
  double metalCell_m = 4e-6;  // of the metal's first cell
  double metalGrowth = 1.5;   // of each to the next
};

/// Cells from the top of the coat down to the back of the part, dark.
std::vector<ColumnCell> columnCells(std::span<const CoatLayer> coat, const ColumnMetal& metal, double thickness_m,
                                    const ColumnGrain& grain);

/// Divides light among the cells of one layer, over what sends back the share `beneath`: each a Kubelka-Munk film over all beneath it,
/// so that a layer's cells together do what the layer does in CoatLight. Returns the share that the layer with all beneath it sends back.
double lightLayer(std::span<ColumnCell> cells, const KubelkaMunk& film, double beneath);

}  // namespace bw
