// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/carry/carry_work.h"

namespace bw {
namespace {

struct Outcome {
  std::shared_ptr<const CarriedRecipe> recipe;
  QString problem;
};

Outcome carriedIn(const RecipeVersion& version, const Machine& machine) {
  try {
    return {std::make_shared<const CarriedRecipe>(carriedTo(version, machine)), {}};
  } catch (const std::exception& error) {
    return {nullptr, QString::fromUtf8(error.what())};
  }
}

}  // namespace

CarryWork::CarryWork(RecipeVersion version, AssessmentRunner::Model model, QObject* parent)
    : QObject(parent),
      m_before(std::move(version)),
      m_forecastBefore(new Forecaster(model, this)),
      m_forecastAfter(new Forecaster(std::move(model), this)),
      m_carrying(this) {
  connect(m_forecastBefore, &Forecaster::changed, this, &CarryWork::forecast);
  connect(m_forecastAfter, &Forecaster::changed, this, &CarryWork::forecast);
}

void CarryWork::carryTo(const Machine& machine) {
  const bool first = !m_machine;
  m_machine = machine;
  m_after.reset();
  m_problem.clear();
  m_forecastAfter->cancel();
  m_carrying.begin([version = m_before, machine](std::stop_token) { return carriedIn(version, machine); },
                   [this](const Outcome& outcome) {
                     m_after = outcome.recipe;
                     m_problem = outcome.problem;
                     emit carried();
                     if (m_after) m_forecastAfter->request(m_after->version);
                   });
  emit carried();
  if (first) m_forecastBefore->request(m_before);
}

}  // namespace bw
