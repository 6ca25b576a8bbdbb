// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QStringList>
#include <vector>

class QCustomPlot;
class QFont;

namespace bw {

/// Columns of numbers with units in the header, written with dots, commas between, no thousands marks.
struct PlotTable {
  QStringList header;
  std::vector<std::vector<double>> rows;  // NaN is written as an empty field
};

QString csvText(const PlotTable& table);

/// What stands over an exported plot.
struct Caption {
  QString title;
  QString statement;
};

/// Writes the plot as it stands, with its caption, by the file's suffix: png (twice the screen's resolution), svg or pdf.
/// Returns false where the file cannot be written or the suffix is none of these.
bool exportPlot(QCustomPlot& plot, const Caption& caption, const QString& file);

/// Writes all of it or nothing.
bool writeText(const QString& file, const QString& text);

}  // namespace bw
