// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/problem_label.h"

#include "ui/style/theme.h"

#include <QPainter>

namespace bw {

ProblemLabel::ProblemLabel(QWidget* parent) : QLabel(parent) {
  setObjectName(QStringLiteral("problem"));
  setWordWrap(true);
  setTextFormat(Qt::PlainText);  // names of files and what stands in them are told as they are
  setContentsMargins(space::edgeStripe + space::medium, 0, 0, 0);
  hide();
}

void ProblemLabel::say(const QString& sentence) {
  setText(sentence);
  setVisible(!sentence.isEmpty());
}

void ProblemLabel::paintEvent(QPaintEvent* event) {
  QLabel::paintEvent(event);
  QPainter(this).fillRect(0, 0, space::edgeStripe, height(), stateColour(Status::Fails, palette()));
}

}  // namespace bw
