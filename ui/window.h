// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace bw {

/// Opens the window, with a project file or with the example when `file` is empty. Returns the program's exit status.
int runWindow(int argc, char** argv, const std::string& file);

}  // namespace bw
