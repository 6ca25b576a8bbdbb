// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// Standard deviations either side that hold nine in ten: Student's t of so many degrees of freedom, at least 1.
double nineInTenByScatter(int degreesOfFreedom);

/// The same where the standard deviation is known: the normal distribution's 1.645.
double nineInTen();

/// A sum of squared standard residuals beyond this happens by chance in one of twenty sets.
double largestChiSquare(int degreesOfFreedom);

/// Student's t that chance exceeds, in size, once in `oneIn`.
double largestT(int degreesOfFreedom, double oneIn);

}  // namespace bw
