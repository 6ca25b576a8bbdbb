// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFutureWatcher>
#include <QObject>
#include <QtConcurrent>

#include <stop_token>
#include <type_traits>

namespace bw {

/// Work in the background of which only the newest counts: a new piece stops the one before and drops its result. Nothing waits, not even
/// the destructor. To be held by `owner`, on whose thread results are given out.
class NewestWork {
 public:
  explicit NewestWork(QObject* owner) : m_owner(owner) {}
  ~NewestWork() { m_stop.request_stop(); }
  NewestWork(const NewestWork&) = delete;
  NewestWork& operator=(const NewestWork&) = delete;

  bool isBusy() const { return m_busy; }

  /// `work` gets the stop token, shares nothing with the window and throws nothing; `then` gets what it returns.
  template <class Work, class Then>
  void begin(Work work, Then then) {
    using Result = std::invoke_result_t<Work, std::stop_token>;
    cancel();
    m_busy = true;
    auto* watcher = new QFutureWatcher<Result>(m_owner);
    QObject::connect(watcher, &QFutureWatcherBase::finished, m_owner, [this, watcher, number = m_number, then = std::move(then)] {
      watcher->deleteLater();
      if (number != m_number) return;
      m_busy = false;
      then(watcher->result());
    });
    watcher->setFuture(QtConcurrent::run([work = std::move(work), stop = m_stop.get_token()]() -> Result {
      return stop.stop_requested() ? Result{} : work(stop);  // many may have waited for their turn in vain
    }));
  }

  void cancel() {
    m_stop.request_stop();
    m_stop = {};
    ++m_number;
    m_busy = false;
  }

 private:
  QObject* m_owner;
  std::stop_source m_stop;
  quint64 m_number = 0;
  bool m_busy = false;
};

}  // namespace bw
