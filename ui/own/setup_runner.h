// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/fit_picture.h"
#include "ui/runner/newest_work.h"

#include <QTimer>

namespace bw {

/// What the readings say of a machine.
struct SetupResult {
  Proposal proposal;
  std::vector<FitPicture> pictures;
};

/// Works out measurements in the background; of several asked for in a row only the newest counts. Busy until `found` is given out.
class SetupRunner : public QObject {
  Q_OBJECT
 public:
  explicit SetupRunner(QObject* parent = nullptr);

  void request(const Machine& machine, const Measurements& measurements);
  bool isBusy() const { return m_pause.isActive() || m_work.isBusy(); }

 signals:
  void found(const bw::SetupResult& result);

 private:
  void start();

  Machine m_machine;
  Measurements m_measurements;
  QTimer m_pause;  // until the hand rests
  NewestWork m_work;
};

}  // namespace bw
