// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/export.h"
#include "core/exchange/import_apply.h"

#include <string>

namespace bw {

/// What an import would do or did, as the command line prints it. `outcome` is empty where nothing was done. What is identical is counted,
/// the rest is named; what differs stands in two columns.
std::string importTable(const ImportPlan& plan, const std::optional<ImportOutcome>& outcome);
std::string importJson(const ImportPlan& plan, const std::optional<ImportOutcome>& outcome);

/// What went into a bundle.
std::string exportTable(const ExportResult& result, const std::string& where);
std::string exportJson(const ExportResult& result, const std::string& where);

}  // namespace bw
