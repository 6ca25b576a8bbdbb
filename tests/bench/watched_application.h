// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QApplication>

#include <chrono>

namespace bw {

using Clock = std::chrono::steady_clock;  // the same in every process of a machine

/// How far the interface's thread has come, and at what cost.
struct Painted {
  Clock::time_point at;
  double threadTime_s = 0;    // processor time of the interface's thread since it began
  double longestEvent_s = 0;  // in one event, since `watch`
};

double threadTime_s();

/// Notes when a window was last painted and how long single events kept the interface's thread.
class WatchedApplication : public QApplication {
 public:
  using QApplication::QApplication;

  bool notify(QObject* receiver, QEvent* event) override;

  /// Starts anew with the longest event.
  void watch() { m_longest_s = 0; }

  /// Lets the window paint until nothing has been painted for a twentieth of a second; the last time it was.
  Painted settled();

 private:
  int m_depth = 0;
  double m_longest_s = 0;
  Painted m_painted;
};

}  // namespace bw
