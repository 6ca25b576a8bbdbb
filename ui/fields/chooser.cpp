// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/chooser.h"

#include <QWheelEvent>

namespace bw {

Chooser::Chooser(const QString& name, const QString& tip, QWidget* parent) : QComboBox(parent) {
  setAccessibleName(name);
  setToolTip(tip);
  setFocusPolicy(Qt::StrongFocus);
  setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
  setMinimumContentsLength(6);
  connect(this, &QComboBox::activated, this, [this] { emit chosen(id()); });
}

void Chooser::add(const QString& id, const QString& text, const QString& tip) {
  addItem(text, id);
  if (!tip.isEmpty()) setItemData(count() - 1, tip, Qt::ToolTipRole);
}

void Chooser::setId(const QString& id) {
  if (findData(id) < 0) add(id, id);
  setCurrentIndex(findData(id));
}

void Chooser::wheelEvent(QWheelEvent* event) {
  if (hasFocus()) {
    QComboBox::wheelEvent(event);
  } else {
    event->ignore();
  }
}

}  // namespace bw
