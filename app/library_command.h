// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

namespace CLI {
class App;
}

namespace bw {

/// Where the verbs print to.
using Print = std::function<void(const std::string&)>;

/// Adds the verb `library` with its own verbs. The result runs the one that was parsed and returns the exit status.
std::function<int(const Print&)> addLibrary(CLI::App& app);

}  // namespace bw
