#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later

set -euo pipefail

usage() {
  cat <<'TEXT'
Usage: tests/run.sh [--long] [--preset NAME] [--filter REGEX] | --bench | --pictures

Installs what is missing (Debian or Ubuntu, asks for the sudo password), builds, and runs the tests, those of the window in real
windows on virtual displays. The last line says how many cases passed and failed; the exit status is 0 only if none failed.

  (nothing)        the short form: every check that guards a number or a click
  --long           all: besides, the tables and sweeps in full, pictures of the window in every size, light and dark, the same
                   checks under address and undefined-behaviour sanitizers, and the fuzzers; takes much longer
  --preset NAME    release (default), ci (warnings are errors), dev (with symbols) or asan (sanitizers)
  --filter REGEX   only files of tests whose name matches, such as --filter 'ui/'
  --bench          builds and runs the benchmarks instead; they print figures and judge nothing
  --pictures       takes the readme's pictures anew, in resources/pictures
TEXT
}

misused() {
  printf 'tests/run.sh: %s\n\n' "$1" >&2
  usage >&2
  exit 2
}

preset=release
filter=()
form=short
while (($#)); do
  case $1 in
    --preset | --filter)
      [[ -n ${2:-} ]] || misused "$1 needs a word after it"
      [[ $1 == --preset ]] && preset=$2 || filter=(-R "$2")
      shift
      ;;
    --long | --bench | --pictures) form=${1#--} ;;
    --help | -h)
      usage
      exit 0
      ;;
    *) misused "unknown option $1" ;;
  esac
  shift
done
[[ $preset == @(release|ci|dev|asan) ]] || misused "--preset is one of release, ci, dev, asan"

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
  [[ $form == @(bench|pictures) ]] || echo "$passed passed, $failed failed"
  exit "$status"
}
trap finish EXIT

build() {
  resources/build.sh "$@" || {
    echo "The build failed: no test was run."
    exit 1
  }
}

# The tests see a locale and folders of their own, whoever runs them and wherever.
mkdir -m 700 "$scratch/runtime"
own_world=(env QT_QPA_PLATFORM=xcb LC_ALL=C.UTF-8 TMPDIR="$scratch" XDG_RUNTIME_DIR="$scratch/runtime" XDG_CONFIG_HOME="$scratch/config"
  XDG_DATA_HOME="$scratch/data" XDG_STATE_HOME="$scratch/state")

# Cases passed and failed of a ctest log; a program that ended without saying counts as one.
count_cases() {
  awk '
    function close_test() { if (!open) return; if (good) passed += p ? p : 1; else { passed += p; failed += f ? f : 1 } }
    /^[0-9]+\/[0-9]+ Testing: / { close_test(); open = 1; p = f = good = 0 }
    /^All tests passed \(.* in [0-9]+ test cases?\)/ { n = $0; sub(/.* in /, "", n); p += n + 0 }
    /^test cases: / { n = split($0, part, "|"); for (i = 2; i <= n; i++) { if (part[i] ~ /passed/) p += part[i] + 0; if (part[i] ~ / failed *$/) f += part[i] + 0 } }
    /^Test Passed\./ { good = 1 }
    END { close_test(); print passed + 0, failed + 0 }' "$1"
}

# Runs the tests of a preset and adds up what they say: run_tests PRESET [CTEST-OPTION...].
run_tests() {
  local preset=$1 status=0 log=build/$1/Testing/Temporary/LastTest.log counts
  rm -f "$log"
  "${own_world[@]}" ctest --preset "$@" "${filter[@]}" || status=$?
  [[ -f $log ]] || return 0
  read -ra counts < <(count_cases "$log")
  ((status == 0 || counts[1] > 0)) || counts[1]=1
  passed=$((passed + counts[0]))
  failed=$((failed + counts[1]))
}

run_benchmarks() {
  local program
  for program in bench window_bench; do
    "${own_world[@]}" tests/support/on_display.sh "build/$preset/tests/bench/$program"
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
}

# A fuzzer counts as one case.
run_fuzzer() {
  if "$@"; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
  fi
}

needs=(build tests)
[[ $form == long ]] && needs+=(long)
resources/install_packages.sh "${needs[@]}"

case $form in
  bench)
    build "$preset" bench window_bench
    run_benchmarks
    exit
    ;;
  pictures)
    build "$preset" ui_tests
    BAREWRIGHT_PICTURES="$root/resources/pictures" "${own_world[@]}" tests/support/on_display.sh "build/$preset/tests/ui/ui_tests" "[readme]"
    exit
    ;;
esac

build "$preset"
failed=0
if [[ $form == short ]]; then
  run_tests "$preset"
else
  BAREWRIGHT_LONG=1 run_tests "$preset" --timeout 3600
  if ((${#filter[@]} == 0)); then
    build asan
    run_tests asan --timeout 3600
    run_fuzzer tests/fuzz/run.sh 60
    run_fuzzer tests/fuzz/run_bundle.sh 60
  fi
fi
((passed + failed > 0)) || failed=1
((failed == 0))
