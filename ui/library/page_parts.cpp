// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/page_parts.h"

#include "ui/plan/form.h"

#include <QGridLayout>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

namespace bw::parts {
namespace {

constexpr int shortCell = 16;  // characters that stand in one line anywhere

/// A box with the coloured edge stripe of a state.
class Striped : public QWidget {
 public:
  explicit Striped(Status status) : m_status(status) {}

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.fillRect(rect(), palette().color(QPalette::AlternateBase));
    painter.fillRect(0, 0, space::edgeStripe, height(), stateColour(m_status, palette()));
  }

 private:
  Status m_status;
};

}  // namespace

QLabel* text(const QString& words, QPalette::ColorRole role) {
  auto* label = new QLabel(words);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  label->setForegroundRole(role);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse);
  return label;
}

QWidget* note(const QStringList& sentences, Status status, const QString& objectName) {
  auto* box = new Striped(status);
  box->setObjectName(objectName);
  box->setAccessibleName(sentences.join(QLatin1Char(' ')));
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(space::edgeStripe + space::medium, 6, space::medium, 6);
  column->setSpacing(space::small);
  for (const QString& sentence : sentences) column->addWidget(text(sentence));
  return box;
}

QWidget* section(const QString& title, QWidget* content, QWidget* right) {
  auto* box = new QWidget;
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  column->addWidget(new SectionHeader(title, right));
  column->addWidget(content);
  return box;
}

Table::Table(const QStringList& headings, QWidget* parent) : QWidget(parent), m_grid(new QGridLayout(this)) {
  m_grid->setContentsMargins(0, 0, 0, 0);
  m_grid->setHorizontalSpacing(space::large);
  m_grid->setVerticalSpacing(space::small);
  for (int column = 1; column < std::max(2, static_cast<int>(headings.size())); ++column) m_grid->setColumnStretch(column, 1);
  if (headings.isEmpty()) return;
  for (int column = 0; column < headings.size(); ++column) m_grid->addWidget(new QuietLabel(headings[column]), 0, column);
  m_rows = 1;
}

void Table::add(const QStringList& cells) {
  for (int column = 0; column < cells.size(); ++column) {
    QLabel* label = column == 0 ? text(cells[column], QPalette::PlaceholderText) : text(cells[column]);
    if (column == 0 || cells[column].size() <= shortCell) label->setWordWrap(false);
    m_grid->addWidget(label, m_rows, column, Qt::AlignTop);
  }
  ++m_rows;
}

}  // namespace bw::parts
