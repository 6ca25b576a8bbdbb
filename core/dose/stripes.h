// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/dose_result.h"
#include "core/dose/repeat_cell.h"

namespace bw {

/// Means of the map's columns (dose across the travel) and rows (along it). Throws Stopped.
std::vector<double> columnMeans(const DoseMap& map, const std::stop_token& stop = {});
std::vector<double> rowMeans(const DoseMap& map, const std::stop_token& stop = {});

/// (max - min)/(max + min) of a dose averaged one way.
double rippleOf(const std::vector<double>& means);

/// The strongest period between 0.1 and 10 mm in a periodic profile: largest Fourier amplitude over the mean. Nothing where it is below
/// 0.1 %, or where the profile is shorter than 0.1 mm. Its cause is left empty. Source: discrete Fourier series of a periodic function.
std::optional<Stripe> strongestStripe(const std::vector<double>& means, double period_m);

/// Contrast of the period advance/k that lines of a raster leave along the travel: frames of N = `lines` lines, `advance_m` apart, each
/// line `spacing_m` + advance/N beyond the one before, beating with one another: 2 |sin(pi k N s/a) / (N sin(pi k s/a))|
/// exp(-pi^2 w^2 k^2/(2 a^2)) sinc(k a_lit/a), s = spacing + advance/N; a_lit = how far the hand moves while a line is lit.
/// Source: geometric series of the lines' phases times the Gaussian's transform.
double beatContrast(int k, int lines, double spacing_m, double advance_m, double litAdvance_m, double spotRadius_m);

}  // namespace bw
