// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/machine.h"

#include <QWidget>

class QLineEdit;
class QPushButton;

namespace bw {

class Chooser;
class ProblemLabel;
class QuantityField;

/// Name, kind, power and spot of a machine of one's own; the rest begins as that of a typical one and is changed on its card.
class AddMachinePage : public QWidget {
  Q_OBJECT
 public:
  explicit AddMachinePage(QWidget* parent = nullptr);

  void reset();
  void setReadOnly(bool readOnly);
  void say(const QString& problem);

 signals:
  void made(const bw::Machine& machine);
  void cancelled();

 private:
  QWidget* makeFields();
  QWidget* makeButtons();
  void make();

  QLineEdit* m_name;
  Chooser* m_kind;
  QuantityField* m_watts;
  QuantityField* m_spot;
  QPushButton* m_make;
  bool m_readOnly = false;
  ProblemLabel* m_problem;
};

}  // namespace bw
