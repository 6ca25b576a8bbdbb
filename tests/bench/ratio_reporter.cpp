// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/ratio_reporter.h"

#include <ostream>

namespace bw {

void RatioReporter::ReportRuns(const std::vector<Run>& runs) {
  ConsoleReporter::ReportRuns(runs);
  for (const Run& run : runs) note(run);
}

// With repetitions the median counts and comes last; without, the one run is all there is.
void RatioReporter::note(const Run& run) {
  const bool counts = run.run_type == Run::RT_Iteration || run.aggregate_name == "median";
  const std::string& name = run.run_name.function_name;
  const auto slash = name.rfind('/');
  if (!counts || slash == std::string::npos) return;
  const double time_s = run.GetAdjustedRealTime() / benchmark::GetTimeUnitMultiplier(run.time_unit);
  if (name.substr(slash) == "/ours") m_times[name.substr(0, slash)].ours_s = time_s;
  if (name.substr(slash) == "/plain") m_times[name.substr(0, slash)].plain_s = time_s;
}

void RatioReporter::Finalize() {
  for (const auto& [name, times] : m_times) {
    if (times.ours_s <= 0 || times.plain_s <= 0) continue;
    GetOutputStream() << name << ": ours " << times.ours_s * 1e3 << " ms, plain " << times.plain_s * 1e3 << " ms, plain / ours "
                      << times.plain_s / times.ours_s << '\n';
  }
}

}  // namespace bw
