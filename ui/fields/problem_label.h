// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>

namespace bw {

/// A sentence about something that was not accepted: the stripe of "fails" at its left, text in normal ink. Hidden while there is none.
class ProblemLabel : public QLabel {
  Q_OBJECT
 public:
  explicit ProblemLabel(QWidget* parent = nullptr);
  void say(const QString& sentence);

 protected:
  void paintEvent(QPaintEvent* event) override;
};

}  // namespace bw
