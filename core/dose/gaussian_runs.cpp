// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/gaussian_runs.h"

#include <algorithm>
#include <cmath>
#include <cstring>

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define BW_WIDE_VECTORS __attribute__((target_clones("avx2", "default")))  // picked when the program starts
#else
#define BW_WIDE_VECTORS
#endif

namespace bw {

namespace {

using Lanes = float __attribute__((vector_size(32)));

inline __attribute__((always_inline)) void load(Lanes& to, const float* from) { std::memcpy(&to, from, sizeof to); }
inline __attribute__((always_inline)) void store(float* to, const Lanes& from) { std::memcpy(to, &from, sizeof from); }

/// What one stretch of cells starts with: sixteen lanes in two halves, side by side so that neither waits for the other.
struct Start {
  Lanes value[2];
  Lanes ratio[2];
};

enum class Way { Add, Shaped };

template <Way way>
inline __attribute__((always_inline)) void put(float* out, Lanes cells, const float* shape) {
  if constexpr (way == Way::Shaped) {
    Lanes factor;
    load(factor, shape);
    cells *= factor;
  }
  Lanes before;
  load(before, out);
  store(out, before + cells);
}

template <Way way>
inline __attribute__((always_inline)) void paint(float* out, int n, const Start& start, float change, const float* shape) {
  Lanes low = start.value[0], high = start.value[1], lowRatio = start.ratio[0], highRatio = start.ratio[1];
  int i = 0;
  for (; i + 16 <= n; i += 16) {
    put<way>(out + i, low, shape + i);
    put<way>(out + i + 8, high, shape + i + 8);
    low *= lowRatio;
    high *= highRatio;
    lowRatio *= change;
    highRatio *= change;
  }
  if (i + 8 <= n) {
    put<way>(out + i, low, shape + i);
    low = high;
    i += 8;
  }
  for (int l = 0; i < n; ++i, ++l) out[i] += low[l] * (way == Way::Shaped ? shape[i] : 1.0F);
}

BW_WIDE_VECTORS void paintAdd(float* out, int n, const Start* start, float change) { paint<Way::Add>(out, n, *start, change, out); }
BW_WIDE_VECTORS void paintShaped(float* out, int n, const Start* start, float change, const float* shape) {
  paint<Way::Shaped>(out, n, *start, change, shape);
}

BW_WIDE_VECTORS void outerProduct(float* out, long width, int rows, const float* along, int columns, const float* across) {
  for (int j = 0; j < rows; ++j, out += width) {
    const float scale = along[j];
    int i = 0;
    for (; i + 8 <= columns; i += 8) {
      Lanes cells, spot;
      load(cells, out + i);
      load(spot, across + i);
      cells += spot * scale;
      store(out + i, cells);
    }
    for (; i < columns; ++i) out[i] += across[i] * scale;
  }
}

}  // namespace

/// Sets up the lanes at a place and goes over the cells block by block.
struct RunPainter {
  const GaussianRun& run;

  Start at(double v, double scale) const {
    const double a = std::exp(-4 * v * run.m_dv), a2 = a * a, a4 = a2 * a2, a8 = a4 * a4;
    const double value = scale * std::exp(-2 * v * v);
    const auto ratio = static_cast<float>(a8 * a8);
    const double powers[8] = {1, a, a2, a2 * a, a4, a4 * a, a4 * a2, a4 * a2 * a};
    const double half[2] = {value, value * a8};
    Start start;
    for (int h = 0; h < 2; ++h) {
      for (int l = 0; l < 8; ++l) {
        start.value[h][l] = static_cast<float>(half[h] * powers[l]) * run.m_square[8 * h + l];
        start.ratio[h][l] = ratio * run.m_change[8 * h + l];
      }
    }
    return start;
  }

  template <class Paint, class One>
  void over(int n, double first, double scale, Paint paintBlock, One paintOne) const {
    for (int i = 0; i < n && run.m_coarse; ++i) {
      const double v = first + i * run.m_dv;
      paintOne(i, static_cast<float>(scale * std::exp(-2 * v * v)));
    }
    for (int i = 0; i < n && !run.m_coarse; i += run.m_block) {
      const Start start = at(first + i * run.m_dv, scale);
      paintBlock(i, std::min(run.m_block, n - i), &start);
    }
  }
};

GaussianRun::GaussianRun(double dv) : m_dv(dv), m_coarse(std::abs(dv) > 0.25), m_block(dv == 0 ? 1 << 30 : 256) {
  const double square = dv * dv;
  for (int l = 0; l < lanes && !m_coarse; ++l) {
    m_square[l] = static_cast<float>(std::exp(-2 * square * l * l));
    m_change[l] = static_cast<float>(std::exp(-2 * square * (2 * lanes * l + lanes * lanes)));
  }
  m_ratioChange = static_cast<float>(std::exp(-4 * square * lanes * lanes));
}

void GaussianRun::add(float* out, int n, double first, double scale) const {
  RunPainter{*this}.over(
      n, first, scale, [&](int i, int count, const Start* start) { paintAdd(out + i, count, start, m_ratioChange); },
      [&](int i, float value) { out[i] += value; });
}

void GaussianRun::addShaped(float* out, int n, double first, double scale, const float* shape) const {
  RunPainter{*this}.over(
      n, first, scale, [&](int i, int count, const Start* start) { paintShaped(out + i, count, start, m_ratioChange, shape + i); },
      [&](int i, float value) { out[i] += value * shape[i]; });
}

void addOuterProduct(float* out, long width, int rows, const float* along, int columns, const float* across) {
  outerProduct(out, width, rows, along, columns, across);
}

}  // namespace bw
