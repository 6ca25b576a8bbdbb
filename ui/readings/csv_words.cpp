// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/csv_words.h"

#include "ui/fields/quantity_text.h"
#include "ui/library/recipe_words.h"
#include "ui/style/format.h"
#include "ui/style/units.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QTime>
#include <QTimeZone>

#include <cmath>

namespace bw::words {
namespace {

struct CsvWords {
  Q_DECLARE_TR_FUNCTIONS(CsvWords)
};

QString digits(double value) { return writeQuantity(Range::exact(value), quantities::count); }

QString inUnitOf(const std::string& kind, double value) {
  const QString unit = unitOf(kind);
  return unit.isEmpty() ? digits(value) : digits(value) + noBreak + unit;
}

}  // namespace

QString understood(double value, const ColumnMapping& column) {
  switch (column.meaning) {
    case ColumnMeaning::Thickness:
      return digits(value * 1e6) + noBreak + QStringLiteral("µm");
    case ColumnMeaning::Temperature:
      return digits(value) + noBreak + QStringLiteral("°C");
    case ColumnMeaning::Time:
      if (column.unit == CsvUnit::Clock)
        return QTime::fromMSecsSinceStartOfDay(static_cast<int>(std::lround(value * 1e3))).toString(Qt::ISODate);
      if (column.unit == CsvUnit::DateTime)
        return QDateTime::fromMSecsSinceEpoch(std::llround(value * 1e3), QTimeZone::utc()).toString(QStringLiteral("yyyy-MM-dd HH:mm:ss"));
      return digits(value) + noBreak + QStringLiteral("s");
    case ColumnMeaning::Ignored:
      break;
  }
  return {};
}

QString summary(const ReadingSummary& summary) {
  const QString kind = readingKind(summary.kind);
  if (summary.count == 1) return CsvWords::tr("%1: one reading, %2").arg(kind, inUnitOf(summary.kind, summary.mean));
  return CsvWords::tr("%1: %2 readings, mean %3, spread %4 (standard deviation), from %5 to %6")
      .arg(kind)
      .arg(summary.count)
      .arg(inUnitOf(summary.kind, summary.mean), format::number(summary.deviation.value_or(0)), digits(summary.least),
           inUnitOf(summary.kind, summary.most));
}

QString peak(const SeriesPeak& peak) {
  return CsvWords::tr("%1: %2, %3\u00a0s after the log began; the highest of %4 values")
      .arg(readingKind(peak.kind), inUnitOf(peak.kind, peak.temperature_C), digits(peak.time_s))
      .arg(peak.count);
}

QString separator(char separator) {
  switch (separator) {
    case ';':
      return CsvWords::tr("semicolon");
    case ',':
      return CsvWords::tr("comma");
    case '\t':
      return CsvWords::tr("tab");
    default:
      return CsvWords::tr("none, one column");
  }
}

QString decimalMark(char mark) { return mark == ',' ? CsvWords::tr("comma (62,5)") : CsvWords::tr("point (62.5)"); }

QString encoding(Encoding encoding) {
  switch (encoding) {
    case Encoding::Utf8:
      return QStringLiteral("UTF-8");
    case Encoding::Latin1:
      return QStringLiteral("Latin-1");
    case Encoding::Utf16Little:
      return QStringLiteral("UTF-16 LE");
    case Encoding::Utf16Big:
      break;
  }
  return QStringLiteral("UTF-16 BE");
}

QString unit(CsvUnit unit) {
  if (unit == CsvUnit::Clock) return CsvWords::tr("time of day");
  if (unit == CsvUnit::DateTime) return CsvWords::tr("date and time");
  return QString::fromUtf8(symbolOf(unit));
}

}  // namespace bw::words
