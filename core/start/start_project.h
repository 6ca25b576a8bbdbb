// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/project.h"

namespace bw {

enum class CoatKind { OneCoat, Several, Powder, Rust, Unknown };

/// A colour that can be seen at a chip: its word, how to draw it and the coating it stands for. Colour does not tell what a paint
/// takes up of a laser's light, so all of them are wide.
struct ChipColour {
  std::string word;
  std::string colour;  // #rrggbb
  std::string coating;
};

std::vector<ChipColour> chipColours();

/// What a magnet does on the metal.
enum class Magnet { NotTried, Sticks, DoesNotStick };

/// What a person can say about a part in a minute. Whatever is empty was answered with "don't know".
struct StartAnswers {
  std::string substrate;  // id
  Magnet magnet = Magnet::NotTried;  // tells something where the metal is not known
  std::optional<Range> thickness_m;
  CoatKind coat = CoatKind::Unknown;
  std::vector<ChipColour> colours;  // top first
  std::optional<Range> coatTotal_m;
  std::optional<Machine> machine;
  std::optional<MachineOrigin> machineOrigin;  // where it is a copy of a card of the shop
  std::vector<Behind> behind;
  bool keepsZinc = false;  // a zinc layer under the coat must stay
};

/// A project made of the answers. What was not known is marked so and gets a range wide enough to be honest.
Project startProject(const StartAnswers& answers, const Library& shipped);

}  // namespace bw
