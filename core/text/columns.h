// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace bw::text {

/// One line whatever the text holds.
std::string line(std::string text);

/// Rows of texts as columns, each as wide as its widest text.
std::string columns(const std::vector<std::vector<std::string>>& rows);

}  // namespace bw::text
