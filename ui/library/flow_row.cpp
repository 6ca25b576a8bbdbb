// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/library/flow_row.h"

#include "ui/style/theme.h"

#include <QEvent>
#include <QResizeEvent>

namespace bw {

FlowRow::FlowRow(QWidget* parent) : QWidget(parent) {
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
}

void FlowRow::add(QWidget* widget) {
  widget->setParent(this);
  m_widgets << widget;
  updateGeometry();
}

/// The height that is needed, and, if wanted, each where it belongs.
int FlowRow::place(int width, bool move) const {
  int x = 0, y = 0, row = 0;
  for (QWidget* widget : m_widgets) {
    if (widget->isHidden()) continue;
    const QSize size = widget->sizeHint();
    if (x > 0 && x + size.width() > width) {
      x = 0;
      y += row + space::small;
      row = 0;
    }
    if (move) widget->setGeometry(x, y, size.width(), size.height());
    x += size.width() + space::medium;
    row = std::max(row, size.height());
  }
  return y + row;
}

QSize FlowRow::sizeHint() const { return {400, heightForWidth(std::max(width(), 400))}; }
QSize FlowRow::minimumSizeHint() const { return {120, heightForWidth(std::max(width(), 120))}; }

void FlowRow::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  place(width(), true);
  if (event->oldSize().width() != width()) updateGeometry();
}

/// One was shown, hidden or named anew.
bool FlowRow::event(QEvent* event) {
  const bool handled = QWidget::event(event);
  if (event->type() == QEvent::LayoutRequest) {
    place(width(), true);
    updateGeometry();
  }
  return handled;
}

}  // namespace bw
