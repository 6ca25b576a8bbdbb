// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Catch2 by either of its names: version 2 (Debian 12) and version 3 (Ubuntu 24.04) differ in the header only.
// Write Catch::Approx and Catch::Matchers in full; both have them.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
namespace Catch {
using Detail::Approx;  // where version 3 has it
}
#endif
