// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/assess.h"

#include <QFutureWatcher>
#include <QObject>

#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace bw {

/// What to assess: a copy, so that the worker shares nothing with the window.
struct Snapshot {
  std::shared_ptr<const Project> project;
  std::string planName;
  SceneRequest scene = {};  // which part of the work the dose map shows
  bool another = false;     // another project than before: results for earlier snapshots are of no use
  std::vector<Machine> shop = {};  // machines that may be offered besides
};

/// Assesses the newest snapshot in the background, then looks into it in depth, then for remedies. Starts at once when idle; when busy
/// it keeps only the newest. Nothing here ever waits for a worker, not even the destructor: a worker that is left over ends on its own.
class AssessmentRunner : public QObject {
  Q_OBJECT
 public:
  /// The calculations, so that a test can put its own in their place.
  struct Model {
    std::function<Assessment(const Snapshot&, std::stop_token, const TakeEarly&)> assess;
    std::function<std::vector<Remedy>(const Snapshot&, const Assessment&, std::stop_token)> findRemedies;
    std::function<Assessment(const Snapshot&, const Assessment&, std::stop_token)> inDepth = {};  // nothing: the first word is the last
  };

  explicit AssessmentRunner(Model model, QObject* parent = nullptr);
  ~AssessmentRunner() override;

  void request(Snapshot snapshot);
  bool isBusy() const { return m_assessing; }
  /// The newest assessment is there, and the same one in depth is on its way.
  bool isLookingDeeper() const { return m_deepening; }

 signals:
  void started();
  void doseKnown(std::shared_ptr<const bw::Assessment> early);      // of the newest snapshot, before the rest
  void assessed(std::shared_ptr<const bw::Assessment> assessment);  // the newest comes a second time, in depth
  void remediesFound(std::vector<bw::Remedy> remedies);
  void failed(const QString& message);

 private:
  struct Outcome {
    std::shared_ptr<const Assessment> assessment;  // nothing when stopped or failed; of the dose alone, another follows
    QString problem;
  };

  void start();
  void takeEarly(int index);
  void finish();
  void lookDeeper(std::shared_ptr<const Assessment> first);
  void finishDepth();
  void startRemedies(std::shared_ptr<const Assessment> assessment);
  void finishRemedies();

  Model m_model;
  Snapshot m_newest;
  Snapshot m_running;
  bool m_assessing = false;
  bool m_deepening = false;
  bool m_mustFinish = false;
  quint64 m_requests = 0;  // numbers the snapshots
  quint64 m_runningRequest = 0;
  quint64 m_oldest = 0;  // results for earlier requests are dropped
  std::stop_source m_stop;
  std::stop_source m_stopAfter;  // for what follows the first assessment
  QFutureWatcher<Outcome> m_watcher;
  QFutureWatcher<Outcome> m_depthWatcher;
  QFutureWatcher<std::vector<Remedy>> m_remedyWatcher;
};

/// The program's own calculations with the shipped library.
AssessmentRunner::Model shippedModel();

}  // namespace bw
