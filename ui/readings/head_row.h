// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QHeaderView>

#include <vector>

namespace bw {

/// A table's head whose sections hold widgets, such as drop-downs. They go with their columns.
class HeadRow : public QHeaderView {
  Q_OBJECT
 public:
  explicit HeadRow(QWidget* parent = nullptr);

  /// Takes them over; one for each of the first columns. Those before are deleted.
  void setWidgets(const std::vector<QWidget*>& widgets);
  QSize sizeHint() const override;

 protected:
  void updateGeometries() override;
  void paintSection(QPainter* painter, const QRect& rect, int section) const override;

 private:
  void place();
  std::vector<QWidget*> m_widgets;
};

}  // namespace bw
