// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/stepper.h"

namespace bw {

/// Steps through the moments of a job, or shows the highest of all of them; the passes stand under the slider.
class TimeStepper : public QWidget {
  Q_OBJECT

 public:
  explicit TimeStepper(QWidget* parent = nullptr);

  /// `passAt`: at which moment each pass begins.
  void setMoments(int number, std::vector<int> passAt);
  int moment() const { return m_stepper->number(); }
  bool showsHighest() const;
  void setHighest(bool on);
  void stepBy(int moments);
  void togglePlaying();
  void setWords(const QString& words) { m_stepper->setWords(words); }
  Stepper* stepper() const { return m_stepper; }
  QToolButton* highestButton() const { return m_highest; }

 signals:
  void changed();  // another moment, or the highest instead of one

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  Stepper* m_stepper;
  QToolButton* m_highest;
  std::vector<int> m_passAt;
};

}  // namespace bw
