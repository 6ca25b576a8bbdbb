// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/readings/csv_study.h"

#include <QStringList>

namespace bw::words {

/// A cell as it was understood, in the program's own unit: "62.5 µm", "21 °C", "14:05:00", "90 s".
QString understood(double value, const ColumnMapping& column);

/// "thickness before: 24 readings, mean 62.5 µm, spread 1.3 µm (standard deviation), 60 to 65 µm".
QString summary(const ReadingSummary& summary);
/// "back face, highest: 104 °C, 2 min 5 s after the log began, of 1200 values".
QString peak(const SeriesPeak& peak);

QString separator(char separator);
QString decimalMark(char mark);
QString encoding(Encoding encoding);
QString unit(CsvUnit unit);

}  // namespace bw::words
