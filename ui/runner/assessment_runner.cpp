// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/runner/assessment_runner.h"

#include "core/assess/stage_memo.h"
#include "core/files/library_file.h"
#include "core/start/first_guess.h"

#include <QThread>
#include <QtConcurrent>

#include <algorithm>

namespace bw {

AssessmentRunner::Model shippedModel() {
  const auto memo = std::make_shared<StageMemo>();
  const Crew crew(std::clamp(QThread::idealThreadCount() - 1, 1, 4));
  return {
      [memo, crew](const Snapshot& snapshot, std::stop_token stop, const TakeEarly& early) {
        return assess(*snapshot.project, snapshot.planName, shippedLibrary(), std::move(stop), snapshot.scene, {memo.get(), crew, early});
      },
      [memo, crew](const Snapshot& snapshot, const Assessment& now, std::stop_token stop) {
        return findRemedies(*snapshot.project, now, shippedLibrary(), std::move(stop), typicalOffers(snapshot.shop), memo.get(), crew);
      },
      [crew](const Snapshot& snapshot, const Assessment& first, std::stop_token stop) {
        return inDepth(*snapshot.project, shippedLibrary(), first, std::move(stop), crew);
      }};
}

AssessmentRunner::AssessmentRunner(Model model, QObject* parent) : QObject(parent), m_model(std::move(model)) {
  connect(&m_watcher, &QFutureWatcherBase::resultReadyAt, this, &AssessmentRunner::takeEarly);
  connect(&m_watcher, &QFutureWatcherBase::finished, this, &AssessmentRunner::finish);
  connect(&m_depthWatcher, &QFutureWatcherBase::finished, this, &AssessmentRunner::finishDepth);
  connect(&m_remedyWatcher, &QFutureWatcherBase::finished, this, &AssessmentRunner::finishRemedies);
}

AssessmentRunner::~AssessmentRunner() {
  m_stop.request_stop();
  m_stopAfter.request_stop();
}

void AssessmentRunner::request(Snapshot snapshot) {
  ++m_requests;
  if (snapshot.another) m_oldest = m_requests;
  m_newest = std::move(snapshot);
  m_stopAfter.request_stop();
  m_deepening = false;
  if (!m_assessing) {
    start();
  } else if (!m_mustFinish || m_newest.another) {
    m_stop.request_stop();
  }
}

void AssessmentRunner::start() {
  // Never stop two in a row: during a long drag every second run ends and is shown, instead of none.
  m_mustFinish = m_stop.stop_requested();
  m_stop = {};
  m_running = m_newest;
  m_runningRequest = m_requests;
  m_assessing = true;
  emit started();
  m_watcher.setFuture(
      QtConcurrent::run([assess = m_model.assess, snapshot = m_running, stop = m_stop.get_token()](QPromise<Outcome>& promise) {
        const auto early = [&promise](std::shared_ptr<const Assessment> dose) { promise.addResult(Outcome{std::move(dose), {}}); };
        try {
          promise.addResult(Outcome{std::make_shared<const Assessment>(assess(snapshot, stop, early)), {}});
        } catch (const Stopped&) {
          promise.addResult(Outcome{});
        } catch (const std::exception& error) {
          promise.addResult(Outcome{nullptr, QString::fromUtf8(error.what())});
        }
      }));
}

void AssessmentRunner::takeEarly(int index) {
  const auto& early = m_watcher.resultAt(index).assessment;
  if (early && early->doseOnly && m_runningRequest == m_requests) emit doseKnown(early);
}

void AssessmentRunner::finish() {
  const Outcome outcome = m_watcher.resultAt(m_watcher.future().resultCount() - 1);
  m_assessing = false;
  const quint64 finished = m_runningRequest;
  const bool isNewest = finished == m_requests;
  if (!isNewest) start();
  if (outcome.assessment && m_oldest <= finished) {
    if (isNewest) lookDeeper(outcome.assessment);
    emit assessed(outcome.assessment);
  } else if (isNewest && !outcome.problem.isEmpty()) {
    emit failed(outcome.problem);
  }
}

void AssessmentRunner::lookDeeper(std::shared_ptr<const Assessment> first) {
  m_stopAfter = {};
  if (!m_model.inDepth) return startRemedies(std::move(first));
  m_deepening = true;
  m_depthWatcher.setFuture(QtConcurrent::run(
      [look = m_model.inDepth, snapshot = m_running, first = std::move(first), stop = m_stopAfter.get_token()]() -> Outcome {
        try {
          return {std::make_shared<const Assessment>(look(snapshot, *first, stop)), {}};
        } catch (const std::exception&) {
          return {first, {}};  // the first assessment holds without its depth, and says that it has none
        }
      }));
}

void AssessmentRunner::finishDepth() {
  if (m_stopAfter.stop_requested()) return;
  m_deepening = false;
  const auto assessment = m_depthWatcher.result().assessment;
  startRemedies(assessment);
  emit assessed(assessment);
}

void AssessmentRunner::startRemedies(std::shared_ptr<const Assessment> assessment) {
  m_remedyWatcher.setFuture(QtConcurrent::run(
      [find = m_model.findRemedies, snapshot = m_running, assessment = std::move(assessment), stop = m_stopAfter.get_token()] {
        try {
          return find(snapshot, *assessment, stop);
        } catch (const std::exception&) {
          return std::vector<Remedy>{};  // remedies are an offer; what fails here has been said by the assessment
        }
      }));
}

void AssessmentRunner::finishRemedies() {
  if (m_stopAfter.stop_requested()) return;
  emit remediesFound(m_remedyWatcher.result());
}

}  // namespace bw
