// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace bw {

/// One line of text that ends in an ellipsis where it does not fit; the whole of it is in the tooltip.
class ElidedLabel : public QWidget {
  Q_OBJECT

 public:
  explicit ElidedLabel(QWidget* parent = nullptr);

  void setText(const QString& text);
  QString text() const { return m_text; }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QString m_text;
};

}  // namespace bw
