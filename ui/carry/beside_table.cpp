// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/carry/beside_table.h"

#include "ui/library/page_parts.h"

#include <QGridLayout>
#include <QLabel>

namespace bw {
namespace {

constexpr int shape_px = 13;
constexpr int nameWidth = 132;

}  // namespace

BesideTable::BesideTable(const QStringList& headings, QWidget* parent)
    : QWidget(parent), m_grid(new QGridLayout(this)), m_columns(static_cast<int>(headings.size())) {
  m_grid->setContentsMargins(0, 0, 0, 0);
  m_grid->setHorizontalSpacing(space::large);
  m_grid->setVerticalSpacing(space::small);
  m_grid->setColumnMinimumWidth(0, nameWidth);
  for (int column = 1; column <= m_columns; ++column) {
    m_grid->setColumnStretch(column, column > 2 ? 3 : 2);
    m_grid->addWidget(parts::text(headings[column - 1], QPalette::PlaceholderText), 0, column, Qt::AlignBottom);
  }
}

void BesideTable::add(const QString& name, const QStringList& cells) {
  auto* label = parts::text(name, QPalette::PlaceholderText);
  m_grid->addWidget(label, m_rows, 0, Qt::AlignTop);
  for (int column = 1; column <= cells.size(); ++column) {
    QLabel* cell = parts::text(cells[column - 1]);
    cell->setAccessibleName(tr("%1: %2").arg(name, cells[column - 1]));
    m_grid->addWidget(cell, m_rows, column, Qt::AlignTop);
  }
  ++m_rows;
}

QWidget* BesideTable::withShape(Status status, const QString& words) const {
  auto* box = new QWidget;
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(space::small);
  auto* shape = new QLabel;
  shape->setPixmap(statePixmap(status, shape_px, palette(), devicePixelRatioF()));
  shape->setContentsMargins(0, space::hair, 0, 0);
  row->addWidget(shape, 0, Qt::AlignTop);
  row->addWidget(parts::text(words), 1);
  return box;
}

void BesideTable::put(QWidget* widget, int column) {
  if (QLayoutItem* old = m_grid->itemAtPosition(m_rows - 1, column)) delete old->widget();
  m_grid->addWidget(widget, m_rows - 1, column, Qt::AlignTop);
}

void BesideTable::explain(const QString& sentence) {
  if (sentence.isEmpty()) return;
  QLabel* label = parts::text(sentence, QPalette::PlaceholderText);
  label->setContentsMargins(0, 0, 0, space::small);
  m_grid->addWidget(label, m_rows, 1, 1, m_columns);
  ++m_rows;
}

void BesideTable::mark(Status status) {
  const auto* cell = qobject_cast<QLabel*>(m_grid->itemAtPosition(m_rows - 1, m_columns)->widget());
  put(withShape(status, cell->text()), m_columns);
}

void BesideTable::setState(int column, std::optional<Status> status, const QString& otherwise) {
  put(status ? withShape(*status, stateWord(*status)) : parts::text(otherwise), column);
}

}  // namespace bw
