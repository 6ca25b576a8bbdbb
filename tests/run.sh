#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later

set -euo pipefail

usage() {
  cat <<'TEXT'
Usage: tests/run.sh [--preset NAME] [--filter REGEX] [--bench]

Installs what is missing (Debian or Ubuntu, asks for the sudo password), builds, and runs every test, those of the window in a
real window on a virtual display. The last line says how many passed and failed; the exit status is 0 only if none failed.

  --preset NAME    release (default), dev (with symbols) or asan (address and undefined-behaviour sanitizers)
  --filter REGEX   only tests whose name matches, such as --filter 'ui/'
  --bench          runs the benchmarks instead; they print figures and judge nothing
TEXT
}

misused() {
  printf 'tests/run.sh: %s\n\n' "$1" >&2
  usage >&2
  exit 2
}

preset=release
filter=()
bench=
while (($#)); do
  case $1 in
    --preset | --filter)
      [[ -n ${2:-} ]] || misused "$1 wants a word after it"
      [[ $1 == --preset ]] && preset=$2 || filter=(-R "$2")
      shift
      ;;
    --bench) bench=yes ;;
    --help | -h)
      usage
      exit 0
      ;;
    *) misused "unknown option $1" ;;
  esac
  shift
done
[[ $preset == @(release|dev|asan) ]] || misused "--preset is one of release, dev, asan"

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
cd "$root"

# What did not run did not pass: the last line says so however far this gets.
passed=0
failed=1
scratch=$(mktemp -d)
chmod 711 "$scratch"  # tests that give up being root still find their files
finish() {
  local status=$?
  rm -rf "$scratch"
  [[ -n $bench ]] || echo "$passed passed, $failed failed"
  exit "$status"
}
trap finish EXIT

resources/install_packages.sh build tests
resources/build.sh "$preset" || {
  echo "The build failed: no test was run."
  exit 1
}

# The tests see a display, a locale and folders of their own, whoever runs them and wherever.
mkdir -m 700 "$scratch/runtime"
own_world=(env QT_QPA_PLATFORM=xcb LC_ALL=C.UTF-8 TMPDIR="$scratch" XDG_RUNTIME_DIR="$scratch/runtime" XDG_CONFIG_HOME="$scratch/config"
  XDG_DATA_HOME="$scratch/data" XDG_STATE_HOME="$scratch/state"
  xvfb-run -a -s "-screen 0 1600x1000x24 -dpi 96")

if [[ -n $bench ]]; then
  for program in bench window_bench; do
    "${own_world[@]}" "build/$preset/tests/bench/$program"
  done
  if /usr/bin/python3 -c 'import scipy' 2>/dev/null; then
    /usr/bin/python3 tests/bench/dose_peer.py
  else
    echo "The dose map by numpy and scipy was left out: python3-scipy is not installed."
  fi
  if command -v FreeFem++ >/dev/null; then
    tests/bench/sheet_peer.sh
  else
    echo "The heated sheets by finite elements were left out: freefem++ is not installed."
  fi
  exit
fi

report="$scratch/report.xml"
status=0
"${own_world[@]}" ctest --preset "$preset" "${filter[@]}" --output-junit "$report" || status=$?

# One testcase per test; "run" is the only word for one that ran and passed.
count() { grep -c "<testcase $1" "$report" || true; }
if [[ -f $report ]] && (($(count '') > 0)); then
  passed=$(count '.* status="run"')
  failed=$(($(count '') - passed))
fi
((status == 0 && failed == 0))
