// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/fit_picture.h"

#include <QFutureWatcher>
#include <QTimer>

namespace bw {

/// What the readings say of a machine.
struct SetupResult {
  Proposal proposal;
  std::vector<FitPicture> pictures;
};

/// Works out measurements in the background; of several asked for in a row only the newest counts.
class SetupRunner : public QObject {
  Q_OBJECT
 public:
  explicit SetupRunner(QObject* parent = nullptr);
  ~SetupRunner() override;

  void request(const Machine& machine, const Measurements& measurements);
  bool isBusy() const { return m_pause.isActive() || m_watcher.isRunning(); }

 signals:
  void found(const bw::SetupResult& result);

 private:
  void start();

  Machine m_machine;
  Measurements m_measurements;
  QTimer m_pause;  // until the hand rests
  bool m_again = false;
  QFutureWatcher<SetupResult> m_watcher;
};

}  // namespace bw
