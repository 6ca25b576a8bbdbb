// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/pass_stepper.h"

namespace bw {

PassStepper::PassStepper(QWidget* parent)
    : Stepper({"passStepper", "playPasses", tr("Passes shown"),
               tr("Step through the passes and see how the coat wears away; arrow keys do it too."), tr("Run through the passes"),
               tr("Runs through the passes, one after the other")},
              parent) {
  connect(this, &Stepper::numberChanged, this, &PassStepper::passChanged);
}

}  // namespace bw
