// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/precaution_row.h"

#include "ui/plan/form.h"
#include "ui/style/theme.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace bw {
namespace {

QString capital(QString text) {
  if (!text.isEmpty()) text[0] = text[0].toUpper();
  return text;
}

QString settledWords(const Clearance& by) {
  const QString name = QString::fromStdString(by.by), date = QString::fromStdString(by.date), note = QString::fromStdString(by.note);
  return note.isEmpty() ? PrecautionRow::tr("Settled by %1 on %2.").arg(name, date)
                        : PrecautionRow::tr("Settled by %1 on %2: %3").arg(name, date, note);
}

QLabel* wrapped(QLabel* label) {
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  return label;
}

}  // namespace

PrecautionRow::PrecautionRow(const Precaution& precaution, QWidget* parent)
    : QWidget(parent), m_precaution(precaution), m_tick(new QCheckBox) {
  const QString what = capital(QString::fromStdString(precaution.what));
  m_tick->setObjectName(QStringLiteral("settle"));
  m_tick->setChecked(precaution.cleared.has_value());
  auto* title = wrapped(new QLabel(what));
  QFont bold = title->font();
  bold.setBold(precaution.stops && !precaution.cleared);
  title->setFont(bold);
  auto* words = new QVBoxLayout;
  words->setSpacing(space::hair);
  words->addWidget(title);
  if (precaution.cleared) {
    words->addWidget(wrapped(new QuietLabel(settledWords(*precaution.cleared))));
  } else {
    words->addWidget(wrapped(new QuietLabel(QString::fromStdString(precaution.todo))));
  }
  if (precaution.stops && !precaution.cleared) {
    m_reason = new QLineEdit;
    m_reason->setObjectName(QStringLiteral("reason"));
    m_reason->setAccessibleName(tr("What was done, or why it may go on: %1").arg(what));
    m_reason->setPlaceholderText(tr("What was done, or why it may go on"));
    connect(m_reason, &QLineEdit::textChanged, this, &PrecautionRow::refresh);
    words->addWidget(m_reason);
  }
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(space::medium, space::medium, space::medium, space::medium);
  row->setSpacing(space::large);
  row->addWidget(m_tick, 0, Qt::AlignTop);
  row->addLayout(words, 1);
  const bool isTest = !precaution.component.empty() && !precaution.stops;
  if (isTest && !precaution.cleared) addTest(row);
  m_tick->setAccessibleName(what);
  connect(m_tick, &QCheckBox::clicked, this, [this](bool on) { on ? emit settled() : emit reopened(); });
  refresh();
}

/// A test is not ticked but answered.
void PrecautionRow::addTest(QHBoxLayout* row) {
  QSizePolicy policy = m_tick->sizePolicy();
  policy.setRetainSizeWhenHidden(true);  // the words of all rows begin at one line
  m_tick->setSizePolicy(policy);
  m_tick->hide();
  for (const auto& [found, word] : {std::pair(Presence::No, tr("None found")), std::pair(Presence::Yes, tr("Found"))}) {
    auto* button = new QPushButton(word);
    button->setObjectName(found == Presence::Yes ? QStringLiteral("found") : QStringLiteral("noneFound"));
    button->setAccessibleName(tr("%1: %2").arg(m_tick->accessibleName(), word));
    connect(button, &QPushButton::clicked, this, [this, answer = found] { emit tested(answer); });
    row->addWidget(button, 0, Qt::AlignTop);
    m_found.push_back(button);
  }
}

void PrecautionRow::setNamed(bool named) {
  m_named = named;
  refresh();
}

QString PrecautionRow::reason() const { return m_reason ? m_reason->text().trimmed() : QString(); }

void PrecautionRow::refresh() {
  const bool reasoned = m_reason == nullptr || !reason().isEmpty();
  m_tick->setEnabled(m_precaution.cleared || (m_named && reasoned));
  for (QPushButton* button : m_found) button->setEnabled(m_named);
}

}  // namespace bw
