// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

namespace bw {

struct Work;

/// Where a check turns from meets to near to fails: our own working limits, no source, to be replaced by what shops find acceptable.
struct Thresholds {
  double near;
  double fails;
  Status judge(double value) const { return value > fails ? Status::Fails : value > near ? Status::Near : Status::Meets; }
};

/// "Even?".
VerdictRow evennessRow(const Assessment& assessment);

/// Names another process with what it takes beside what this plan takes, where it takes less or the plan does not do; begins with a blank.
std::string otherWayText(const JobResult& job, const std::string& currency, bool planFails);

/// What the planned passes leave and why, where that is worth a sentence; begins with a blank.
std::string leftText(const Work& work, const Assessment& assessment);

/// Why no setting of this beam does what is asked, in plain words; empty where that cannot be said.
std::string whyNot(const Work& work, const Assessment& assessment);

}  // namespace bw
