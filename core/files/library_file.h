// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/values/substance.h"

#include <string_view>

namespace bw {

/// The library that ships with the program (resources/materials, compiled in). Read once; never changes.
const Library& shippedLibrary();

/// Reads a library from the JSON texts of its two files. Throws FileError with the JSON path of the first problem.
Library readLibrary(std::string_view substrates, std::string_view coatings);

}  // namespace bw
