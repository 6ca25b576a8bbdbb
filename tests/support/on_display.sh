#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Runs a program on a virtual display of its own: on_display.sh PROGRAM [ARGUMENT...]. The server picks a free number by itself, so that
# any number of them can start at the same time.

set -euo pipefail
exec {numbers}< <(exec Xvfb -displayfd 1 -screen 0 2600x1700x24 -dpi 96 -nolisten tcp 2>/dev/null)
server=$!
trap 'kill "$server" 2>/dev/null' EXIT
read -r number <&"$numbers" || {
  echo "on_display.sh: Xvfb did not start" >&2
  exit 3
}
DISPLAY=:$number "$@"
