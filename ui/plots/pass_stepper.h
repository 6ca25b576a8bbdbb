// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/plots/stepper.h"

namespace bw {

/// Steps through the passes.
class PassStepper : public Stepper {
  Q_OBJECT

 public:
  explicit PassStepper(QWidget* parent = nullptr);

  void setPass(int pass) { setNumber(pass); }  // says nothing
  int pass() const { return number(); }

 signals:
  void passChanged(int pass);  // by hand or by running
};

}  // namespace bw
