// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/remembered_model.h"

#include "core/files/library_file.h"
#include "core/files/project_file.h"
#include "tests/support/fake_assessment.h"
#include "tests/support/thorough.h"
#include "tests/ui/deepened.h"

#include <map>
#include <memory>
#include <mutex>

namespace bw::test {
namespace {

std::string keyOf(const Snapshot& snapshot) {
  return writeProject(*snapshot.project, shippedLibrary()) + snapshot.planName + std::to_string(static_cast<int>(snapshot.scene.scene)) +
         std::to_string(snapshot.scene.still_s);
}

/// Answers by what was asked. Whoever is stopped leaves nothing behind.
template <class Answer>
class Memory {
 public:
  template <class Reckon>
  Answer answer(const std::string& key, Reckon reckon) {
    {
      const std::lock_guard lock(m_mutex);
      if (const auto known = m_answers.find(key); known != m_answers.end()) return known->second;
    }
    Answer fresh = reckon();
    const std::lock_guard lock(m_mutex);
    return m_answers.emplace(key, std::move(fresh)).first->second;
  }

 private:
  std::mutex m_mutex;
  std::map<std::string, Answer> m_answers;
};

}  // namespace

AssessmentRunner::Model rememberedModel() {
  static const auto first = std::make_shared<Memory<Assessment>>(), deep = std::make_shared<Memory<Assessment>>();
  static const auto remedies = std::make_shared<Memory<std::vector<Remedy>>>();
  const AssessmentRunner::Model model = shippedModel();
  return {[model](const Snapshot& asked, std::stop_token stop, const TakeEarly& early) {
            return first->answer(keyOf(asked), [&] { return model.assess(asked, stop, early); });
          },
          [model](const Snapshot& asked, const Assessment& now, std::stop_token stop) {
            const std::string key = keyOf(asked) + (now.ranges ? " in depth" : "");
            return remedies->answer(key, [&] { return model.findRemedies(asked, now, stop); });
          },
          [model](const Snapshot& asked, const Assessment& now, std::stop_token stop) {
            return deep->answer(keyOf(asked), [&] { return model.inDepth(asked, now, stop); });
          }};
}

AssessmentRunner::Model pictureModel() {
  if (thorough()) return rememberedModel();
  return {[](const Snapshot&, std::stop_token, const TakeEarly&) { return *fake::firstGuess(); },
          [](const Snapshot&, const Assessment&, std::stop_token) { return fake::remedies(); },
          [](const Snapshot&, const Assessment& now, std::stop_token) { return fake::deepened(now); }};
}

}  // namespace bw::test
