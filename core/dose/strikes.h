// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/dose/repeat_cell.h"

namespace bw {

/// What strikes within some radius of a place in one pass.
struct Strikes {
  double pulses = 0;  // 0 under a continuous beam, which passes over
  int lines = 0;      // passages of the beam: how often it comes so near and goes away again
};

/// In the endless steady state: every frame before and after, every neighbouring swath. `rows` of one frame; `pulseEnergy_J` 0 under a
/// continuous beam. Each row is met by the chord that the circle cuts off it, however many pulses it holds. Nothing where that would be
/// more chords than a reader can wait for.
std::optional<Strikes> strikesAt(const std::vector<DabRow>& rows, const RepeatCell& cell, double radius_m, const Point& place,
                                 double pulseEnergy_J);

}  // namespace bw
