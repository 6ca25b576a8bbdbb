#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later

set -euo pipefail

usage() {
  cat <<'TEXT'
Usage: app/run.sh [FILE | VERB ...]

Builds Barewright, after installing what that needs (Debian or Ubuntu, asks for the sudo password), and starts it.

  app/run.sh                 opens the window on the first sample
  app/run.sh FILE            opens the window on that project
  app/run.sh assess FILE     anything else is handed to the program as it stands; see build/release/app/barewright --help

Without a display, a project is not opened but assessed, and the result printed.
TEXT
}

if [[ ${1:-} == --help || ${1:-} == -h ]]; then
  usage
  exit 0
fi

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
needs=(build)
display=${DISPLAY:-}${WAYLAND_DISPLAY:-}
[[ -n $display ]] && needs+=(window)

"$root/resources/install_packages.sh" "${needs[@]}"
"$root/resources/build.sh" release barewright >&2 || {
  echo "Barewright could not be built; the compiler's own words are above." >&2
  exit 1
}

if [[ -z $display ]]; then
  (($#)) || set -- "$root/sample-projects/carriage-side-panel.bwright"
  if [[ -f $1 ]]; then
    echo "No display here (neither DISPLAY nor WAYLAND_DISPLAY is set): assessing $1 instead of opening the window." >&2
    set -- assess "$@"
  fi
fi
exec "$root/build/release/app/barewright" "$@"
