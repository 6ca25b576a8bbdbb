#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The heated sheets by a packaged finite element solver (FreeFem++): the cheapest settings found that keep every probe within half a kelvin
# of the converged reference at every second. Prints the time each takes and how far off it is.

set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/../reference/heat" && pwd -P)
result=$(mktemp)
trap 'rm -f "$result"' EXIT

# Name of the script and its table, then the arguments.
run() {
  local name=$1 took TIMEFORMAT='%R %U'
  shift
  took=$({ time FreeFem++ -nw -v 0 "$here/$name.edp" "$@" -out "$result" >/dev/null; } 2>&1)
  awk -F, -v name="$name" -v took="$took" '
    NR == FNR { for (i = 2; i <= NF; i++) expected[FNR, i] = $i; rows = FNR; next }
    FNR > 1 { for (i = 2; i <= NF; i++) { off = $i - expected[FNR, i]; if (off < 0) off = -off; if (off > worst) worst = off } }
    END {
      if (FNR != rows) exit 1
      split(took, second, " ")
      printf "%s by finite elements (FreeFem++): %d ms, of the processor %d ms, off by at most %.2f K\n", name, 1e3 * second[1], 1e3 * second[2], worst
    }' "$here/$name.csv" "$result"
}

run sheet_constant -hx 6e-3 -hy 5.5e-3 -fine 0.03 -widest 0.12 -steps 4
run sheet_steel -hx 6e-3 -hy 5.5e-3 -fine 0.03 -widest 0.12 -steps 5 -sweeps 3
