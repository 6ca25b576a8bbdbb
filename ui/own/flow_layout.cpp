// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/flow_layout.h"

#include "ui/style/theme.h"

#include <QWidget>

namespace bw {

FlowLayout::FlowLayout(QWidget* parent) : QLayout(parent) { setContentsMargins(0, 0, 0, 0); }

FlowLayout::~FlowLayout() { qDeleteAll(m_items); }

QSize FlowLayout::minimumSize() const {
  QSize least;
  for (const QLayoutItem* item : m_items) {
    if (!item->isEmpty()) least = least.expandedTo(item->sizeHint());
  }
  return least;
}

void FlowLayout::setGeometry(const QRect& box) {
  QLayout::setGeometry(box);
  place(box, true);
}

/// The height that was used.
int FlowLayout::place(const QRect& box, bool really) const {
  int x = box.x(), y = box.y(), tallest = 0;
  for (QLayoutItem* item : m_items) {
    if (item->isEmpty()) continue;
    const QSize size = item->sizeHint();
    if (x > box.x() && x + size.width() > box.x() + box.width()) {
      x = box.x();
      y += tallest + space::small;
      tallest = 0;
    }
    if (really) item->setGeometry({QPoint(x, y), size});
    x += size.width() + space::medium;
    tallest = std::max(tallest, size.height());
  }
  return y + tallest - box.y();
}

}  // namespace bw
