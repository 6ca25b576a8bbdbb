// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/quantity_text.h"

#include <QCoreApplication>
#include <QLocale>
#include <QRegularExpression>

#include <algorithm>
#include <cmath>

namespace bw {
namespace {

struct QuantityWords {
  Q_DECLARE_TR_FUNCTIONS(QuantityWords)
};

QString numberText(double value, int digits) {
  QLocale locale;
  locale.setNumberOptions(QLocale::OmitGroupSeparator);
  const double size = std::abs(value);
  const int whole = size >= 1 ? static_cast<int>(std::floor(std::log10(size))) + 1 : 1;
  QString text = locale.toString(value, 'f', std::clamp(digits - whole, 0, 6));
  const QString point = locale.decimalPoint();
  if (!text.contains(point)) return text;
  while (text.endsWith(QLatin1Char('0'))) text.chop(1);
  if (text.endsWith(point)) text.chop(point.size());
  return text;
}

bool meansUnknown(const QString& text) {
  static const QStringList words = {QStringLiteral("-"),           QStringLiteral("–"),          QStringLiteral("?"),
                                    QStringLiteral("don't know"),  QStringLiteral("don’t know"), QStringLiteral("dont know"),
                                    QStringLiteral("do not know"), QStringLiteral("not known"),  QStringLiteral("unknown")};
  return words.contains(text.toLower()) || text.compare(QuantityWords::tr("don't know"), Qt::CaseInsensitive) == 0;
}

/// Takes a unit off the end of the text; nothing when what stands there is none that is accepted.
std::optional<Unit> takeUnit(QString& text, const Quantity& quantity) {
  static const QRegularExpression ending(QStringLiteral("(?!(?<=[0-9.,])[eE][+-]?[0-9])[^0-9.,\\s–-][^.,\\s–]*$"));  // "1e9" is a number
  const auto match = ending.match(text);
  if (!match.hasMatch()) return quantity.shown();
  for (const Unit& unit : quantity.units) {
    if (match.captured() != unit.symbol) continue;
    text.chop(match.capturedLength());
    return unit;
  }
  return std::nullopt;
}

std::optional<double> plainNumber(QString text) {
  bool understood = false;
  const double number = QLocale::c().toDouble(text.replace(QLatin1Char(','), QLatin1Char('.')), &understood);
  return understood && std::isfinite(number) ? std::optional(number) : std::nullopt;
}

/// "10 cm in 4 s", as paces are shown.
std::optional<double> readPace(const QString& text) {
  static const QRegularExpression pace(QStringLiteral("^([0-9.,]+)\\s*(mm|cm|m)\\s+in\\s+([0-9.,]+)\\s*(s|min)$"));
  const auto match = pace.match(text);
  if (!match.hasMatch()) return std::nullopt;
  const auto way = plainNumber(match.captured(1)), time = plainNumber(match.captured(3));
  if (!way || !time || *time <= 0) return std::nullopt;
  const QString unit = match.captured(2);
  const double metres = unit == QStringLiteral("mm") ? 1e-3 : unit == QStringLiteral("cm") ? 1e-2 : 1;
  return *way * metres / (*time * (match.captured(4) == QStringLiteral("min") ? 60 : 1));
}

QString acceptedUnits(const Quantity& quantity) {
  QStringList symbols;
  for (const Unit& unit : quantity.units) {
    if (!unit.symbol.isEmpty()) symbols << unit.symbol;
  }
  return symbols.isEmpty() ? QuantityWords::tr("Type a number.")
                           : QuantityWords::tr("Type a number, if you like with %1.").arg(symbols.join(QStringLiteral(", ")));
}

TypedQuantity notANumber(const QString& text, const Quantity& quantity) {
  return {{}, false, QuantityWords::tr("“%1” is not understood. %2").arg(text, acceptedUnits(quantity))};
}

}  // namespace

TypedQuantity readQuantity(const QString& typed, const Quantity& quantity) {
  QString text = typed.trimmed();
  for (const char16_t space : {u'\u00a0', u'\u202f', u'\u2009'}) text.replace(QChar(space), QLatin1Char(' '));
  if (meansUnknown(text)) return {{}, true, {}};
  if (const auto pace = quantity.pace ? readPace(text) : std::nullopt) return {Range::exact(*pace), false, {}};
  const auto unit = takeUnit(text, quantity);
  if (!unit) return notANumber(typed, quantity);

  // Between two numbers a dash or dots are a range; a dash before the first is a sign.
  static const QRegularExpression between(QStringLiteral("(?<=[0-9])\\s*(\\.\\.+|…|–|-|\\bto\\b)\\s*(?=-?[0-9])"));
  text.replace(between, QStringLiteral(" "));
  std::vector<double> numbers;
  for (const QString& word : text.split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
    const auto number = plainNumber(word);
    if (!number) return notANumber(typed, quantity);
    numbers.push_back(*number * unit->inSI);
  }
  if (numbers.empty() || numbers.size() > 3) return notANumber(typed, quantity);
  if (!std::ranges::is_sorted(numbers))
    return {{}, false, QuantityWords::tr("A range runs from the lowest to the highest, such as 45..80 or 45 60 80.")};
  if (numbers.size() == 1) return {Range::exact(numbers[0]), false, {}};
  if (numbers.size() == 2) return {Range{numbers[0], (numbers[0] + numbers[1]) / 2, numbers[1]}, false, {}};
  return {Range{numbers[0], numbers[1], numbers[2]}, false, {}};
}

QString writeQuantity(const Range& value, const Quantity& quantity) {
  const auto one = [&](double number) { return numberText(number / quantity.shown().inSI, quantity.digits); };
  return value.isExact() ? one(value.likely) : QStringLiteral("%1 %2 %3").arg(one(value.low), one(value.likely), one(value.high));
}

QString withUnit(double value, const Quantity& quantity) {
  const QString text = writeQuantity(Range::exact(value), quantity);
  const QString& symbol = quantity.shown().symbol;
  if (symbol.isEmpty() || symbol == QStringLiteral("°")) return text + symbol;
  return text + QChar(0xA0) + symbol;
}

}  // namespace bw
