// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <benchmark/benchmark.h>

#include <map>
#include <string>

namespace bw {

/// The usual table, and after it one ratio for every pair of cases named "NAME/ours" and "NAME/plain". Both come from the same run
/// on the same machine, so the ratio says something where a time alone does not.
class RatioReporter : public benchmark::ConsoleReporter {
 public:
  RatioReporter() : ConsoleReporter(OO_None) {}
  void ReportRuns(const std::vector<Run>& runs) override;
  void Finalize() override;

 private:
  struct Times {
    double ours_s = 0;
    double plain_s = 0;
  };
  void note(const Run& run);

  std::map<std::string, Times> m_times;
};

}  // namespace bw
