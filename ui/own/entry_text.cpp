// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/entry_text.h"

#include "ui/fields/quantity_text.h"
#include "ui/own/field_words.h"

#include <QCoreApplication>
#include <QRegularExpression>

#include <algorithm>

namespace bw::entryText {
namespace {

using Shape = EntryField::Shape;
constexpr int entryDigits = 6;

struct EntryText {
  Q_DECLARE_TR_FUNCTIONS(EntryText)
};

Quantity quantityOf(const EntryField& field) { return {{{QString::fromStdString(field.unit), 1}}, entryDigits}; }

/// One number; `range` where three were typed at once.
QString readNumber(const EntryField& field, const QString& typed, Range& range) {
  const TypedQuantity read = readQuantity(typed, quantityOf(field));
  if (!read.problem.isEmpty()) return read.problem;
  if (!read.value) return EntryText::tr("A number is needed here.");
  range = *read.value;
  return {};
}

}  // namespace

QString number(double value) { return writeQuantity(Range::exact(value), {{{QString(), 1}}, entryDigits}); }

QString numbers(const std::vector<double>& values) {
  QStringList texts;
  for (const double value : values) texts << number(value);
  return texts.join(QStringLiteral("; "));
}

QStringList words(const EntryField& field) {
  QStringList said;
  for (const std::string& word : field.words) said << sayWord(word);
  return said;
}

QString read(const EntryField& field, const QString& typed, FieldValue& value) {
  if (field.shape == Shape::Text) {
    value.text = typed.toStdString();
    return {};
  }
  if (field.shape == Shape::Word) {
    const auto at = words(field).indexOf(typed);
    if (at < 0) return EntryText::tr("One of these is accepted: %1.").arg(words(field).join(QStringLiteral(", ")));
    value.text = field.words[static_cast<std::size_t>(at)];
    return {};
  }
  static const QRegularExpression gap(QStringLiteral("[;\\s]+"));
  const bool many = field.shape == Shape::Numbers;
  QString bare = typed;
  if (many && !field.unit.empty()) bare.remove(QString::fromStdString(field.unit));
  for (const QString& part : many ? bare.split(gap, Qt::SkipEmptyParts) : QStringList{typed}) {
    if (part.isEmpty()) continue;
    Range range;
    if (const QString problem = readNumber(field, part, range); !problem.isEmpty()) return problem;
    if (!range.isExact()) return EntryText::tr("One number is taken here, no range.");
    value.numbers.push_back(range.likely);
  }
  return {};
}

QString readRange(const EntryField& field, const std::array<QString, 3>& typed, const std::array<bool, 3>& isTyped,
                  const std::optional<QString>& source, FieldValue& value) {
  value = field.get();
  if (source) value.text = source->toStdString();
  const bool wasNothing = value.numbers.empty();
  const bool wasExact = wasNothing || (value.numbers[0] == value.numbers[2]);
  std::array<std::optional<double>, 3> entered;
  bool anyText = false, cleared = false;
  for (std::size_t i = 0; i < 3; ++i) {
    if (!isTyped[i]) continue;
    cleared = cleared || typed[i].isEmpty();
    if (typed[i].isEmpty()) continue;
    anyText = true;
    Range range;
    if (const QString problem = readNumber(field, typed[i], range); !problem.isEmpty()) return problem;
    if (!range.isExact()) {
      value.numbers = {range.low, range.likely, range.high};
      return {};
    }
    entered[i] = range.likely;
  }
  if (cleared && !anyText) {
    if (!field.optional) return EntryText::tr("Three numbers have to stand here.");
    if (!isTyped[1]) return EntryText::tr("Three numbers have to stand here; clear the likely one to state nothing.");
    value.numbers.clear();
    return {};
  }
  if (wasNothing && !anyText) return EntryText::tr("A source alone says nothing: the likely value is needed.");
  if (!anyText) return {};
  if (wasNothing)
    value.numbers.assign(3, entered[1] ? *entered[1] : entered[0] ? *entered[0] : *entered[2]);
  else if (wasExact && entered[1])
    value.numbers.assign(3, *entered[1]);
  for (std::size_t i = 0; i < 3; ++i) {
    if (entered[i]) value.numbers[i] = *entered[i];
  }
  return {};
}

}  // namespace bw::entryText
