#!/bin/sh
# The same input gives the same bytes: gcc and clang, -O0 and -O2, as the set-up
# of the command builds it (src/unity.cmake), any number of threads, twice in a
# row. Tables of the demo walls by the monthly method,
# and the hourly simulation of one of them, if asked for. With arm64 another
# machine, emulated, and the simulation of every demo wall instead (packages
# gcc-aarch64-linux-gnu and qemu-user, and after `dpkg --add-architecture arm64`
# libxml2-dev:arm64).
# BOTHWAYS_BUILD, if set: the folder of a build by gcc, file by file, that stands in
# place of one made here.
#   usage: determinism.sh [hourly|arm64]
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA || true
cd "$root"
failures=0

tables() { # PROGRAM OUTPUT THREADS
    status=0
    $1 check - --monthly-only --threads "$3" --tables "$2" \
        <"$work/list" >"$2.txt" || status=$?
    echo "$status" >"$2/status"
    if [ "$hourly" = arm64 ]; then
        $1 check - --no-advice --years 1 --threads "$3" \
            --tables "$2/hourly" <"$work/list" >"$2/hourly.txt" || true
    elif [ -n "$hourly" ]; then
        $1 check assemblies/estuary-as-found.xml --no-advice --years 1 \
            --tables "$2/hourly" >"$2/hourly.txt" || true
    fi
    mv "$2.txt" "$2/report.txt"
}

hourly=${1:-}
ls assemblies/*.xml >"$work/list"
variants='gcc-O2 gcc-O0 clang-O2 clang-O0 cc-quick'
if [ "$hourly" = arm64 ]; then
    variants='gcc-O2 aarch64-linux-gnu-gcc-O2'
    for need in aarch64-linux-gnu-gcc qemu-aarch64; do
        command -v $need >/dev/null || { echo "skipped: no $need"; exit 0; }
    done
fi
for variant in $variants; do
    compiler=${variant%-*}
    command -v "$compiler" >/dev/null || { echo "skipped: no $compiler"; continue; }
    build=$root/build-$variant
    run="$build/src/bothways"
    machine=
    if [ "${variant#aarch64}" != "$variant" ]; then
        machine='-DCMAKE_SYSTEM_NAME=Linux -DCMAKE_SYSTEM_PROCESSOR=aarch64
            -DLIBXML2_LIBRARY=/usr/lib/aarch64-linux-gnu/libxml2.so'
        run="qemu-aarch64 $run" # its libraries are found by /etc/ld.so.conf.d
        export BOTHWAYS_DATA="$root"
    fi
    flags="-DCMAKE_BUILD_TYPE=None -DCMAKE_C_FLAGS=-${variant#*-}"
    # the first as every build, file by file, the others together
    case $variant in
    cc-quick) flags=-DBOTHWAYS_QUICK=ON ;;
    gcc-O2) ;;
    *) flags="$flags -DBOTHWAYS_UNITY=ON" ;;
    esac
    if [ "$variant" = gcc-O2 ] && [ -n "${BOTHWAYS_BUILD:-}" ]; then
        build=$(realpath "$BOTHWAYS_BUILD")
        run="$build/src/bothways"
    else
        # shellcheck disable=SC2086
        cmake -S . -B "$build" $machine -DCMAKE_C_COMPILER="$compiler" $flags \
            -DBOTHWAYS_TESTS=OFF >"$work/log"
    fi
    cmake --build "$build" -j "$(nproc)" --target bothways >"$work/log" 2>&1 ||
        { tail "$work/log"; exit 1; }
    for threads in 1 5; do
        name=$variant-$threads
        tables "$run" "$work/$name" $threads
        first=${first:-$name}
        if diff -r "$work/$first" "$work/$name" >"$work/diff"; then
            echo "$name: the same bytes"
        else
            failures=$((failures + 1))
            echo "$name: differs from $first in $(wc -l <"$work/diff") lines:"
            head -n 10 "$work/diff" | cut -c1-300
        fi
    done
done
[ $failures -eq 0 ]
