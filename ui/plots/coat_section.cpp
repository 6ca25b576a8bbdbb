// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/coat_section.h"

namespace bw {

CoatSection::CoatSection(QWidget* parent) : QWidget(parent) { setMinimumHeight(180); }
void CoatSection::setCoat(const Project&) {}
void CoatSection::setAssessment(std::shared_ptr<const Assessment>) {}
void CoatSection::setStale(bool) {}

}  // namespace bw
