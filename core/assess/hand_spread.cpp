// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/hand_spread.h"

namespace bw {

namespace {

HandSpread typical(HandState state) {
  switch (state) {
    case HandState::Fresh:
      return {0.1, 3e-3, 0.03};
    case HandState::Tired:
      return {0.3, 8e-3, 0.09};
    case HandState::Overhead:
      return {0.4, 10e-3, 0.12};
    case HandState::Normal:
      break;
  }
  return {0.2, 5e-3, 0.06};
}

}  // namespace

HandSpread handSpread(const std::optional<Hand>& hand) {
  HandSpread spread = typical(hand ? hand->state : HandState::Normal);
  if (hand && hand->speedWander) spread.wander = *hand->speedWander;
  return spread;
}

}  // namespace bw
