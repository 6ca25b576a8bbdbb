// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/dose/stripes.h"

#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw {

namespace {

constexpr double shortest_m = 0.1e-3;
constexpr double longest_m = 10e-3;
constexpr double faintest = 1e-3;
using std::numbers::pi;

double sinc(double x) { return x == 0 ? 1 : std::sin(pi * x) / (pi * x); }

}  // namespace

std::vector<double> columnMeans(const DoseMap& map, const std::stop_token& stop) {
  std::vector<double> means(static_cast<std::size_t>(map.columns), 0);
  const float* value = map.dose_J_m2.data();
  for (int row = 0; row < map.rows; ++row) {
    throwIfStopped(stop);
    for (double& mean : means) mean += static_cast<double>(*value++);
  }
  for (double& mean : means) mean /= map.rows;
  return means;
}

std::vector<double> rowMeans(const DoseMap& map, const std::stop_token& stop) {
  std::vector<double> means;
  for (int row = 0; row < map.rows; ++row) {
    throwIfStopped(stop);
    const float* first = map.dose_J_m2.data() + static_cast<std::size_t>(row) * static_cast<std::size_t>(map.columns);
    double sums[4] = {};  // that need not wait for each other
    for (int column = 0; column < map.columns; ++column) sums[column & 3] += static_cast<double>(first[column]);
    means.push_back((sums[0] + sums[1] + sums[2] + sums[3]) / map.columns);
  }
  return means;
}

double rippleOf(const std::vector<double>& means) {
  const auto [least, most] = std::ranges::minmax_element(means);
  return *most + *least > 0 ? (*most - *least) / (*most + *least) : 0;
}

std::optional<Stripe> strongestStripe(const std::vector<double>& means, double period_m) {
  const auto highest = std::min(std::floor(period_m / shortest_m * (1 + 1e-9)), std::floor(static_cast<double>(means.size()) / 2));
  if (highest < 1) return std::nullopt;
  std::vector<std::complex<double>> spectrum;
  Eigen::FFT<double>().fwd(spectrum, means);
  const double total = spectrum[0].real();
  std::optional<Stripe> strongest;
  for (double k = std::max(1.0, std::ceil(period_m / longest_m * (1 - 1e-9))); k <= highest; ++k) {
    const double contrast = total > 0 ? 2 * std::abs(spectrum[static_cast<std::size_t>(k)]) / total : 0;
    if (contrast > (strongest ? strongest->contrast : faintest)) strongest = Stripe{period_m / k, contrast, ""};
  }
  return strongest;
}

double beatContrast(int k, int lines, double spacing_m, double advance_m, double litAdvance_m, double spotRadius_m) {
  const double phase = pi * k * (spacing_m / advance_m + 1.0 / lines), below = lines * std::sin(phase);
  const double sum = std::abs(below) < 1e-12 ? 1 : std::abs(std::sin(lines * phase) / below);
  const double blur = std::exp(-pi * pi * spotRadius_m * spotRadius_m * k * k / (2 * advance_m * advance_m));
  return 2 * sum * blur * std::abs(sinc(k * litAdvance_m / advance_m));
}

}  // namespace bw
