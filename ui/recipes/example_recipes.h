// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/library_store.h"

#include <QString>

namespace bw {

/// Invented recipes of the sample projects in that folder: what is predicted is reckoned, what was tried and measured is made up and says
/// so. Takes some seconds; call it off the interface's thread.
void fillWithInvented(LibraryStore& store, const QString& sampleFolder);

}  // namespace bw
