// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// exp(-2 v^2) at v = first, first + dv, first + 2 dv, ...: the Gaussian seen by cells of one grid row. Sixteen cells go together; their
/// ratio to the sixteen before changes by a constant factor, so each costs two multiplications.
class GaussianRun {
 public:
  explicit GaussianRun(double dv);

  /// out[i] += scale exp(-2 v_i^2), i < n.
  void add(float* out, int n, double first, double scale) const;
  /// out[i] += scale exp(-2 v_i^2) shape[i].
  void addShaped(float* out, int n, double first, double scale, const float* shape) const;

 private:
  friend struct RunPainter;
  static constexpr int lanes = 16;
  double m_dv;
  bool m_coarse;               // cells too far apart for a running product: one exponential each
  int m_block;                 // cells until the product starts anew: before rounding adds up to 4e-6
  float m_square[lanes] = {};  // exp(-2 (l dv)^2)
  float m_change[lanes] = {};  // what the step's square adds to the ratio of a lane to its next
  float m_ratioChange = 1;
};

/// out[j][i] += along[j] across[i] on a grid whose rows are `width` cells apart.
void addOuterProduct(float* out, long width, int rows, const float* along, int columns, const float* across);

}  // namespace bw
