// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/readings/csv_table.h"

namespace bw {

/// The separator by which the lines at the beginning agree best; semicolon before tab before comma where they agree as well. A first line
/// "sep=;" decides. 0: no separator anywhere.
char separatorOf(std::string_view text);

/// Cells row by row, quotes undone (RFC 4180: "" is a quote, a quoted cell may hold separators and line ends). Rows without any text are
/// left out. Throws FileError past the limits of csv_table.h or where a quote is not closed.
std::vector<CsvRow> splitRows(std::string_view text, char separator);

}  // namespace bw
