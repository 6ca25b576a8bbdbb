// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace bw {

/// What the program answers with. Scripts rely on the numbers.
enum ExitStatus { Done = 0, LimitFailed = 1, UnusableInput = 2, InternalFailure = 3 };

/// Runs the verb that the arguments name, or opens the window where they name none. Returns the exit status.
int runCommandLine(int argc, char** argv);

}  // namespace bw
