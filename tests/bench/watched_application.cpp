// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/watched_application.h"

#include <QEvent>
#include <QThread>

#include <ctime>

namespace bw {

namespace {

double seconds(Clock::duration duration) { return std::chrono::duration<double>(duration).count(); }

}  // namespace

double threadTime_s() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

bool WatchedApplication::notify(QObject* receiver, QEvent* event) {
  const bool paints = event->type() == QEvent::UpdateRequest;  // before the receiver, which may delete the event
  const auto begin = Clock::now();
  ++m_depth;
  const bool result = QApplication::notify(receiver, event);
  --m_depth;
  const auto end = Clock::now();
  if (m_depth == 0) m_longest_s = std::max(m_longest_s, seconds(end - begin));
  if (paints) m_painted = {end, threadTime_s(), m_longest_s};
  return result;
}

Painted WatchedApplication::settled() {
  using namespace std::chrono_literals;
  const auto asked = Clock::now();
  while (Clock::now() - std::max(asked, m_painted.at) < 50ms) {
    processEvents();
    QThread::msleep(1);
  }
  return m_painted;
}

}  // namespace bw
