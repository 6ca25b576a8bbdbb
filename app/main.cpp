// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command_line.h"

int main(int argc, char** argv) { return bw::runCommandLine(argc, argv); }
