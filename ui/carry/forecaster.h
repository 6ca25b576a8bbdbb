// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"
#include "ui/runner/assessment_runner.h"
#include "ui/runner/newest_work.h"

namespace bw {

/// What the model expects of a recipe's plan.
struct Forecast {
  std::shared_ptr<const Assessment> assessment;  // nothing where it cannot be told
  Prediction prediction;
  bool complete = false;  // nothing more is to come
  QString problem;        // why it cannot be told; empty otherwise
};

/// Assesses a recipe on its own part and coat in the background: at first, then in depth. Of several asked for only the newest counts.
class Forecaster : public QObject {
  Q_OBJECT
 public:
  explicit Forecaster(AssessmentRunner::Model model, QObject* parent = nullptr);

  void request(const RecipeVersion& version);
  void cancel();
  /// The newest word; without an assessment and a problem nothing is known yet.
  const Forecast& forecast() const { return m_forecast; }

 signals:
  void changed();

 private:
  void take(const Snapshot& snapshot, Forecast forecast);

  AssessmentRunner::Model m_model;
  Forecast m_forecast;
  NewestWork m_work;
};

}  // namespace bw
