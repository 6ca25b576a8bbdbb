// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/style/range_text.h"

#include "ui/style/format.h"
#include "ui/style/units.h"

#include <QCoreApplication>

#include <cmath>

namespace bw::format {

namespace {

constexpr double leastNever = 0.005;  // less is no word worth

struct RangeText {
  Q_DECLARE_TR_FUNCTIONS(RangeText)
};

/// Without its unit where that is the other's too, or its plural.
QString withoutUnitOf(const QString& text, const QString& other) {
  const qsizetype at = text.indexOf(noBreak), otherAt = other.indexOf(noBreak);
  if (at <= 0 || otherAt <= 0) return text;
  const QString unit = text.mid(at), otherUnit = other.mid(otherAt);
  return unit == otherUnit || unit + QStringLiteral("es") == otherUnit ? text.left(at) : text;
}

}  // namespace

QString ends(const Spread& spread, const Shown& shown) {
  const QString low = shown(spread.low);
  if (!std::isfinite(spread.high)) return RangeText::tr("%1 or more").arg(low);
  const QString high = shown(spread.high);
  return low == high ? high : RangeText::tr("%1 to %2").arg(withoutUnitOf(low, high), high);
}

QString range(const Spread& spread, const Shown& shown, double neverShare) {
  if (!std::isfinite(spread.low)) return RangeText::tr("never clears in %1 of cases").arg(percent(neverShare));
  QString text = ends(spread, shown);
  const QString last = std::isfinite(spread.high) ? shown(spread.high) : shown(spread.low);
  const bool single = std::isfinite(spread.high) && shown(spread.low) == last;
  if (!single && std::isfinite(spread.middle))
    text = RangeText::tr("%1, likely\u00a0%2").arg(text, withoutUnitOf(shown(spread.middle), last));
  return neverShare < leastNever ? text : RangeText::tr("%1; never clears in %2 of cases").arg(text, percent(neverShare));
}

QString passes(double number) {
  return format::count(number) + noBreak + (std::lround(number) == 1 ? RangeText::tr("pass") : RangeText::tr("passes"));
}

}  // namespace bw::format
