// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/spread.h"

#include <optional>
#include <string>
#include <vector>

namespace bw {

/// The strongest stripes of one direction: the period whose share of the averaged dose is greatest, between 0.1 and 10 mm.
struct Stripe {
  double period_m = 0;
  double contrast = 0;  // amplitude of that period over the mean: (max - min)/(max + min) of it alone
  std::string cause;    // in words: "lines 0.12 mm apart beating with the hand's 5.4 mm a frame"
};

/// What becomes of the evenness when swaths are not laid in step: each next one out of phase by chance, or travelled the other way.
struct OutOfStep {
  Spread cv;
  Spread missedFraction;
  Spread min_J_m2;
  Spread rippleAlong;
  double alternatingCv = 0;  // every other swath travelled back
};

/// Dose on a face that slopes across the travel: spots and swaths stretch by 1/cos(tilt), the step-over is measured on the face. The
/// change of focus over the frame's width is left out.
struct TiltedDose {
  std::string area;
  double tilt_rad = 0;
  double peakShare = 1;  // of the irradiance that a face square to the beam gets
  double cv = 0;
  double ripple = 0;
  double rippleAlong = 0;
  double missedFraction = 0;
};

struct DoseResult {
  double mean_J_m2 = 0;
  double min_J_m2 = 0;
  double max_J_m2 = 0;
  double p05_J_m2 = 0;
  double p95_J_m2 = 0;
  double cv = 0;  // standard deviation over mean
  std::optional<double> edgeRatio;
  double ripple = 0;       // of the dose averaged along the travel
  double rippleAlong = 0;  // of the dose averaged across it
  double missedFraction = 0;
  std::optional<Stripe> stripeAcross = {};  // the pattern across the travel; nothing below a contrast of 0.1 %
  std::optional<Stripe> stripeAlong = {};
  std::optional<OutOfStep> outOfStep = {};
  std::vector<TiltedDose> tilted = {};  // areas that are not square to the beam
};

}  // namespace bw
