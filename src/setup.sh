#!/bin/sh
# Installs what is missing on Debian or Ubuntu and builds in the folder given,
# relative to the project. usage: setup.sh BUILD-FOLDER [CMAKE-OPTION...]
# BOTHWAYS_PACKAGES names further packages to have, such as those of CI.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/$1
shift

missing=
need() { # need PACKAGE COMMAND...: installed if the command does not succeed
    package=$1
    shift
    "$@" >/dev/null 2>&1 || missing="$missing $package"
}
need build-essential sh -c 'command -v cc && command -v make'
need cmake command -v cmake
need pkg-config command -v pkg-config
need libxml2-dev pkg-config --exists libxml-2.0
need check pkg-config --exists check
for package in ${BOTHWAYS_PACKAGES:-}; do
    need "$package" dpkg -s "$package"
done

if [ -n "$missing" ]; then
    as_root=
    [ "$(id -u)" -eq 0 ] || as_root=sudo
    $as_root apt-get update
    # shellcheck disable=SC2086
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y \
        --no-install-recommends $missing
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { cmake -S "$root" -B "$build" "$@" &&
    cmake --build "$build" -j "$(nproc)"; } >"$log" 2>&1; then
    cat "$log"
    exit 1
fi
