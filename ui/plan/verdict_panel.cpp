// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/verdict_panel.h"

namespace bw {

VerdictPanel::VerdictPanel(QWidget* parent) : QWidget(parent) { setMinimumWidth(260); }
void VerdictPanel::setAssessment(std::shared_ptr<const Assessment>) {}
void VerdictPanel::setRemedies(std::vector<Remedy>) {}
void VerdictPanel::setStale(bool) {}

}  // namespace bw
