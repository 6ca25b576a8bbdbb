// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

/// The innermost loops of CellBlock, over one row of cells each. Rows never overlap.
namespace bw::cell_rows {

/// What conduction brings a row's cells, five potentials both ways.
struct Conduction {
  const double* here;
  std::ptrdiff_t stride;
  double ax, ay;

  double at(std::ptrdiff_t i) const {
    const double* p = here + i;
    const double across = 16 * (p[-1] + p[1]) - (p[-2] + p[2]) - 30 * p[0];
    const double along = 16 * (p[-stride] + p[stride]) - (p[-2 * stride] + p[2 * stride]) - 30 * p[0];
    return ax * across + ay * along;
  }
};

/// dh/dt of a row.
inline void rate(const Conduction& conduction, const double* __restrict source, const double* __restrict loss, int count,
                 double* __restrict out) {
  for (int i = 0; i < count; ++i) out[i] = source[i] - loss[i] + conduction.at(i);
}

/// A further stage of a row; `older` becomes the stage after `now`.
struct Mix {
  double rest, mu, nu, tilde, gamma;
};
inline void mix(const Mix& m, const Conduction& conduction, const double* __restrict source, const double* __restrict loss,
                const double* __restrict state, const double* __restrict first, const double* __restrict now, int count,
                double* __restrict older) {
  for (int i = 0; i < count; ++i)
    older[i] =
        m.rest * state[i] + m.mu * now[i] + m.nu * older[i] + m.gamma * first[i] + m.tilde * (source[i] - loss[i] + conduction.at(i));
}

/// Two straight lines of a row's enthalpies.
inline void follow(const double* __restrict h, const double* __restrict a, const double* __restrict perA, const double* __restrict b,
                   const double* __restrict perB, int count, double* __restrict potential, double* __restrict loss) {
  for (int i = 0; i < count; ++i) {
    potential[i] = a[i] + perA[i] * h[i];
    loss[i] = b[i] + perB[i] * h[i];
  }
}

}  // namespace bw::cell_rows
