// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/removal/column_cells.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>

namespace bw {

namespace {

void addLayer(std::vector<ColumnCell>& cells, const CoatLayer& layer, std::size_t index, double largest_m, double most) {
  const double count = std::clamp(std::ceil(layer.thickness_m / largest_m - 1e-6), 1.0, most);
  ColumnCell cell;
  cell.layer = index;
  cell.size_m = layer.thickness_m / count;
  cell.capacity_J_m2K = layer.heatCapacity_J_m3K * cell.size_m;
  cell.conductivity_W_mK = layer.heatCapacity_J_m3K * layer.diffusivity_m2_s;
  cell.leaves_J_m2 = layer.leavesAt_J_m3() * cell.size_m;
  cell.plateau_J_m2 = std::min(cell.capacity_J_m2K * layer.removalRise_K, cell.leaves_J_m2);
  cells.insert(cells.end(), static_cast<std::size_t>(count), cell);
}

void addMetal(std::vector<ColumnCell>& cells, const ColumnMetal& metal, std::size_t index, double thickness_m, const ColumnGrain& grain) {
  double size = grain.metalCell_m, left = thickness_m;
  while (left > 0) {
    ColumnCell cell;
    cell.layer = index;
    cell.size_m = left < 2 * size ? left : size;
    cell.capacity_J_m2K = metal.heatCapacity_J_m3K() * cell.size_m;
    cell.conductivity_W_mK = metal.conductivity_W_mK();
    cell.plateau_J_m2 = cell.leaves_J_m2 = std::numeric_limits<double>::infinity();
    cells.push_back(cell);
    left -= cell.size_m;
    size *= grain.metalGrowth;
  }
}

}  // namespace

std::vector<ColumnCell> columnCells(std::span<const CoatLayer> coat, const ColumnMetal& metal, double thickness_m,
                                    const ColumnGrain& grain) {
  const double whole =
      std::transform_reduce(coat.begin(), coat.end(), 0.0, std::plus<>(), [](const CoatLayer& layer) { return layer.thickness_m; });
  std::vector<ColumnCell> cells;
  for (std::size_t i = 0; i < coat.size(); ++i)
    addLayer(cells, coat[i], i, std::min(coat[i].opticalDepth_m / grain.cellsPerDepth, whole / grain.leastInCoat), grain.mostInLayer);
  addMetal(cells, metal, coat.size(), thickness_m, grain);
  return cells;
}

double lightLayer(std::span<ColumnCell> cells, const KubelkaMunk& film, double beneath) {
  for (std::size_t i = cells.size(); i-- > 0;) {
    const FilmLight light = filmOver(film, cells[i].size_m, beneath);
    cells[i].taken = 1 - light.reflectance - light.transmittance * (1 - beneath);
    cells[i].passed = light.transmittance;
    beneath = light.reflectance;
  }
  return beneath;
}

}  // namespace bw
