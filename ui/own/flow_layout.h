// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLayout>

namespace bw {

/// Widgets side by side that go on in the next row where there is no room, so that no button is ever cut. Hidden ones take none.
class FlowLayout : public QLayout {
 public:
  explicit FlowLayout(QWidget* parent);
  ~FlowLayout() override;

  void addItem(QLayoutItem* item) override { m_items.push_back(item); }
  int count() const override { return static_cast<int>(m_items.size()); }
  QLayoutItem* itemAt(int index) const override { return m_items.value(index); }
  QLayoutItem* takeAt(int index) override { return index >= 0 && index < m_items.size() ? m_items.takeAt(index) : nullptr; }
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override { return place({0, 0, width, 0}, false); }
  QSize sizeHint() const override { return minimumSize(); }
  QSize minimumSize() const override;
  void setGeometry(const QRect& box) override;

 private:
  int place(const QRect& box, bool really) const;

  QList<QLayoutItem*> m_items;
};

}  // namespace bw
