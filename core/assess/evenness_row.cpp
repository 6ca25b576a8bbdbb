// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/verdict_rows.h"
#include "core/text/text.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace bw {

namespace {

using namespace text;

constexpr Thresholds rippleLimits{0.15, 0.35};
constexpr Thresholds edgeLimits{1.25, 1.6};
constexpr Thresholds missedLimits{0.01, 0.05};

/// The stronger of the two stripes in words, where it can be seen.
std::string stripeText(const DoseResult& dose) {
  constexpr double visible = 0.03;  // our own working limit, no source
  const double across = dose.stripeAcross ? dose.stripeAcross->contrast : 0, along = dose.stripeAlong ? dose.stripeAlong->contrast : 0;
  if (std::max(across, along) < visible) return "";
  const Stripe& stripe = across > along ? *dose.stripeAcross : *dose.stripeAlong;
  return " Stripes every " + length(stripe.period_m) + (across > along ? " across the travel, from " : " along the travel, from ") +
         stripe.cause + ".";
}

std::string thereAndBackText(const DoseResult& dose) {
  if (!dose.outOfStep || dose.outOfStep->alternatingCv < std::max(1.3 * dose.cv, dose.cv + 0.1)) return "";
  return " Swaths travelled there and back spread the dose by " + percent(dose.outOfStep->alternatingCv) + " instead of " +
         percent(dose.cv) + ": travel them all one way.";
}

/// What one of the measures of evenness says.
struct EvenFinding {
  Status status;
  std::string sentence;
};

constexpr double leastRipple = 0.005, leastMissed = 0.0005;  // less is not told

std::string rippleText(double across, double along) {
  const std::string even = " (even below " + percent(rippleLimits.near) + ")";
  if (std::max(across, along) < leastRipple) return "Even across the swaths and along the travel.";
  if (across < leastRipple) return "Even across the swaths, ripple along the travel " + percent(along) + even + ".";
  if (along < leastRipple) return "Ripple across the swaths " + percent(across) + even + ", even along the travel.";
  return "Ripple across the swaths " + percent(across) + ", along the travel " + percent(along) + even + ".";
}

/// Nobody lays swaths in step: what comes of it in the middle of all ways they may fall.
DoseResult asLaid(DoseResult dose) {
  if (!dose.outOfStep) return dose;
  dose.rippleAlong = dose.outOfStep->rippleAlong.middle;
  dose.missedFraction = dose.outOfStep->missedFraction.middle;
  return dose;
}

/// Where it matters that swaths may fall in step all the same.
std::string inStepText(const DoseResult& inStep, const DoseResult& laid) {
  const bool matters =
      rippleLimits.judge(inStep.rippleAlong) != rippleLimits.judge(laid.rippleAlong) && inStep.rippleAlong > laid.rippleAlong;
  return matters ? " Where swaths happen to fall in step the ripple along the travel is " + percent(inStep.rippleAlong) + "." : "";
}

/// The worst first; measures that come to nothing are left out.
std::vector<EvenFinding> evenFindings(const DoseResult& dose) {
  std::vector<EvenFinding> findings{
      {rippleLimits.judge(std::max(dose.ripple, dose.rippleAlong)), rippleText(dose.ripple, dose.rippleAlong)}};
  if (dose.edgeRatio && std::abs(*dose.edgeRatio - 1) >= 0.005)
    findings.push_back({edgeLimits.judge(*dose.edgeRatio), "Swath edges get " + number(*dose.edgeRatio, 3) + " times the middle."});
  if (dose.missedFraction >= leastMissed)
    findings.push_back(
        {missedLimits.judge(dose.missedFraction), percent(dose.missedFraction) + " of the surface gets less than half the mean."});
  std::ranges::stable_sort(findings, std::ranges::greater(), [](const EvenFinding& finding) { return severity(finding.status); });
  return findings;
}

}  // namespace

VerdictRow evennessRow(const Assessment& assessment) {
  const std::string why = assessment.whyNoDose.empty() ? "no steady dose" : assessment.whyNoDose;
  VerdictRow row{"evenness", "Even?", Status::NotKnown, "Not known: " + why + ".", ""};
  if (!assessment.dose || !(assessment.dose->mean_J_m2 > 0)) return row;
  row.status = Status::Meets;
  row.message.clear();
  const DoseResult laid = asLaid(*assessment.dose);
  for (const EvenFinding& finding : evenFindings(laid)) {
    row.status = worseOf(row.status, finding.status);
    row.message += (row.message.empty() ? "" : " ") + finding.sentence;
  }
  if (row.status != Status::Meets) row.message += stripeText(*assessment.dose);
  row.message += inStepText(*assessment.dose, laid) + thereAndBackText(*assessment.dose);
  if (row.status != Status::Meets) row.remedy = "Another step-over, edge trim, line spacing or travel speed.";
  return row;
}

}  // namespace bw
