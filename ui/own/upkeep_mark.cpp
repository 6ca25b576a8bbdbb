// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/upkeep_mark.h"

#include "ui/style/theme.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>

namespace bw {
namespace {

constexpr int shapeSide = 16;

Status statusOf(Upkeep state) {
  switch (state) {
    case Upkeep::Fresh:
      return Status::Meets;
    case Upkeep::Soon:
      return Status::Near;
    case Upkeep::Due:
      return Status::Fails;
    case Upkeep::NotKnown:
      break;
  }
  return Status::NotKnown;
}

}  // namespace

QString upkeepWord(Upkeep state) {
  switch (state) {
    case Upkeep::Fresh:
      return UpkeepMark::tr("checked");
    case Upkeep::Soon:
      return UpkeepMark::tr("due soon");
    case Upkeep::Due:
      return UpkeepMark::tr("due for a check");
    case Upkeep::NotKnown:
      break;
  }
  return UpkeepMark::tr("not known");
}

UpkeepMark::UpkeepMark(QWidget* parent) : QWidget(parent), m_shape(new QLabel), m_text(new QLabel) {
  m_text->setWordWrap(true);
  m_shape->setFixedSize(shapeSide, shapeSide);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->addWidget(m_shape, 0, Qt::AlignTop);
  row->addWidget(m_text, 1);
}

void UpkeepMark::setDue(const CheckDue& due) {
  m_due = due;
  m_shape->setPixmap(statePixmap(statusOf(due.state), shapeSide, palette(), devicePixelRatioF()));
  const QString word = upkeepWord(due.state);
  m_text->setText(tr("<b>%1</b>: %2.").arg(word, QString::fromStdString(due.reason).toHtmlEscaped()));
  setAccessibleName(tr("%1: %2").arg(word, QString::fromStdString(due.reason)));
}

void UpkeepMark::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::PaletteChange) setDue(m_due);
}

}  // namespace bw
