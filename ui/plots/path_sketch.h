// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>
#include <memory>

namespace bw {

/// The scan frame small and true: its path lit and dark, turnarounds, travel; magnified, the spot against line spacing and pulse step.
class PathSketch : public QWidget {
  Q_OBJECT

 public:
  explicit PathSketch(QWidget* parent = nullptr);

  void setProject(const Project& project);  // for the direction of travel
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);
};

}  // namespace bw
