// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/carry/forecaster.h"

#include "core/library/prediction.h"

namespace bw {
namespace {

Forecast told(Assessment assessment, bool complete) {
  Forecast forecast{std::make_shared<const Assessment>(std::move(assessment)), {}, complete, {}};
  forecast.prediction = predictionOf(*forecast.assessment);
  return forecast;
}

Forecast first(const AssessmentRunner::Model& model, const Snapshot& snapshot, const std::stop_token& stop) {
  try {
    return told(model.assess(snapshot, stop, {}), !model.inDepth);
  } catch (const Stopped&) {
    return {};
  } catch (const std::exception& error) {
    return {nullptr, {}, true, QString::fromUtf8(error.what())};
  }
}

/// Where the look in depth fails, the first word holds, without ranges.
Forecast second(const AssessmentRunner::Model& model, const Snapshot& snapshot, Forecast forecast, const std::stop_token& stop) {
  try {
    return told(model.inDepth(snapshot, *forecast.assessment, stop), true);
  } catch (const std::exception&) {
    forecast.complete = true;
    return forecast;
  }
}

}  // namespace

Forecaster::Forecaster(AssessmentRunner::Model model, QObject* parent) : QObject(parent), m_model(std::move(model)), m_work(this) {}

void Forecaster::request(const RecipeVersion& version) {
  m_forecast = {};
  const Snapshot snapshot{std::make_shared<const Project>(projectOf(version)), version.plan.name};
  m_work.begin([model = m_model, snapshot](std::stop_token stop) { return first(model, snapshot, stop); },
               [this, snapshot](Forecast forecast) { take(snapshot, std::move(forecast)); });
  emit changed();
}

void Forecaster::cancel() {
  m_work.cancel();
  m_forecast = {};
}

void Forecaster::take(const Snapshot& snapshot, Forecast forecast) {
  m_forecast = std::move(forecast);
  if (!m_forecast.complete && m_forecast.assessment) {
    m_work.begin([model = m_model, snapshot, shown = m_forecast](std::stop_token stop) { return second(model, snapshot, shown, stop); },
                 [this, snapshot](Forecast deeper) { take(snapshot, std::move(deeper)); });
  }
  emit changed();
}

}  // namespace bw
