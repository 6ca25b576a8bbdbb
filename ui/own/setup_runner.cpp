// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/setup_runner.h"

#include <QtConcurrent>

namespace bw {
namespace {

constexpr int pause_ms = 120;

}  // namespace

SetupRunner::SetupRunner(QObject* parent) : QObject(parent) {
  m_pause.setSingleShot(true);
  m_pause.setInterval(pause_ms);
  connect(&m_pause, &QTimer::timeout, this, &SetupRunner::start);
  connect(&m_watcher, &QFutureWatcher<SetupResult>::finished, this, [this] {
    if (m_again) return start();
    if (!m_pause.isActive()) emit found(m_watcher.result());
  });
}

SetupRunner::~SetupRunner() { m_watcher.waitForFinished(); }

void SetupRunner::request(const Machine& machine, const Measurements& measurements) {
  m_machine = machine;
  m_measurements = measurements;
  m_pause.start();
}

void SetupRunner::start() {
  m_again = m_watcher.isRunning();
  if (m_again) return;
  m_watcher.setFuture(QtConcurrent::run([machine = m_machine, measurements = m_measurements] {
    Proposal proposal = proposeMachine(machine, measurements);
    auto pictures = picturesOf(machine, measurements, proposal);
    return SetupResult{std::move(proposal), std::move(pictures)};
  }));
}

}  // namespace bw
