// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>

namespace bw {

/// Where the library lies unless the user says otherwise: barewright/library.sqlite in the user's data folder (XDG_DATA_HOME, or
/// .local/share in the home folder). Asks the environment, so only the window and the command line call it. Throws FileError where
/// neither is set.
std::filesystem::path defaultLibraryPath();

}  // namespace bw
