// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/crew.h"

#include <condition_variable>
#include <deque>
#include <mutex>
#include <thread>
#include <vector>

namespace bw {

void CrewTask::doUnlessBegun() {
  if (m_begun.exchange(true)) return;
  try {
    m_work();
    m_promise.set_value();
  } catch (...) {
    m_promise.set_exception(std::current_exception());
  }
}

void CrewTask::finish() {
  doUnlessBegun();
  m_done.get();
}

void CrewTask::drop() {
  if (m_begun.exchange(true) && m_done.valid()) m_done.wait();
}

struct Crew::Pool {
  explicit Pool(int hands) {
    for (int i = 0; i < hands; ++i) threads.emplace_back([this](const std::stop_token& stop) { work(stop); });
  }

  void work(const std::stop_token& stop) {
    while (!stop.stop_requested()) {
      std::shared_ptr<CrewTask> next;
      {
        std::unique_lock lock(mutex);
        if (!offered.wait(lock, stop, [this] { return !tasks.empty(); })) return;
        next = std::move(tasks.front());
        tasks.pop_front();
      }
      next->doUnlessBegun();
    }
  }

  std::mutex mutex;
  std::condition_variable_any offered;
  std::deque<std::shared_ptr<CrewTask>> tasks;
  std::vector<std::jthread> threads;  // the first to go
};

Crew::Crew(int hands) : m_hands(std::max(0, hands)), m_pool(hands > 0 ? std::make_shared<Pool>(hands) : nullptr) {}

void Crew::offer(const std::shared_ptr<CrewTask>& task) const {
  if (!m_pool) return;
  {
    const std::scoped_lock lock(m_pool->mutex);
    m_pool->tasks.push_back(task);
  }
  m_pool->offered.notify_one();
}

}  // namespace bw
