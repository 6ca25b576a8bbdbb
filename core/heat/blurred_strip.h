// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// What arrives per metre at `at` of something laid evenly over [middle - size/2, middle + size/2] of a bar [0, length] and then diffused
/// with that variance between insulated ends; what was laid beyond the ends is lost. Of a whole that is 1. Size 0: laid on one spot. Length
/// may be infinite: no ends, negative places too. Method of images, and cosine modes once the deviation passes half the length.
double blurredShare_1_m(double at, double middle, double size, double variance, double length);

}  // namespace bw
