// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/values/crew.h"

#include "tests/support/catch.h"

#include <numeric>
#include <stdexcept>
#include <thread>

using namespace bw;

TEST_CASE("However many hands there are, everything is done once, and comes out where it belongs", "[values]") {
  for (const int hands : {-1, 0, 1, 2, 5}) {
    CAPTURE(hands);
    const Crew crew(hands);
    for (const std::size_t count : {0U, 1U, 2U, 7U, 1000U}) {
      std::vector<std::atomic<int>> times(count);
      crew.share(count, [&](std::size_t i) { ++times[i]; });
      for (const auto& one : times) CHECK(one == 1);
    }
    auto sum = crew.beside([] { return std::string("beside"); });
    CHECK(sum.get() == "beside");
  }
}

TEST_CASE("A task that waits for tasks of its own never waits for ever", "[values]") {
  const Crew crew(1);  // the one hand is busy with the outermost
  std::function<int(int)> fibonacci = [&](int n) -> int {
    if (n < 2) return n;
    auto other = crew.beside([&, n] { return fibonacci(n - 1); });
    const int own = fibonacci(n - 2);
    return own + other.get();
  };
  CHECK(fibonacci(15) == 610);
}

TEST_CASE("What a task throws is thrown at whoever waits for it", "[values]") {
  for (const int hands : {0, 2}) {
    const Crew crew(hands);
    auto failing = crew.beside([]() -> int { throw std::runtime_error("no light"); });
    CHECK_THROWS_WITH(failing.get(), "no light");
    CHECK_THROWS_WITH(crew.share(10, [](std::size_t i) {
      if (i == 7) throw std::runtime_error("seven");
    }),
                      "seven");
    CHECK(crew.beside([] { return 3; }).get() == 3);  // and goes on
  }
}

TEST_CASE("A task that nobody waits for any more uses nothing of its owner's afterwards", "[values]") {
  for (const int hands : {0, 2}) {
    const Crew crew(hands);
    for (int i = 0; i < 200; ++i) {
      auto used = std::make_unique<std::atomic<int>>(0);
      {
        auto dropped = crew.beside([&used] {
          for (int k = 0; k < 100; ++k) ++*used;
        });
      }
      const int then = *used;
      CHECK((then == 0 || then == 100));  // never begun, or done
      std::this_thread::yield();
      CHECK(*used == then);
    }
  }
}
