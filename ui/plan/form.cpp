// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/form.h"

#include "ui/fields/quantity_field.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QToolButton>

namespace bw {

Form::Form(QWidget* parent) : QWidget(parent), m_grid(new QGridLayout(this)) {
  m_grid->setContentsMargins(0, 0, 0, 0);
  m_grid->setHorizontalSpacing(space::medium);
  m_grid->setVerticalSpacing(6);
  m_grid->setColumnMinimumWidth(0, captionWidth);
  m_grid->setColumnStretch(1, 1);
}

void Form::Row::setVisible(bool visible) const {
  if (caption) caption->setVisible(visible);
  field->setVisible(visible);
}

void Form::Row::name(const QString& text, const QString& tip) const {
  caption->setText(text);
  caption->setToolTip(tip);
}

Form::Row Form::addRow(const QString& text, QWidget* field) {
  auto* caption = new QLabel(text);
  caption->setBuddy(field);
  caption->setToolTip(field->toolTip());
  caption->setMinimumHeight(26);
  const int row = m_grid->rowCount();
  m_grid->addWidget(caption, row, 0, Qt::AlignTop);
  m_grid->addWidget(field, row, 1);
  return {caption, field};
}

Form::Row Form::addWide(QWidget* field) {
  m_grid->addWidget(field, m_grid->rowCount(), 0, 1, 2);
  return {nullptr, field};
}

QLabel* Form::addGroup(const QString& title) {
  auto* label = new QuietLabel(title);
  label->setContentsMargins(0, space::medium, 0, 0);
  m_grid->addWidget(label, m_grid->rowCount(), 0, 1, 2);
  return label;
}

SectionHeader::SectionHeader(const QString& title, QWidget* right, QWidget* parent) : QWidget(parent) {
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  auto* label = new QLabel(title);
  QFont font = label->font();
  font.setBold(true);
  font.setPixelSize(space::headFont);
  label->setFont(font);
  row->addWidget(label);
  row->addStretch();
  if (right) row->addWidget(right);
  setFixedHeight(28);
}

QuietLabel::QuietLabel(const QString& text, QWidget* parent) : QLabel(text, parent) { setForegroundRole(QPalette::PlaceholderText); }

QWidget* besideEachOther(QuantityField* first, QuantityField* second) {
  first->showUnit(false);
  auto* both = new QWidget;
  auto* row = new QHBoxLayout(both);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(space::small);
  row->addWidget(first, 2);
  auto* times = new QuietLabel(QStringLiteral("×"));
  times->setObjectName(QStringLiteral("times"));
  row->addWidget(times);
  row->addWidget(second, 3);
  return both;
}

QToolButton* makeFoldButton(const QString& objectName, const QString& text) {
  auto* button = new QToolButton;
  button->setObjectName(objectName);
  button->setText(text);
  button->setCheckable(true);
  button->setAutoRaise(true);
  button->setProperty("fold", true);
  button->setArrowType(Qt::RightArrow);
  button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  QObject::connect(button, &QToolButton::toggled, button, [button](bool open) { button->setArrowType(open ? Qt::DownArrow : Qt::RightArrow); });
  return button;
}

}  // namespace bw
