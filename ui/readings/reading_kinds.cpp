// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/reading_kinds.h"

#include "ui/library/recipe_words.h"

#include <QCoreApplication>

#include <array>

namespace bw {
namespace {

constexpr std::array kinds = {"thickness_before_um", "thickness_after_um", "face_C",  "back_C", "passes_to_clear",
                              "spot_width_um",       "crater_depth_um",    "etch_um", "time_s"};
constexpr qsizetype longestKey = 100;  // as in a file
constexpr double absoluteZero_C = -273.15;

struct ReadingKinds {
  Q_DECLARE_TR_FUNCTIONS(ReadingKinds)
};

}  // namespace

QStringList knownReadingKinds() {
  QStringList list;
  for (const char* kind : kinds) list << words::readingKind(kind);
  return list;
}

std::string readingKindOf(const QString& words) {
  const QString typed = words.simplified();
  for (const char* kind : kinds) {
    if (typed.compare(words::readingKind(kind), Qt::CaseInsensitive) == 0) return kind;
  }
  return QString(typed).replace(QLatin1Char(' '), QLatin1Char('_')).left(longestKey).toStdString();
}

Quantity quantityOfKind(const std::string& kind) {
  const QString unit = words::unitOf(kind);
  Quantity quantity{{{unit, 1}}, 6};
  if (unit == quantities::micrometre.symbol)
    quantity.units.insert(quantity.units.end(), {{QStringLiteral("um"), 1}, {QStringLiteral("mm"), 1e3}});
  if (unit == quantities::temperature.shown().symbol) quantity.units.push_back({QStringLiteral("C"), 1});
  if (unit == quantities::duration.shown().symbol) quantity.units.push_back({QStringLiteral("min"), 60});
  return quantity;
}

QString wrongValue(const std::string& kind, double value) {
  if (kind.ends_with("_C") && value < absoluteZero_C) return ReadingKinds::tr("%1 °C lies below absolute zero.").arg(value);
  if ((kind == "passes_to_clear" || kind == "passes" || kind == "time_s") && value < 0)
    return ReadingKinds::tr("%1 of %2 is no reading; zero and more is accepted.").arg(value).arg(words::readingKind(kind));
  return {};
}

}  // namespace bw
