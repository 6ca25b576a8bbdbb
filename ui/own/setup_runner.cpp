// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/setup_runner.h"

namespace bw {
namespace {

constexpr int pause_ms = 120;

SetupResult setUp(const Machine& machine, const Measurements& measurements) {
  Proposal proposal = proposeMachine(machine, measurements);
  auto pictures = picturesOf(machine, measurements, proposal);
  return {std::move(proposal), std::move(pictures)};
}

}  // namespace

SetupRunner::SetupRunner(QObject* parent) : QObject(parent), m_work(this) {
  m_pause.setSingleShot(true);
  m_pause.setInterval(pause_ms);
  connect(&m_pause, &QTimer::timeout, this, &SetupRunner::start);
}

void SetupRunner::request(const Machine& machine, const Measurements& measurements) {
  m_machine = machine;
  m_measurements = measurements;
  m_work.cancel();
  m_pause.start();
}

void SetupRunner::start() {
  m_work.begin([machine = m_machine, measurements = m_measurements](std::stop_token) { return setUp(machine, measurements); },
               [this](const SetupResult& result) { emit found(result); });
}

}  // namespace bw
