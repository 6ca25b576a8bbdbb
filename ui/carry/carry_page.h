// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/carry/carry_work.h"

#include <QWidget>

class QVBoxLayout;

namespace bw {

/// What becomes of a recipe on the machine that was chosen: what is kept, what to dial, what the model expects, each beside what it was.
class CarryPage : public QWidget {
  Q_OBJECT
 public:
  explicit CarryPage(const CarryWork& work, QWidget* parent = nullptr);

  void showCarried();
  void showForecast();

 private:
  QWidget* makeNotice() const;
  QWidget* makeKept() const;
  QWidget* makeSettings() const;
  QWidget* makeNumbers() const;
  QWidget* makeVerdict() const;
  QString machineBefore() const;
  QString machineAfter() const;
  static void fill(QVBoxLayout* column, const std::vector<QWidget*>& widgets);

  const CarryWork& m_work;
  QVBoxLayout* m_carried;
  QVBoxLayout* m_forecast;
  QVBoxLayout* m_settings;
};

}  // namespace bw
