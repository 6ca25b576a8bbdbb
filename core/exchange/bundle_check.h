// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/exchange/bundle.h"
#include "core/files/json_io.h"

namespace bw {

/// More profiles than any version names.
inline constexpr std::size_t mostProfilesOfVersion = 100;

/// What a bundle must hold to beyond the shape of its fields: each id once, names that lead nowhere, keys that are known, versions in
/// order, attachments that are what their hash says. Turns the attachments' base64 into what it stands for.
void checkBundle(Bundle& bundle, Problems& problems);

}  // namespace bw
