// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/fields/chooser.h"

#include "ui/style/theme.h"

#include <QAbstractItemView>
#include <QStylePainter>
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

void Chooser::paintEvent(QPaintEvent*) {
  QStylePainter painter(this);
  QStyleOptionComboBox option;
  initStyleOption(&option);
  painter.drawComplexControl(QStyle::CC_ComboBox, option);
  if (currentIndex() < 0) option.currentText = placeholderText();
  const QRect room = style()->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, this);
  const int iconRoom = option.currentIcon.isNull() ? 0 : option.iconSize.width() + space::small;
  option.currentText = fontMetrics().elidedText(option.currentText, Qt::ElideRight, room.width() - iconRoom - space::small);
  painter.drawControl(QStyle::CE_ComboBoxLabel, option);
}

void Chooser::showPopup() {
  view()->setTextElideMode(Qt::ElideRight);  // names begin alike less often than they end alike
  view()->setMinimumWidth(view()->sizeHintForColumn(0) + 2 * space::large);
  QComboBox::showPopup();
}

}  // namespace bw
