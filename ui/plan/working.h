// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>

namespace bw {

/// The working behind a number, or nothing where none is recorded. `key` is a check's name or a result's key, e.g. "job.total_time_s".
const Working* findWorking(const Assessment& assessment, const std::string& key);

/// Opens a popup below `anchor` with the formula in words, the values put in and the source. Escape or a click elsewhere closes it.
QWidget* openWorking(const Working& working, QWidget* anchor);

}  // namespace bw
