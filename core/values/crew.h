// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <atomic>
#include <exception>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

namespace bw {

/// Something to do that whoever has a hand free takes up, and that its owner takes up itself when nobody has.
class CrewTask {
 public:
  explicit CrewTask(std::function<void()> work) : m_work(std::move(work)), m_done(m_promise.get_future()) {}
  /// Does it, unless somebody has begun.
  void doUnlessBegun();
  /// Done when this returns, by whomever. Rethrows what it threw.
  void finish();
  /// Never begun from now on, or done.
  void drop();

 private:
  std::function<void()> m_work;
  std::atomic<bool> m_begun = false;
  std::promise<void> m_promise;
  std::future<void> m_done;
};

/// What is done beside the caller. `get()` once.
template <class T>
class Beside {
 public:
  Beside(std::shared_ptr<CrewTask> task, std::shared_ptr<std::optional<T>> made) : m_task(std::move(task)), m_made(std::move(made)) {}
  Beside(Beside&&) = default;
  ~Beside() {
    if (m_task) m_task->drop();
  }
  T get() {
    m_task->finish();
    return std::move(**m_made);
  }

 private:
  std::shared_ptr<CrewTask> m_task;
  std::shared_ptr<std::optional<T>> m_made;
};

/// The threads that a caller lends to a calculation; none, and all is done in turn. What comes out is the same. A task may ask for help
/// itself: what nobody has begun is done by whoever waits for it. A copy lends the same threads; they end with the last.
class Crew {
 public:
  Crew() = default;
  explicit Crew(int hands);

  /// `work()` beside the caller. What it captures must live until then.
  template <class F>
  auto beside(F work) const {
    using Made = decltype(work());
    if constexpr (std::is_void_v<Made>) {
      return beside([work = std::move(work)]() mutable {
        work();
        return true;
      });
    } else {
      auto made = std::make_shared<std::optional<Made>>();
      auto task = std::make_shared<CrewTask>([made, work = std::make_shared<F>(std::move(work))] { made->emplace((*work)()); });
      offer(task);
      return Beside<Made>(std::move(task), std::move(made));
    }
  }

  /// `work(i)` for every i below `count`, dealt out in turn to the caller and every hand.
  template <class F>
  void share(std::size_t count, const F& work) const {
    const std::size_t parts = std::clamp<std::size_t>(count, 1, static_cast<std::size_t>(m_hands) + 1);
    const auto part = [&](std::size_t first) {
      for (std::size_t i = first; i < count; i += parts) work(i);
    };
    std::vector<Beside<bool>> others;
    for (std::size_t first = 1; first < parts; ++first) {
      others.push_back(beside([&part, first] {
        part(first);
        return true;
      }));
    }
    part(0);
    for (Beside<bool>& other : others) other.get();
  }

 private:
  struct Pool;
  void offer(const std::shared_ptr<CrewTask>& task) const;
  int m_hands = 0;
  std::shared_ptr<Pool> m_pool;
};

}  // namespace bw
