// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/learn/quantiles.h"

#include <gsl/gsl_cdf.h>

namespace bw {

double nineInTenByScatter(int degreesOfFreedom) { return gsl_cdf_tdist_Pinv(0.95, degreesOfFreedom); }

double nineInTen() { return gsl_cdf_ugaussian_Pinv(0.95); }

double largestChiSquare(int degreesOfFreedom) { return gsl_cdf_chisq_Pinv(0.95, degreesOfFreedom); }

double largestT(int degreesOfFreedom, double oneIn) { return gsl_cdf_tdist_Qinv(0.5 / oneIn, degreesOfFreedom); }

}  // namespace bw
