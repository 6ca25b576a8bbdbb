// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How recipes and machine cards stand in a file and in the library. See json_io.h for the verbs; the rest is described where projects are.

#include "core/files/project_json.h"
#include "core/library/machine_card.h"
#include "core/library/recipe.h"

namespace bw {

inline const Words<RecipeState> recipeStates{
    "a state", {{RecipeState::Draft, "draft"}, {RecipeState::Proven, "proven"}, {RecipeState::Withdrawn, "withdrawn"}}};

inline constexpr Text hashText{"a SHA-256 of 64 digits", 64, 64};
inline constexpr Whole versionNumber{"a number of a version", 0, 1000000000};
inline constexpr FileQuantity anyNumber{"a number", units::none, -1e15, 1e15};
inline constexpr FileQuantity glassHours{"a time", {"h", 3600, 1}, 0, 1e6};
inline constexpr FileQuantity pieceCount{"a number of pieces", units::none, 0, 1e6};

template <class Io>
void describe(Io& io, PredictedNumber& number) {
  io.may("low", number.low, anyNumber);
  io.may("likely", number.likely, anyNumber);
  io.may("high", number.high, anyNumber);
}

template <class Io>
void describe(Io& io, Prediction& prediction) {
  io.may("model_version", prediction.modelVersion, shortText);
  io.may("numbers", prediction.numbers);
  io.may("fails", prediction.fails);
  io.rest(prediction.extras);
}

template <class Io>
void describe(Io& io, Attachment& attachment) {
  io.must("sha256", attachment.sha256, hashText);
  io.may("name", attachment.name, shortText);
  io.may("note", attachment.note);
  io.rest(attachment.extras);
}

template <class Io>
void describe(Io& io, Proof& proof) {
  io.may("trials", proof.trials);
  io.may("date", proof.date, shortText);
  io.may("initials", proof.initials, shortText);
  io.may("note", proof.note);
  io.may("attachments", proof.attachments);
  io.may("model_version", proof.modelVersion, shortText);
  io.may("machines", proof.machines);
  io.rest(proof.extras);
}

template <class Io>
void describe(Io& io, RecipeVersion& version) {
  io.usual("number", version.number, versionNumber);
  io.may("saved_at", version.savedAt, shortText);
  io.may("saved_by", version.savedBy, shortText);
  io.must("name", version.name, nameText);
  io.may("note", version.note);
  io.must("part", version.part);
  io.must("coat", version.coat);
  io.may("machines", version.machines);
  io.must("plan", version.plan);
  io.may("materials", version.materials);
  io.may("predicted", version.predicted);
  io.may("proof", version.proof);
  io.rest(version.extras);
}

template <class Io>
void describe(Io& io, Recipe& recipe) {
  io.usual("id", recipe.id, idText);
  io.usual("state", recipe.state, recipeStates);
  io.may("reason", recipe.reason);
  io.must("version", recipe.version);
  io.rest(recipe.extras);
}

template <class Io>
void describe(Io& io, MachineCheck& check) {
  io.usual("date", check.date, shortText);
  io.may("initials", check.initials, shortText);
  io.may("delivered_power_W", check.deliveredPower_W, power);
  io.may("spot_diameter_um", check.spotDiameter_m, spot);
  io.may("note", check.note);
  io.rest(check.extras);
}

template <class Io>
void describe(Io& io, OwnedPiece& piece) {
  io.must("what", piece.what, nameText);
  io.may("note", piece.note);
  io.usual("count", piece.count, pieceCount);
  io.rest(piece.extras);
}

template <class Io>
void describe(Io& io, MachineCard& card) {
  io.must("machine", card.machine);
  io.may("note", card.note);
  io.may("cover_glass_h", card.coverGlass_s, glassHours);
  io.may("cover_glass_since", card.coverGlassSince, shortText);
  io.may("pieces", card.pieces);
  io.may("checks", card.checks);
  io.rest(card.extras);
}

}  // namespace bw
