// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"

#include <QWidget>
#include <memory>
#include <vector>

namespace bw {

/// The verdict: one row for each question, folded where it is met; remedies; what to find out next; the cautions, always.
class VerdictPanel : public QWidget {
  Q_OBJECT

 public:
  explicit VerdictPanel(QWidget* parent = nullptr);

  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setRemedies(std::vector<Remedy> remedies);  // best first; at most three a row are shown
  void setStale(bool stale);

 signals:
  void remedyHovered(int index);  // into the remedies given; -1 when the pointer or focus leaves
  void remedyChosen(int index);
};

}  // namespace bw
