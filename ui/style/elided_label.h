// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

namespace bw {

/// One line of text; where it does not fit its shorter form, or else an ellipsis at the end. The whole of it is in the tooltip.
class ElidedLabel : public QWidget {
  Q_OBJECT

 public:
  explicit ElidedLabel(QWidget* parent = nullptr);

  void setText(const QString& text, const QString& shorter = {});
  QString shown() const;  // at this width
  QString text() const { return m_text; }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QString m_text, m_shorter;
};

}  // namespace bw
