// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/substance.h"

#include <QColor>

class QPainter;
class QPainterPath;

namespace bw {

/// Line patterns that tell areas apart without colour. Drawn as lines, so they stay crisp at any scale and in vector files.
enum class Hatch { None, Diagonal, Dots, Waves, Flakes, Crossed, Metal };

Hatch hatchOf(Behaviour behaviour);
QString behaviourWord(Behaviour behaviour);  // "leaves as vapour and dust", ...

void paintHatch(QPainter& painter, const QPainterPath& area, Hatch hatch, const QColor& line);

/// The paint's own colour: the layer's word or #rrggbb, else that of its coating in the project's library or the shipped one, else grey.
QColor layerColour(const Layer& layer, const Library& library);

/// A layer's behaviour, its own or the library's.
Behaviour behaviourOf(const Layer& layer, const Library& library);

/// Ink for lines and text on that colour.
QColor inkOn(const QColor& ground);

}  // namespace bw
