#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Feeds the reader of bundles with made-up bytes for some seconds (60, or as said). Needs clang with its libFuzzer (Debian: clang). The
# first build takes minutes. Inputs that reach new code gather in build/fuzz/bundle_found; one that fails is left as build/fuzz/crash-*.

set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
seconds=${1:-60}
folder=build/fuzz
mkdir -p "$folder/bundle_found" "$folder/objects"

sources=(tests/fuzz/bundle_fuzz.cpp core/exchange/{base64,bundle,bundle_check,bundle_file,safe_names}.cpp
  core/files/{file_io,json_io,json_parse}.cpp core/library/{folders,sha256}.cpp)
sanitize=-fsanitize=fuzzer,address,undefined

objects=()
stale=()
for source in "${sources[@]}"; do
  object=$folder/objects/$(basename "$source" .cpp).o
  objects+=("$object")
  [[ -e $object && -z $(find core -name '*.h' -newer "$object") && ! $source -nt $object ]] || stale+=("$source" "$object")
done
if ((${#stale[@]})); then
  printf '%s\0' "${stale[@]}" | xargs -0 -n 2 -P "$(nproc)" bash -c \
    'clang++ -std=c++20 -O1 -gline-tables-only '"$sanitize"' -fno-sanitize-recover=undefined -I. -c "$0" -o "$1"'
fi
clang++ "$sanitize" "${objects[@]}" -lnettle -o "$folder/bundle_fuzz"
"$folder/bundle_fuzz" -max_total_time="$seconds" -max_len=8192 -timeout=10 -rss_limit_mb=2048 -print_final_stats=1 \
  -artifact_prefix="$folder/" "$folder/bundle_found" tests/fuzz/bundle_seeds
