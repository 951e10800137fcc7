#!/bin/sh
# Makes the Debian packages and proves them: nothing that lintian calls an error
# or a warning; installed into a fresh Debian root where debootstrap, root and a
# network are to be had, else unpacked into a folder and run from there.
#   usage: package.sh [unpacked]      (unpacked: do not try a fresh root)
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build-package
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA || true

pack() {
    sh "$root/src/package.sh" build-package >"$work/log" 2>&1 ||
        { cat "$work/log"; exit 1; }
}
sums() {
    (cd "$build" && cksum ./*.deb)
}
pack
sums >"$work/sums"
grep '^made' "$work/log"
pack
: >"$work/log"
sums | cmp - "$work/sums" || { echo 'packed twice, not the same bytes'; exit 1; }
for package in "$build"/*.deb; do
    dpkg-deb -x "$package" "$work/unpacked"
    echo "$(dpkg-deb -f "$package" Package): $(dpkg-deb -f "$package" Depends)"
done

# What the distribution's own check calls an error or a warning; none is excused.
if command -v lintian >/dev/null 2>&1; then
    lintian --show-overrides --fail-on error,warning,override \
        "$build"/*.deb >"$work/lint" 2>&1 || { cat "$work/lint"; exit 1; }
    echo "$(lintian --version | head -n 1): no error, no warning, nothing overridden"
else
    echo 'skipped: what lintian says (it is not installed)'
fi

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

# each file in the package that has it, alone
holds() { # PACKAGE FILE...
    package=$1
    shift
    dpkg-deb -c "$build/${package}_"*.deb >"$work/files"
    for file; do
        grep -q " \./usr/$file\$" "$work/files" ||
            { echo "$package lacks $file"; exit 1; }
    done
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

# The package of the library is named after the name programs ask for, and tells
# other packages so.
libraries=$(dirname "$(find "$work/unpacked/usr/lib" -name libbothways.a)")
soname=$(readelf -dW "$libraries"/libbothways.so.*.*.* |
    sed -n 's/.*SONAME.*\[libbothways\.so\.\(.*\)\]/\1/p')
library=libbothways$soname
for page in README.md docs/library.md; do
    grep -q "\`$library\`" "$root/$page" || { echo "$page does not name $library"; exit 1; }
done
dpkg-deb -I "$build/${library}_"*.deb shlibs | grep -q "^libbothways $soname $library "
dpkg-deb -I "$build/${library}_"*.deb triggers | grep -q 'ldconfig$'
holds bothways bin/bothways share/man/man1/bothways.1.gz \
    share/bash-completion/completions/bothways share/bothways/materials/wood.xml \
    share/bothways/assemblies/climates/estuary.csv \
    share/bothways/assemblies/profiles/dk.xml share/bothways/schema/profile.xsd \
    share/bothways/schema/assembly.xsd share/doc/bothways/user-guide.md
holds libbothways-dev include/bothways/bothways.h 'lib/.*/libbothways.a' \
    'lib/.*/pkgconfig/bothways.pc' 'lib/.*/cmake/bothways/bothways-config.cmake' \
    'lib/.*/libbothways.so -> .*'
for package in bothways "$library" libbothways-dev; do
    holds "$package" "share/doc/$package/copyright" "share/doc/$package/changelog.gz"
done
hardened "$work/unpacked/usr/bin/bothways"
hardened "$libraries/libbothways.so.$soname"
echo 'hardened: position independent, relro, bind now, stack protector, checked calls'

# the program of docs/library.md, built with what -dev brings
awk '$0 == "```c" { on = 1; next } /^```$/ { on = 0 } on' \
    "$root/docs/library.md" >"$work/wall.c"
# shellcheck disable=SC2046
cc -std=c11 -Wall -Wextra -Werror "$work/wall.c" -o "$work/wall" \
    $(PKG_CONFIG_PATH=$libraries/pkgconfig pkg-config --cflags --libs bothways)
call_library() { # COMMAND-BEFORE PROGRAM FOLDER
    $1 "$2" "$3/usr/share/bothways/assemblies/estuary-fibre.xml" \
        "$3/usr/share/bothways/materials" >"$work/out"
    grep -q '^Verdict: ' "$work/out"
    echo "a program built with libbothways-dev runs with $library"
}

if [ "${1:-}" != unpacked ] && fresh_root; then
    cp "$build/bothways_"*.deb "$build/${library}_"*.deb "$work/root/tmp"
    # the mirror and proxy of this machine serve the fresh root as well
    cp -r /etc/apt/sources.list* /etc/apt/apt.conf.d "$work/root/etc/apt/" \
        2>/dev/null || true
    cp /etc/resolv.conf "$work/root/etc/" 2>/dev/null || true
    chroot "$work/root" apt-get update >"$work/log" 2>&1
    chroot "$work/root" sh -c 'DEBIAN_FRONTEND=noninteractive apt-get install -y \
        --no-install-recommends /tmp/*.deb' >"$work/log" 2>&1 ||
        { tail "$work/log"; exit 1; }
    # no /proc in there: the materials are found all the same
    try "chroot $work/root" ''
    cp "$work/wall" "$work/root/tmp"
    call_library "chroot $work/root" /tmp/wall ''
    chroot "$work/root" dpkg -r bothways "$library" >/dev/null
    [ ! -e "$work/root/usr/bin/bothways" ] && [ ! -e "$work/root/usr/share/bothways" ]
    echo 'installed into a fresh Debian root, run there, removed again'
else
    [ ! -s "$work/log" ] || tail -n 2 "$work/log"
    echo 'no fresh Debian root here (needs root, debootstrap, a network):'
    try "env PATH=$work/unpacked/usr/bin:/usr/bin:/bin" "$work/unpacked"
    call_library "env LD_LIBRARY_PATH=$libraries" "$work/wall" "$work/unpacked"
    echo 'unpacked and run from a folder instead'
fi
