// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QComboBox>

namespace bw {

/// A drop-down of named ids. Only a person's choice is told, and the wheel over it scrolls the page unless it has the focus.
class Chooser : public QComboBox {
  Q_OBJECT
 public:
  /// `name` is what assistive technology reads, `tip` one sentence that explains the term.
  Chooser(const QString& name, const QString& tip, QWidget* parent = nullptr);

  void add(const QString& id, const QString& text, const QString& tip = {});
  /// Shows the entry of that id; an id that is not offered is added as it is, so that nothing in a file is hidden.
  void setId(const QString& id);
  QString id() const { return currentData().toString(); }

 signals:
  void chosen(const QString& id);

 protected:
  void wheelEvent(QWheelEvent* event) override;
  void paintEvent(QPaintEvent* event) override;  // shortens a long entry with an ellipsis instead of cutting it
  void showPopup() override;                      // as wide as its longest entry
};

}  // namespace bw
