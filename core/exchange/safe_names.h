// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace bw {

/// What is wrong with a text that is shown on one line, as the end of a sentence; empty: nothing. Control characters could
/// hide what stands there or drive a terminal, signs that turn the direction of writing could show a name backwards.
std::string lineProblem(std::string_view text);

/// What is wrong with the name of an attached file: it must lead nowhere else.
std::string fileNameProblem(std::string_view name);

/// The same for a path below some folder.
std::string innerPathProblem(std::string_view path);

/// The name's last part, with a sign in the place of what may not stand in a file's name.
std::string safeFileName(std::string_view name);

/// The text cut to at most `longest` bytes, not within a letter.
std::string cutText(std::string_view text, std::size_t longest);

}  // namespace bw
