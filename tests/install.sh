#!/bin/sh
# Installs to a fresh folder, moves it, and builds the program of
# docs/library.md against it, through find_package and through pkg-config.
# usage: install.sh SOURCE BUILD CC CMAKE
set -eu

source=$1 build=$2 cc=$3 cmake=$4
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA || true

"$cmake" --install "$build" --prefix "$work/first" >"$work/log"
mv "$work/first" "$work/moved"
prefix=$work/moved

# the examples of the library page, word for word
example() { # example FENCE FILE
    awk -v fence="\`\`\`$1" '$0 == fence { on = 1; next }
        /^```$/ { on = 0 } on' "$source/docs/library.md" >"$work/$2"
    [ -s "$work/$2" ]
}
example c wall.c
example 'c sweep' sweep.c

wall=$prefix/share/bothways/assemblies/estuary-fibre.xml
check_output() {
    grep -q '^U-value: ' "$1"
    grep -q '^Verdict: ' "$1"
}

cp "$source/tests/consumer/CMakeLists.txt" "$work"
"$cmake" -S "$work" -B "$work/build" -DCMAKE_C_COMPILER="$cc" \
    -DCMAKE_PREFIX_PATH="$prefix" >>"$work/log"
"$cmake" --build "$work/build" >>"$work/log"
for kind in bothways static shared; do
    "$work/build/wall_$kind" "$wall" "$prefix/share/bothways/materials" \
        >"$work/out"
    check_output "$work/out"
done

# one line for each of the membranes, and the water that can dry falls with sd
"$work/build/sweep" "$wall" "$prefix/share/bothways/materials" >"$work/out"
[ "$(grep -c '^sd ' "$work/out")" -eq 4 ]
awk '{ print $4 }' "$work/out" | sort -rgc

pc=$(find "$prefix" -name bothways.pc)
PKG_CONFIG_PATH=$(dirname "$pc")
export PKG_CONFIG_PATH
[ "$(pkg-config --modversion bothways)" = \
    "$("$prefix/bin/bothways" --version | cut -d' ' -f2)" ]
# shellcheck disable=SC2046
"$cc" -std=c11 -Wall -Wextra -Werror "$work/wall.c" -o "$work/by-pc" \
    $(pkg-config --cflags --libs bothways)
LD_LIBRARY_PATH=$(pkg-config --variable=libdir bothways) \
    "$work/by-pc" "$wall" "$prefix/share/bothways/materials" >"$work/out"
check_output "$work/out"
# a program asks for the library whose structs it knows
abi=$(sed -n '1s/^abi //p' "$source/include/bothways.abi")
if command -v readelf >/dev/null; then
    readelf -d "$work/by-pc" | grep -q "NEEDED.*libbothways.so.$abi]"
else
    echo 'skipped: the name of the shared library (no readelf)'
fi

# the moved program finds its data, and nothing of it names this machine
(cd / && "$prefix/bin/bothways" materials hemp-batt >"$work/out")
grep -q 'source: ' "$work/out"
# and its rule sets
(cd / && "$prefix/bin/bothways" check --profile list >"$work/out")
grep -q "(.*$prefix.*/assemblies/profiles/dk.xml)" "$work/out"
if grep -rlF -e "$source/" -e "$build/" "$prefix/lib" "$prefix/include" \
    "$prefix/share" "$prefix/bin"; then
    echo 'an installed file names a folder of the build machine'
    exit 1
fi
echo 'installed, moved, built upon'
