// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace bw {

/// Buttons side by side that go on in a second row where one is too narrow, so that no word is cut.
class FlowRow : public QWidget {
  Q_OBJECT
 public:
  explicit FlowRow(QWidget* parent = nullptr);
  void add(QWidget* widget);
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override { return place(width, false); }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void resizeEvent(QResizeEvent* event) override;
  bool event(QEvent* event) override;

 private:
  int place(int width, bool move) const;
  QList<QWidget*> m_widgets;
};

}  // namespace bw
