// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/learn/learnt.h"
#include "core/values/range.h"

#include <optional>
#include <vector>

namespace bw {

/// How long the head took for one scan line with the turn after it: the frame's time over its lines, or one over the lines in a second.
struct LineTime {
  double length_m = 0;   // dialled
  double speed_m_s = 0;  // dialled
  Measured time_s;
  bool operator==(const LineTime&) const = default;
};

struct TurnaroundFit {
  Range turnaround_s;
  std::optional<Range> speedShare;  // of the dialled speed, where the lines tell that it is not kept
};

/// By the rules of the frame (scan/frame.h) a line takes length/speed + turnaround. The mean of what is left beside length/speed; where all
/// were run at one speed and what is left grows with the length, the speed that is really kept is told as a share of the dialled one.
Learnt<TurnaroundFit> fitTurnaround(const std::vector<LineTime>& lines);

}  // namespace bw
