#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Feeds the reader of CSV logs with made-up bytes for some seconds (60, or as said). Needs clang with its libFuzzer (Debian: clang).
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
seconds=${1:-60}
build=$root/build/fuzz
mkdir -p "$build/found"
clang++ -std=c++20 -O1 -g -fsanitize=fuzzer,address,undefined -fno-sanitize-recover=undefined -I"$root" -isystem /usr/include/eigen3 \
  "$root"/tests/fuzz/csv_fuzz.cpp "$root"/core/readings/csv_*.cpp -o "$build/csv_fuzz"
"$build/csv_fuzz" -max_total_time="$seconds" -max_len=4096 -timeout=5 -rss_limit_mb=1024 -artifact_prefix="$build/" \
  "$build/found" "$root/tests/fuzz/csv_seeds"
