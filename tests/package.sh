#!/bin/sh
# Makes the Debian package and proves it: installed into a fresh Debian root
# where debootstrap, root and a network are to be had; else unpacked into a
# folder and run from there.
#   usage: package.sh [unpacked]      (unpacked: do not try a fresh root)
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build-package
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA || true

sh "$root/src/setup.sh" build-package -DCMAKE_INSTALL_PREFIX=/usr \
    -DBOTHWAYS_TESTS=OFF -DBOTHWAYS_UNITY=ON
rm -f "$build"/*.deb
(cd "$build" && cpack >cpack.log 2>&1) || { cat "$build/cpack.log"; exit 1; }
package=$(echo "$build"/*.deb)
echo "made $(basename "$package"), $(($(wc -c <"$package") / 1024)) KiB"
dpkg-deb -f "$package" Version Architecture Depends

# what a user does first; $1 is put before each command
try() {
    $1 bothways --version
    $1 bothways materials hemp-batt | grep 'source: ' >/dev/null
    wall=$2/usr/share/bothways/assemblies/estuary-fibre.xml
    status=0
    $1 bothways check "$wall" --monthly-only --quiet >"$work/out" || status=$?
    case $status in 0 | 1 | 4) ;; *) exit 1 ;; esac
    grep -q '^Verdict' "$work/out"
    echo "check: exit $status, $(grep -m 1 '^Verdict' "$work/out")"
}

listed() {
    for file in bin/bothways share/man/man1/bothways.1 \
        share/bash-completion/completions/bothways \
        share/bothways/materials/wood.xml \
        share/bothways/assemblies/climates/estuary.csv \
        share/bothways/assemblies/profiles/dk.xml \
        share/bothways/schema/profile.xsd \
        share/bothways/schema/assembly.xsd share/doc/bothways/user-guide.md \
        include/bothways/bothways.h; do
        find "$1/usr" -path "$1/usr/$file" -o -path "$1/usr/$file.gz" |
            grep -q . || { echo "the package lacks $file"; exit 1; }
    done
    find "$1/usr/lib" -name bothways.pc | grep -q . &&
        find "$1/usr/lib" -name libbothways.a | grep -q .
}

# The hardening, read back from the files themselves.
hardened() { # FILE
    readelf -hlW "$1" >"$work/elf" && readelf -dW "$1" >>"$work/elf" &&
        readelf -sW "$1" >"$work/symbols"
    for mark in 'Type: *DYN' GNU_RELRO 'BIND_NOW|NOW' ; do
        grep -qE "$mark" "$work/elf" || { echo "$1: no $mark"; exit 1; }
    done
    for symbol in __stack_chk_fail '__[a-z_]*_chk'; do
        grep -qE "UND $symbol@" "$work/symbols" ||
            { echo "$1: no call of $symbol"; exit 1; }
    done
    ! grep -E 'GNU_STACK.*RWE' "$work/elf" || { echo "$1: a stack that runs"; exit 1; }
}

fresh_root() {
    [ "$(id -u)" -eq 0 ] && command -v debootstrap >/dev/null 2>&1 || return 1
    suite=$(. /etc/os-release && echo "${VERSION_CODENAME:-stable}")
    debootstrap --variant=minbase "$suite" "$work/root" >"$work/log" 2>&1
}

dpkg-deb -x "$package" "$work/hard"
hardened "$work/hard/usr/bin/bothways"
for library in "$work"/hard/usr/lib/*/libbothways.so.*.*.*; do
    hardened "$library"
done
echo 'hardened: position independent, relro, bind now, stack protector, checked calls'

if [ "${1:-}" != unpacked ] && fresh_root; then
    cp "$package" "$work/root/tmp/bothways.deb"
    # the mirror and proxy of this machine serve the fresh root as well
    cp -r /etc/apt/sources.list* /etc/apt/apt.conf.d "$work/root/etc/apt/" \
        2>/dev/null || true
    cp /etc/resolv.conf "$work/root/etc/" 2>/dev/null || true
    chroot "$work/root" apt-get update >"$work/log" 2>&1
    chroot "$work/root" env DEBIAN_FRONTEND=noninteractive apt-get install -y \
        --no-install-recommends /tmp/bothways.deb >"$work/log" 2>&1 ||
        { tail "$work/log"; exit 1; }
    # no /proc in there: the materials are found all the same
    try "chroot $work/root" ''
    listed "$work/root"
    chroot "$work/root" dpkg -r bothways >/dev/null
    [ ! -e "$work/root/usr/bin/bothways" ]
    echo 'installed into a fresh Debian root, run there, removed again'
else
    [ ! -s "$work/log" ] || tail -n 2 "$work/log"
    echo 'no fresh Debian root here (needs root, debootstrap, a network):'
    dpkg-deb -x "$package" "$work/unpacked"
    try "env PATH=$work/unpacked/usr/bin:/usr/bin:/bin" "$work/unpacked"
    listed "$work/unpacked"
    echo 'unpacked and run from a folder instead'
fi
