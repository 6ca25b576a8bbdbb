// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/verdict_result.h"

#include <QColor>
#include <QFont>
#include <QIcon>
#include <QPalette>
#include <QString>

class QPainter;
class QRectF;

namespace bw {

enum class Theme { Light, Dark };

/// Distances between and inside things, in device-independent pixels.
namespace space {
inline constexpr int hair = 2;
inline constexpr int small = 4;
inline constexpr int medium = 8;
inline constexpr int large = 12;
inline constexpr int wide = 20;
inline constexpr int edgeStripe = 4;  // the coloured stripe of a state
inline constexpr int leastFont = 12;  // px, nothing on screen is smaller
inline constexpr int bodyFont = 13;
inline constexpr int headFont = 14;
inline constexpr int answerFont = 18;
}  // namespace space

/// The same font at the smallest size that is used.
QFont smallFont(QFont font, bool heavy = false);

/// Colours that a QPalette has no role for. All follow from the palette, so a palette change is enough to switch them.
struct Tones {
  QColor ink;      // text
  QColor quiet;    // secondary text, still readable
  QColor line;     // hairlines and grids
  QColor ground;   // behind everything
  QColor sheet;    // panels and plots, one step towards the viewer
  QColor accent;   // the one accent: what the eye shall find first in a plot
  QColor second;   // the other curve beside the accent
};

QPalette paletteOf(Theme theme);

/// Fusion, our palette and our font sizes for the whole program. May be called again at any time.
void applyTheme(Theme theme);

bool isDark(const QPalette& palette);
Tones tonesOf(const QPalette& palette);

/// So much of `over` laid on `under`, opaque.
QColor blend(const QColor& under, const QColor& over, double share);

/// Colour of a state: for edge stripes and shape fills only; text stays in normal ink.
QColor stateColour(Status status, const QPalette& palette);

/// "meets", "near limit", "fails", "not known".
QString stateWord(Status status);

/// The state's own shape, readable without its colour: disc, triangle, octagon, ring with a question mark.
void paintState(QPainter& painter, const QRectF& box, Status status, const QPalette& palette);
QPixmap statePixmap(Status status, int side_px, const QPalette& palette, double devicePixelRatio);

}  // namespace bw
