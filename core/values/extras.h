// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>

namespace bw {

/// Keys of a file that this version does not know, each with its value as JSON text. They are written back as they came.
using Extras = std::map<std::string, std::string>;

}  // namespace bw
