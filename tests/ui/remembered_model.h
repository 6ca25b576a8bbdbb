// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/runner/assessment_runner.h"

namespace bw::test {

/// The shipped model, which answers what it was asked before from memory, in this run of the program: the same window in another theme or
/// size need not be calculated anew.
AssessmentRunner::Model rememberedModel();

/// An assessment and remedies drawn by hand, whatever is asked; in the long form the remembered model. For what looks or clicks and does not
/// read numbers.
AssessmentRunner::Model pictureModel();

}  // namespace bw::test
