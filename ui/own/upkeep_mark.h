// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/upkeep.h"

#include <QWidget>

class QLabel;

namespace bw {

/// "checked", "due soon", "due for a check", "not known".
QString upkeepWord(Upkeep state);

/// Whether a machine is due for a check: a shape, a word, and why.
class UpkeepMark : public QWidget {
  Q_OBJECT
 public:
  explicit UpkeepMark(QWidget* parent = nullptr);
  void setDue(const CheckDue& due);

 protected:
  void changeEvent(QEvent* event) override;

 private:
  CheckDue m_due;
  QLabel* m_shape;
  QLabel* m_text;
};

}  // namespace bw
