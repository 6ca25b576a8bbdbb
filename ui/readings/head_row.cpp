// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/head_row.h"

#include "ui/style/theme.h"

#include <QPainter>

#include <algorithm>

namespace bw {
namespace {

constexpr int plainHeight = 24;

}  // namespace

HeadRow::HeadRow(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {
  setSectionsClickable(false);
  setHighlightSections(false);
  connect(this, &QHeaderView::sectionResized, this, &HeadRow::place);
}

void HeadRow::setWidgets(const std::vector<QWidget*>& widgets) {
  for (QWidget* widget : m_widgets) widget->deleteLater();
  for (QWidget* widget : m_widgets) widget->hide();
  m_widgets = widgets;
  for (QWidget* widget : m_widgets) {
    widget->setParent(viewport());
    widget->show();
  }
  emit geometriesChanged();
  place();
}

QSize HeadRow::sizeHint() const {
  int height = plainHeight;
  for (std::size_t i = 0; i < m_widgets.size(); ++i) {
    const int width = sectionSize(static_cast<int>(i));
    const QWidget* widget = m_widgets[i];
    height = std::max(height, widget->hasHeightForWidth() ? widget->heightForWidth(width) : widget->sizeHint().height());
  }
  return {QHeaderView::sizeHint().width(), height};
}

void HeadRow::updateGeometries() {
  QHeaderView::updateGeometries();
  place();
}

void HeadRow::place() {
  for (std::size_t i = 0; i < m_widgets.size() && static_cast<int>(i) < count(); ++i) {
    const int section = static_cast<int>(i);
    m_widgets[i]->setGeometry(sectionViewportPosition(section), 0, sectionSize(section), viewport()->height());
  }
}

void HeadRow::paintSection(QPainter* painter, const QRect& rect, int) const {
  painter->fillRect(rect, palette().base());
  painter->setPen(tonesOf(palette()).line);
  painter->drawLine(rect.topRight(), rect.bottomRight());
  painter->drawLine(rect.bottomLeft(), rect.bottomRight());
}

}  // namespace bw
