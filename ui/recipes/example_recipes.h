// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"
#include "ui/runner/assessment_runner.h"

#include <QString>

namespace bw {

/// Invented recipes of the sample projects in that folder: predictions are the model's, what was tried and measured is made up and says so.
/// Takes some seconds; call it off the interface's thread.
void fillWithInvented(LibraryStore& store, const QString& sampleFolder, const AssessmentRunner::Model& model);

}  // namespace bw
