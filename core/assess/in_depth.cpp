// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/work.h"

namespace bw {

Assessment inDepth(const Project& project, const Library& shipped, const Assessment& first, std::stop_token stop) {
  Work work = prepare(project, first.plan, shipped, std::move(stop));
  return first;
}

}  // namespace bw
