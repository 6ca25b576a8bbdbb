// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/readings/csv_table.h"
#include "core/readings/csv_units.h"

#include <string>
#include <vector>

namespace bw {

/// What the person says the file is; helps where no header does.
enum class CsvPurpose { Unknown, Thickness, Temperature };

enum class ColumnMeaning { Ignored, Time, Thickness, Temperature };

/// What is made of one column. A caller may change meaning, unit and kind.
struct ColumnMapping {
  std::string header;
  ColumnMeaning meaning = ColumnMeaning::Ignored;
  CsvUnit unit = CsvUnit::None;
  std::string kind;   // of the reading: thickness_before_um, thickness_after_um, face_C, back_C; empty for time
  std::string why;    // in words, also for what is ignored
  bool sure = false;  // false: the person should look at it
};

/// Proposes what each column means, by header and unit, else by what stands in it. At most one column is the time.
std::vector<ColumnMapping> proposeColumns(const CsvTable& table, CsvPurpose purpose = CsvPurpose::Unknown);

}  // namespace bw
