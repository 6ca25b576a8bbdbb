// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/column_head.h"

#include "ui/fields/chooser.h"
#include "ui/library/recipe_words.h"
#include "ui/readings/csv_words.h"
#include "ui/style/elided_label.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include <array>

namespace bw {
namespace {

constexpr int shape_px = 13;
constexpr int whyLines = 4;

struct Choice {
  ColumnMeaning meaning;
  const char* kind;
};

constexpr std::array<Choice, 6> choices{{{ColumnMeaning::Ignored, ""},
                                         {ColumnMeaning::Time, ""},
                                         {ColumnMeaning::Thickness, "thickness_before_um"},
                                         {ColumnMeaning::Thickness, "thickness_after_um"},
                                         {ColumnMeaning::Temperature, "face_C"},
                                         {ColumnMeaning::Temperature, "back_C"}}};

QString choiceWord(const Choice& choice) {
  if (choice.meaning == ColumnMeaning::Ignored) return ColumnHead::tr("left out");
  if (choice.meaning == ColumnMeaning::Time) return ColumnHead::tr("time");
  if (choice.kind == std::string_view("face_C")) return ColumnHead::tr("front face");
  if (choice.kind == std::string_view("back_C")) return ColumnHead::tr("back face");
  return words::readingKind(choice.kind);
}

std::vector<CsvUnit> unitsOf(ColumnMeaning meaning) {
  switch (meaning) {
    case ColumnMeaning::Thickness:
      return {CsvUnit::Micrometre, CsvUnit::Mil, CsvUnit::Millimetre};
    case ColumnMeaning::Temperature:
      return {CsvUnit::Celsius, CsvUnit::Fahrenheit, CsvUnit::Kelvin};
    case ColumnMeaning::Time:
      return {CsvUnit::Second, CsvUnit::Minute, CsvUnit::Clock, CsvUnit::DateTime};
    case ColumnMeaning::Ignored:
      break;
  }
  return {};
}

int indexOf(const ColumnMapping& column) {
  for (std::size_t i = 0; i < choices.size(); ++i) {
    if (choices[i].meaning == column.meaning && (column.kind.empty() || column.kind == choices[i].kind)) return static_cast<int>(i);
  }
  return 0;
}

}  // namespace

ColumnHead::ColumnHead(int index, const ColumnMapping& column, QWidget* parent)
    : QWidget(parent),
      m_title(column.header.empty() ? tr("Column %1").arg(index + 1) : QString::fromStdString(column.header)),
      m_meaning(new Chooser(tr("%1: taken for").arg(m_title), tr("What stands in this column"))),
      m_unit(new Chooser(tr("%1: unit").arg(m_title), tr("The unit in which the file writes it"))),
      m_shape(new QLabel),
      m_why(new QLabel) {
  setObjectName(QStringLiteral("columnHead%1").arg(index));
  m_meaning->setObjectName(QStringLiteral("meaning%1").arg(index));
  m_unit->setObjectName(QStringLiteral("unit%1").arg(index));
  for (std::size_t i = 0; i < choices.size(); ++i) m_meaning->add(QString::number(i), choiceWord(choices[i]));
  auto* title = new ElidedLabel;
  title->setText(m_title);
  QFont bold = title->font();
  bold.setBold(true);
  title->setFont(bold);
  m_why->setWordWrap(true);
  m_why->setTextFormat(Qt::PlainText);
  m_why->setForegroundRole(QPalette::PlaceholderText);
  m_why->setAlignment(Qt::AlignTop);
  m_why->setFixedHeight(whyLines * m_why->fontMetrics().lineSpacing());
  auto* reason = new QHBoxLayout;
  reason->setSpacing(space::small);
  reason->addWidget(m_shape, 0, Qt::AlignTop);
  reason->addWidget(m_why, 1);
  auto* rows = new QVBoxLayout(this);
  rows->setContentsMargins(space::small, space::small, space::small, space::small);
  rows->setSpacing(space::small);
  rows->addWidget(title);
  rows->addWidget(m_meaning);
  rows->addWidget(m_unit);
  rows->addLayout(reason);
  connect(m_meaning, &Chooser::chosen, this, [this](const QString& id) {
    const Choice& choice = choices[id.toUInt()];
    emit meaningChosen(choice.meaning, choice.kind);
  });
  connect(m_unit, &Chooser::chosen, this, [this](const QString& id) { emit unitChosen(static_cast<CsvUnit>(id.toInt())); });
  setColumn(column);
}

void ColumnHead::setColumn(const ColumnMapping& column) {
  m_meaning->setId(QString::number(indexOf(column)));
  offerUnits(column);
  const bool doubtful = column.meaning != ColumnMeaning::Ignored && !column.sure;
  const Status status = column.meaning == ColumnMeaning::Ignored ? Status::NotKnown : doubtful ? Status::Near : Status::Meets;
  m_shape->setPixmap(statePixmap(status, shape_px, palette(), devicePixelRatioF()));
  const QString why = QString::fromStdString(column.why);
  const QString said = doubtful ? tr("look at it: %1").arg(why) : why;
  m_why->setText(said);
  m_why->setToolTip(said);
  m_meaning->setAccessibleDescription(said);
}

void ColumnHead::offerUnits(const ColumnMapping& column) {
  m_unit->clear();
  for (const CsvUnit unit : unitsOf(column.meaning)) m_unit->add(QString::number(static_cast<int>(unit)), words::unit(unit));
  m_unit->setEnabled(m_unit->count() > 0);
  if (m_unit->count() > 0) m_unit->setId(QString::number(static_cast<int>(column.unit)));
}

}  // namespace bw
