// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/assess/easy_project.h"
#include "tests/core/assess/examples.h"
#include "tests/support/catch.h"
#include "tests/support/thorough.h"

#include <regex>
#include <set>

using namespace bw;
using namespace bw::test;

TEST_CASE("Every verdict has the same eight rows, each with a message", "[assess]") {
  const std::set<std::string> checks{"removal", "evenness", "temperature", "flatness", "finish", "machine", "time", "safety"};
  for (const Variation& variation : sampled(variations(), 3)) {
    const Assessment a = assessed(varied(variation));
    std::set<std::string> seen;
    CAPTURE(variation.name);
    for (const VerdictRow& row : a.verdict) {
      CAPTURE(row.check);
      seen.insert(row.check);
      CHECK_FALSE(row.question.empty());
      CHECK_FALSE(row.message.empty());
      if (row.status == Status::Fails) CHECK_FALSE(row.remedy.empty());
      if (row.status == Status::Meets) CHECK(row.remedy.empty());
    }
    CHECK(seen == checks);
    CHECK(a.verdict.size() == 8);
    CHECK(a.answer.find("prove on a patch") != std::string::npos);
  }
}

TEST_CASE("No text of an assessment calls anything safe", "[assess]") {
  for (const Variation& variation : sampled(variations(), 3, 1)) {
    const Assessment a = assessed(varied(variation));
    std::vector<std::string> words = a.notes;
    words.push_back(a.answer);
    for (const VerdictRow& row : a.verdict) words.insert(words.end(), {row.message, row.remedy});
    const std::regex safe("\\bsafe(ly)?\\b", std::regex::icase);  // the safety officer may be named
    for (const std::string& text : words) {
      CAPTURE(text);
      CHECK_FALSE(std::regex_search(text, safe));
    }
  }
}

TEST_CASE("A coat nobody knows never plainly comes off", "[assess]") {
  REQUIRE(rowOf(assessed(easyProject()), "removal").status == Status::Meets);
  for (const char* coating : sampled<const char*>({"unknown", "unknown-dark", "unknown-pale", "unknown-powder", "unknown-rust"}, 2)) {
    for (const int passes : {1, 50}) {
      Project project = easyProject();
      project.coat[0].coating = coating;
      settingsOf(project).passes = passes;
      const Assessment a = assessed(project);
      CAPTURE(coating, passes);
      CHECK(rowOf(a, "removal").status != Status::Meets);
      CHECK_FALSE(a.findOutNext.empty());
    }
  }
}
