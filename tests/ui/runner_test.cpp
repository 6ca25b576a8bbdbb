// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/runner/assessment_runner.h"

#include "tests/support/catch.h"

#include <QSemaphore>
#include <QtTest>

#include <atomic>

using namespace bw;

namespace {

Snapshot snapshot(int number, bool another = false) {
  auto project = std::make_shared<Project>();
  project->name = std::to_string(number);
  return {project, "plan", {}, another};
}

/// A model that holds each calculation until it is let go or told to stop.
struct Held {
  QSemaphore gate;
  std::atomic<int> begun = 0;
  AssessmentRunner::Model model() {
    return {[this](const Snapshot& one, std::stop_token stop, const TakeEarly&) {
              ++begun;
              while (!gate.tryAcquire(1, 5)) {
                if (stop.stop_requested()) throw Stopped();
              }
              Assessment assessment;
              assessment.plan = one.project->name;
              return assessment;
            },
            [](const Snapshot&, const Assessment&, std::stop_token) { return std::vector<Remedy>(2); }};
  }
};

struct Listener {
  explicit Listener(AssessmentRunner& runner) {
    QObject::connect(&runner, &AssessmentRunner::assessed, [this](const auto& assessment) { plans.push_back(assessment->plan); });
    QObject::connect(&runner, &AssessmentRunner::remediesFound, [this](const auto& found) { remedies.push_back(found.size()); });
    QObject::connect(&runner, &AssessmentRunner::failed, [this](const QString& message) { failures << message; });
  }
  std::vector<std::string> plans;
  std::vector<std::size_t> remedies;
  QStringList failures;
};

}  // namespace

TEST_CASE("While busy only the newest snapshot is kept, and the running one is stopped", "[runner]") {
  Held held;
  AssessmentRunner runner(held.model());
  Listener listener(runner);
  runner.request(snapshot(1));
  REQUIRE(QTest::qWaitFor([&] { return held.begun == 1; }));
  for (int number = 2; number <= 9; ++number) runner.request(snapshot(number));
  REQUIRE(QTest::qWaitFor([&] { return held.begun == 2; }));
  held.gate.release();
  REQUIRE(QTest::qWaitFor([&] { return !listener.remedies.empty(); }));
  CHECK(listener.plans == std::vector<std::string>{"9"});
  CHECK(listener.remedies == std::vector<std::size_t>{2});
  CHECK(held.begun == 2);
}

TEST_CASE("The dose is told before the rest, of the newest snapshot only", "[runner]") {
  QSemaphore gate;
  std::atomic<int> told = 0;
  AssessmentRunner runner({[&](const Snapshot& one, std::stop_token, const TakeEarly& early) {
                             auto dose = std::make_shared<Assessment>();
                             dose->plan = one.project->name;
                             dose->doseOnly = true;
                             early(dose);
                             ++told;
                             gate.acquire();
                             Assessment whole;
                             whole.plan = one.project->name;
                             return whole;
                           },
                           [](const Snapshot&, const Assessment&, std::stop_token) { return std::vector<Remedy>{}; }});
  Listener listener(runner);
  std::vector<std::string> early;
  QObject::connect(&runner, &AssessmentRunner::doseKnown, [&](const auto& dose) {
    CHECK(dose->doseOnly);
    CHECK(runner.isBusy());
    early.push_back(dose->plan);
  });
  runner.request(snapshot(1));
  REQUIRE(QTest::qWaitFor([&] { return early.size() == 1; }));
  CHECK(listener.plans.empty());
  gate.release();
  REQUIRE(QTest::qWaitFor([&] { return !listener.plans.empty(); }));
  CHECK(listener.plans == std::vector<std::string>{"1"});

  runner.request(snapshot(2));
  while (told < 2) QThread::msleep(1);
  runner.request(snapshot(3));  // before the dose of 2 was taken
  gate.release(2);
  REQUIRE(QTest::qWaitFor([&] { return listener.plans.back() == "3"; }));
  CHECK(early == std::vector<std::string>{"1", "3"});
}

TEST_CASE("A stream of edits does not starve: the run after a stopped one ends and is shown", "[runner]") {
  Held held;
  AssessmentRunner runner(held.model());
  Listener listener(runner);
  runner.request(snapshot(1));
  runner.request(snapshot(2));
  REQUIRE(QTest::qWaitFor([&] { return held.begun == 2; }));
  runner.request(snapshot(3));
  held.gate.release();
  REQUIRE(QTest::qWaitFor([&] { return !listener.plans.empty(); }));
  CHECK(listener.plans == std::vector<std::string>{"2"});
  held.gate.release();
  REQUIRE(QTest::qWaitFor([&] { return listener.plans.size() == 2; }));
  CHECK(listener.plans.back() == "3");
}

TEST_CASE("Asking again for what is just being stopped gives a result all the same", "[runner]") {
  Held held;
  AssessmentRunner runner(held.model());
  Listener listener(runner);
  const Snapshot endless = snapshot(1);
  Snapshot corner = endless;
  corner.scene.scene = Scene::Corner;
  runner.request(endless);
  REQUIRE(QTest::qWaitFor([&] { return held.begun == 1; }));
  runner.request(corner);
  runner.request(endless);
  held.gate.release(2);
  REQUIRE(QTest::qWaitFor([&] { return !listener.remedies.empty(); }));
  CHECK(listener.plans.back() == "1");
  CHECK_FALSE(runner.isBusy());
}

TEST_CASE("Another project drops what is still on its way for the one before", "[runner]") {
  Held held;
  AssessmentRunner runner(held.model());
  Listener listener(runner);
  runner.request(snapshot(1));
  runner.request(snapshot(2));
  REQUIRE(QTest::qWaitFor([&] { return held.begun == 2; }));
  runner.request(snapshot(3, true));
  held.gate.release(2);
  REQUIRE(QTest::qWaitFor([&] { return !runner.isBusy(); }));
  CHECK(listener.plans == std::vector<std::string>{"3"});
}

TEST_CASE("What cannot be assessed is told in the words of the model", "[runner]") {
  AssessmentRunner runner({[](const Snapshot&, std::stop_token, const TakeEarly&) -> Assessment {
                             throw Unusable("no spot: a spot diameter above 0 is accepted");
                           },
                           [](const Snapshot&, const Assessment&, std::stop_token) { return std::vector<Remedy>{}; }});
  Listener listener(runner);
  runner.request(snapshot(1));
  REQUIRE(QTest::qWaitFor([&] { return !listener.failures.isEmpty(); }));
  CHECK(listener.failures.front().contains("spot diameter above 0"));
  CHECK(listener.plans.empty());
}

TEST_CASE("A runner goes away while its worker is still at work, and the worker ends by itself", "[runner]") {
  Held held;
  auto runner = std::make_unique<AssessmentRunner>(held.model());
  runner->request(snapshot(1));
  REQUIRE(QTest::qWaitFor([&] { return held.begun == 1; }));
  runner.reset();
  CHECK(QThreadPool::globalInstance()->waitForDone(10000));  // the gate stays shut: only the stop can have ended it
}

TEST_CASE("An assessment comes a second time, in depth, and the remedies are looked for with it", "[runner]") {
  Held held;
  AssessmentRunner::Model model = held.model();
  std::string lookedWith;
  model.inDepth = [](const Snapshot&, const Assessment& first, std::stop_token) {
    Assessment deep = first;
    deep.ranges = Ranges{};
    return deep;
  };
  model.findRemedies = [&lookedWith](const Snapshot&, const Assessment& now, std::stop_token) {
    lookedWith = now.ranges ? "in depth" : "first";
    return std::vector<Remedy>(1);
  };
  AssessmentRunner runner(model);
  Listener listener(runner);
  std::vector<bool> deep, more;
  QObject::connect(&runner, &AssessmentRunner::assessed, [&](const auto& assessment) {
    deep.push_back(assessment->ranges.has_value());
    more.push_back(runner.isLookingDeeper());
  });
  runner.request(snapshot(1));
  held.gate.release();
  REQUIRE(QTest::qWaitFor([&] { return !listener.remedies.empty(); }));
  CHECK(deep == std::vector<bool>{false, true});
  CHECK(more == std::vector<bool>{true, false});
  CHECK(lookedWith == "in depth");
}

TEST_CASE("A newer snapshot stops the look into depth, and its late result is never shown", "[runner]") {
  Held held;
  std::atomic<int> looking = 0, stopped = 0;
  AssessmentRunner::Model model = held.model();
  model.inDepth = [&](const Snapshot& one, const Assessment& first, std::stop_token stop) {
    ++looking;
    while (one.project->name == "1") {
      if (stop.stop_requested()) {
        ++stopped;
        throw Stopped();
      }
      QThread::msleep(1);
    }
    return first;
  };
  AssessmentRunner runner(model);
  Listener listener(runner);
  runner.request(snapshot(1));
  held.gate.release();
  REQUIRE(QTest::qWaitFor([&] { return looking == 1; }));
  CHECK_FALSE(runner.isBusy());  // the first assessment is there: nothing is dimmed
  runner.request(snapshot(2));
  CHECK_FALSE(runner.isLookingDeeper());
  held.gate.release();
  REQUIRE(QTest::qWaitFor([&] { return !listener.remedies.empty(); }));
  CHECK(stopped == 1);
  CHECK(listener.plans == std::vector<std::string>{"1", "2", "2"});
  CHECK(listener.remedies.size() == 1);
}

TEST_CASE("Where looking deeper fails the first assessment holds, and remedies are looked for with it", "[runner]") {
  Held held;
  AssessmentRunner::Model model = held.model();
  model.inDepth = [](const Snapshot&, const Assessment&, std::stop_token) -> Assessment { throw Unusable("too much to compute"); };
  AssessmentRunner runner(model);
  Listener listener(runner);
  runner.request(snapshot(1));
  held.gate.release();
  REQUIRE(QTest::qWaitFor([&] { return !listener.remedies.empty(); }));
  CHECK(listener.plans == std::vector<std::string>{"1", "1"});
  CHECK_FALSE(runner.isLookingDeeper());
  CHECK(listener.failures.isEmpty());
}
