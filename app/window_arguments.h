// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace bw {

/// Arguments without a verb: a project file, and the window toolkit's own options, which go on to it.
struct WindowArguments {
  std::string file;               // empty: none
  bool namesPlatform = false;     // so no display is needed
  std::string problem;            // empty where the arguments make sense
};

WindowArguments readWindowArguments(const std::vector<std::string>& arguments);

}  // namespace bw
