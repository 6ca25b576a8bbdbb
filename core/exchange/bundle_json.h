// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// How a bundle stands in a file. See json_io.h for the verbs.

#include "core/exchange/base64.h"
#include "core/exchange/bundle.h"
#include "core/library/recipe_json.h"

namespace bw {

inline constexpr const char* bundleFormat = "barewright-bundle";
inline constexpr int bundleVersion = 1;

inline constexpr Text keyText{"a key of a profile", 1, 120};
inline constexpr Text base64Text{"a file in base64", 0, 48u * 1024 * 1024};

template <class Io>
void describe(Io& io, Shared<Machine>& shared) {
  io.must("key", shared.key, keyText);
  io.must("machine", shared.value);
  io.rest(shared.extras);
}

template <class Io>
void describe(Io& io, Shared<Substrate>& shared) {
  io.must("key", shared.key, keyText);
  io.must("substrate", shared.value);
  io.rest(shared.extras);
}

template <class Io>
void describe(Io& io, Shared<Coating>& shared) {
  io.must("key", shared.key, keyText);
  io.must("coating", shared.value);
  io.rest(shared.extras);
}

template <class Io>
void describe(Io& io, SharedProfiles& shared) {
  io.may("machines", shared.machines);
  io.may("substrates", shared.substrates);
  io.may("coatings", shared.coatings);
  io.rest(shared.extras);
}

template <class Io>
void describe(Io& io, NamedProfiles& named) {
  io.may("machines", named.machines, keyText);
  io.may("substrates", named.substrates, keyText);
  io.may("coatings", named.coatings, keyText);
  io.may("proof_machines", named.proofMachines, keyText);
  io.rest(named.extras);
}

template <class Io>
void describe(Io& io, BundledVersion& bundled) {
  io.may("uses", bundled.uses);
  describe(io, bundled.version);
}

template <class Io>
void describe(Io& io, BundledRecipe& recipe) {
  io.must("id", recipe.id, idText);
  io.usual("state", recipe.state, recipeStates);
  io.may("reason", recipe.reason);
  io.must("versions", recipe.versions);
  io.rest(recipe.extras);
}

/// The content stands in the file as base64; whether it is that, and what the hash says, is looked at after reading.
template <class Io>
void describe(Io& io, BundledFile& file) {
  io.must("sha256", file.sha256, hashText);
  io.may("name", file.name, shortText);
  if constexpr (Io::reads) {
    io.must("base64", file.content, base64Text);
  } else {
    std::string text = toBase64(file.content);
    io.must("base64", text, base64Text);
  }
  io.rest(file.extras);
}

template <class Io>
void describe(Io& io, Bundle& bundle) {
  if (!io.header(bundleFormat, bundleVersion)) return;
  io.may("from", bundle.from, shortText);
  io.may("made_at", bundle.madeAt, shortText);
  io.may("note", bundle.note);
  io.may("substrates", bundle.substrates);
  io.may("coatings", bundle.coatings);
  io.may("machines", bundle.machines);
  io.may("shared", bundle.shared);
  io.may("recipes", bundle.recipes);
  io.may("attachments", bundle.files);
  io.rest(bundle.extras);
}

}  // namespace bw
