#!/bin/sh
# Installs what is missing on Debian or Ubuntu and builds in the folder given,
# relative to the project. usage: setup.sh BUILD-FOLDER [CMAKE-OPTION...]
# BOTHWAYS_PACKAGES names further packages to have, such as those of CI;
# BOTHWAYS_TARGET what is built, everything unless given. Says what it does.
# Exit status 3: what is missing could not be had; the last line says what to do.
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
# the command alone is built without tests, and soon (src/unity.cmake)
case ${BOTHWAYS_TARGET:-all} in
bothways)
    [ -f "$build/CMakeCache.txt" ] ||
        set -- -DBOTHWAYS_TESTS=OFF -DBOTHWAYS_QUICK=ON "$@"
    ;;
*)
    need check pkg-config --exists check
    set -- -DBOTHWAYS_TESTS=ON -DBOTHWAYS_QUICK=OFF "$@"
    ;;
esac
for package in ${BOTHWAYS_PACKAGES:-}; do
    need "$package" dpkg -s "$package"
done

log=$(mktemp)
trap 'rm -f "$log"' EXIT

cannot() { # cannot SENTENCE...
    echo "bothways is not built: $*" >&2
    exit 3
}

# apt COMMAND...: waits for another that holds the lock, and says so
apt() {
    tries=0
    until $as_root env DEBIAN_FRONTEND=noninteractive apt-get "$@" >"$log" 2>&1
    do
        grep -qiE 'could not get lock|unable to lock|unable to acquire' "$log" ||
            return 1
        tries=$((tries + 1))
        [ $tries -le "${BOTHWAYS_LOCK_TRIES:-120}" ] ||
            cannot "another program holds the lock of the packages; run this again when it has ended"
        [ $tries -gt 1 ] ||
            echo 'Another program installs packages just now; waiting for it'
        sleep "${BOTHWAYS_LOCK_WAIT:-5}"
    done
}

install_missing() {
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null 2>&1 ||
            cannot "ask an administrator of this machine for the packages:$missing"
        as_root=sudo
    fi
    command -v apt-get >/dev/null 2>&1 ||
        cannot "no apt-get here; install with what this system has:$missing"
    echo "Installing$missing${as_root:+, with sudo}"
    # an index that is not new may still do
    # shellcheck disable=SC2086
    if apt update && apt install -y --no-install-recommends $missing; then
        return
    fi
    ! grep -qiE 'temporary failure|could not resolve|could not connect|failed to fetch|network is unreachable|unable to fetch' "$log" ||
        cannot "no network to install from:$missing"
    cat "$log" >&2
    cannot "these packages could not be installed:$missing"
}
[ -z "$missing" ] || install_missing

[ -f "$build/CMakeCache.txt" ] || echo "Preparing the build in $build"
prepare() { # CMAKE-OPTION...
    cmake -S "$root" -B "$build" "$@" >"$log" 2>&1 || {
        cat "$log"
        exit 1
    }
}

# What is up to date is not told, so that a second run begins at once.
make_it() {
    jobs=$(nproc)
    echo failed >"$log"
    {
        cmake --build "$build" -j "$jobs" --target "${BOTHWAYS_TARGET:-all}" 2>&1 &&
            echo built >"$log"
    } | sed -u '/\] Built target /d; /no work to do/d'
    [ "$(cat "$log")" = built ]
}

prepare "$@"
make_it && exit
# Another compiler may know more names than ours.
grep -q '^BOTHWAYS_QUICK:BOOL=ON' "$build/CMakeCache.txt" || exit 1
echo 'That was several files at once; now one by one, which takes longer'
prepare -DBOTHWAYS_QUICK=OFF
make_it
