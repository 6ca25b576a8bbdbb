// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFlags>

namespace bw {

/// What an edit touched, so that a listener refreshes only what it draws.
enum class Change : unsigned {
  Name = 1u << 0,
  Part = 1u << 1,
  Coat = 1u << 2,
  Machines = 1u << 3,
  Settings = 1u << 4,   // of the step shown
  Plans = 1u << 5,      // which there are, their names and machines
  Shown = 1u << 6,      // another plan or step is shown; nothing was edited
  File = 1u << 7,       // path or saved state
  Shop = 1u << 8,       // room, people, extraction and prices
  Everything = 0x1ffu,  // another project
};
Q_DECLARE_FLAGS(Changes, Change)
Q_DECLARE_OPERATORS_FOR_FLAGS(Changes)

/// How a value came about: whole (typed, chosen) or as one of many small steps (keys, wheel, drag), which undo together.
enum class EditKind { Whole, Step };

}  // namespace bw
