// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/carried_recipe.h"
#include "ui/carry/forecaster.h"

namespace bw {

/// A recipe, the machine it is to be carried to, and all that is known of it there and here. Works in the background; of several machines
/// in a row only the newest counts.
class CarryWork : public QObject {
  Q_OBJECT
 public:
  CarryWork(RecipeVersion version, AssessmentRunner::Model model, QObject* parent = nullptr);

  void carryTo(const Machine& machine);

  const RecipeVersion& before() const { return m_before; }
  const std::optional<Machine>& machine() const { return m_machine; }
  /// Nothing while it is being worked out, or where it cannot be.
  const std::shared_ptr<const CarriedRecipe>& after() const { return m_after; }
  /// Why it cannot be carried there; empty otherwise.
  const QString& problem() const { return m_problem; }
  const Forecast& forecastBefore() const { return m_forecastBefore->forecast(); }
  const Forecast& forecastAfter() const { return m_forecastAfter->forecast(); }

 signals:
  void carried();   // or failed, or begun anew
  void forecast();  // more is known of one of the two

 private:
  RecipeVersion m_before;
  std::optional<Machine> m_machine;
  std::shared_ptr<const CarriedRecipe> m_after;
  QString m_problem;
  Forecaster* m_forecastBefore;
  Forecaster* m_forecastAfter;
  NewestWork m_carrying;
};

}  // namespace bw
