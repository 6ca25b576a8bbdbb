// SPDX-License-Identifier: GPL-3.0-or-later

// Any bytes end in a bundle or in problems, each with its place and on one line; and a bundle that was read is written and read again as
// the same. Built with clang's libFuzzer where there is one (tests/fuzz/run.sh), and always with mutations.cpp, which replays the seeds and
// changes them at random.

#include "core/exchange/bundle_file.h"

#include <cstdint>
#include <cstdio>
#include <cstdlib>

using namespace bw;

namespace {

void demand(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %s\n", what);
  std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const BundleReadResult first = readBundle({reinterpret_cast<const char*>(data), size});
  for (const Problem& problem : first.problems) {
    demand(problem.path.starts_with("$") && !problem.message.empty(), "a problem has a place and words");
    demand((problem.path + problem.message).find_first_of("\r\n") == std::string::npos, "a problem stands on one line");
  }
  if (!first.problems.empty()) return 0;
  const std::string text = writeBundle(first.bundle);
  const BundleReadResult second = readBundle(text);
  demand(second.problems.empty(), "what was written can be read");
  demand(writeBundle(second.bundle) == text, "what was read again is written the same");
  return 0;
}
