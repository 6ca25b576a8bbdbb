// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/extras.h"
#include "core/values/known_from.h"
#include "core/values/range.h"

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace bw {

/// How a layer leaves when it has taken up enough energy.
enum class Behaviour { Decomposes, Softens, Spalls, Scorches };

enum class Presence { No, Yes, Unknown };

/// What a layer may hold that harms, as its key in files.
inline constexpr std::array componentKeys{"lead",     "chromate", "cadmium",    "zinc",          "pvc",
                                          "asbestos", "pcb",      "isocyanate", "fluoropolymer", "pah"};

/// Properties of a coating that a layer states for itself; what is absent comes from the library.
struct CoatingOverrides {
  std::optional<Range> absorptance;              // 0..1
  std::optional<Range> opticalDepth_m;           // depth at which 1/e of the light is left
  std::optional<Range> removalEnthalpy_J_m3;     // energy a volume must hold to leave
  std::optional<Range> conductivity_W_mK;
  std::optional<Range> density_kg_m3;
  std::optional<Range> specificHeat_J_kgK;
  bool operator==(const CoatingOverrides&) const = default;
};

/// One layer of a coat.
struct Layer {
  std::string name;
  std::string coating;  // id in the library of coatings
  Range thickness_m;
  CoatingOverrides overrides;
  std::optional<std::string> colour;  // a word or #rrggbb
  bool keep = false;                  // must stay on the part
  std::optional<Behaviour> behaviour;
  std::optional<Range> residueShare;            // share that stays as residue when the layer softens, 0..1
  std::optional<Range> absorptanceAfterHeating;  // of a coating that scorches, 0..1
  std::map<std::string, Presence> components;    // by componentKeys
  std::optional<KnownFrom> knownFrom;           // of the thickness
  Extras extras;
  bool operator==(const Layer&) const = default;
};

/// The stack of layers on the part, top first.
using Coat = std::vector<Layer>;

}  // namespace bw
