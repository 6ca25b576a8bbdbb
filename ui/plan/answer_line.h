// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assessment.h"

#include <QWidget>
#include <memory>

namespace bw {

/// The one sentence over every workspace, with the shape of the worst state and the key numbers, each of which opens its working.
class AnswerLine : public QWidget {
  Q_OBJECT

 public:
  explicit AnswerLine(QWidget* parent = nullptr);

  void setProject(const Project& project);  // for the currency
  void setAssessment(std::shared_ptr<const Assessment> assessment);
  void setStale(bool stale);
  void setProblem(const QString& sentence);  // instead of an answer, where the project cannot be assessed; empty clears
};

}  // namespace bw
