#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Installs what is missing of the packages for the needs named as arguments ("build", "window", "tests"; see
# packages.txt). Asks dpkg first, so that nothing is touched, and no password asked for, where all is there.

set -euo pipefail
list="$(dirname "${BASH_SOURCE[0]}")/packages.txt"

fail() {
  printf 'Barewright: %s\n' "$1" >&2
  exit 1
}

# Lines of alternatives ("a b" for "a | b") for the needs given.
wanted() {
  local need
  for need in "$@"; do
    sed -n "s/^$need  *//p" "$list" | tr -d '|'
  done | sort -u
}

# Exact names only: dpkg-query also lists packages that were removed but left their configuration.
is_installed() {
  [[ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" == installed* ]]
}

missing() {
  local alternatives name
  while read -r alternatives; do
    for name in $alternatives; do
      is_installed "$name" && continue 2
    done
    printf '%s\n' "$alternatives"
  done < <(wanted "$@")
}

# The first of some alternatives that the archive has; the first of all where it has none, for apt to complain about.
available() {
  local name
  for name in "$@"; do
    [[ -n "$(apt-cache madison "$name" 2>/dev/null)" ]] && break
    name=$1
  done
  printf '%s\n' "$name"
}

as_root() {
  if ((EUID == 0)); then
    "$@"
  else
    sudo "$@"
  fi
}

apt_get() {
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=600 -o Dpkg::Use-Pty=0 "$@"
}

if ! command -v dpkg-query apt-get apt-cache >/dev/null; then
  fail "this script installs packages with apt, which this system does not have.
Install what $list names in your system's own way, then:
  cmake --preset release && cmake --build --preset release && build/release/app/barewright"
fi

mapfile -t absent < <(missing "$@")
((${#absent[@]})) || exit 0

echo "Barewright needs packages that are not installed yet: ${absent[*]}" >&2
if ((EUID != 0)) && ! command -v sudo >/dev/null; then
  fail "installing them needs root, and there is no sudo here. As root: apt-get install ${absent[*]}"
fi

apt_get update >&2 || echo "Barewright: the package lists could not be refreshed; going on with those that are here." >&2
packages=()
for alternatives in "${absent[@]}"; do
  # shellcheck disable=SC2086  # split on purpose
  packages+=("$(available $alternatives)")
done
apt_get install -y --no-install-recommends "${packages[@]}" >&2 ||
  fail "apt-get could not install ${packages[*]} (its own words are above; on Ubuntu the component
'universe' has to be switched on). Once that is mended, run this again."
