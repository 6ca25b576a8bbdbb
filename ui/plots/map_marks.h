// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/style/theme.h"

namespace bw {

// Marks of size and direction laid over a map drawn at true proportion.

void paintThumb(QPainter& painter, const QRectF& box, double pixelsPerMm, const Tones& tones);

/// A bar of a round length, `most` pixels at most.
void paintScaleBar(QPainter& painter, const QRectF& box, double pixelsPerMm, double most, const Tones& tones);

/// An arrow in the corner: the hand travels upwards.
void paintTravel(QPainter& painter, const QRectF& box, const Tones& tones);

}  // namespace bw
