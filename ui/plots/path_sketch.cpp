// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/path_sketch.h"

namespace bw {

PathSketch::PathSketch(QWidget* parent) : QWidget(parent) { setMinimumHeight(140); }
void PathSketch::setProject(const Project&) {}
void PathSketch::setAssessment(std::shared_ptr<const Assessment>) {}
void PathSketch::setStale(bool) {}

}  // namespace bw
