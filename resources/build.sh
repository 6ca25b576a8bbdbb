#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Configures and builds: build.sh PRESET [TARGET...]. Says nothing where nothing is wrong and nothing changed.

set -euo pipefail
preset=$1
shift
targets=("${@:-all}")
cd "$(dirname "${BASH_SOURCE[0]}")/.."
root=$(pwd -P)
folder="$root/build/$preset"

# CMake refuses a build folder that was copied or moved together with the sources; start that one afresh.
if [[ -f $folder/CMakeCache.txt ]] && ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$root" "$folder/CMakeCache.txt"; then
  rm -rf "$folder"
fi

# ccache keeps its store in the home folder; service accounts and bare containers may have none.
[[ -w ${HOME:-/nonexistent} ]] || export CCACHE_DIR="$root/build/ccache"

# A compilation with Qt's and the plots' headers needs up to 1 GB (measured with g++ 12).
memory_GB=$(awk '/^MemAvailable/ { print int($2 / 1048576) }' /proc/meminfo)
jobs=$(nproc)
((jobs <= memory_GB)) || jobs=$((memory_GB > 1 ? memory_GB : 1))

cmake --preset "$preset" >/dev/null
cmake --build --preset "$preset" --target "${targets[@]}" --parallel "$jobs"
