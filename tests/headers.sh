#!/bin/sh
# Every public header compiles alone, without a warning, in C11 and in C++17.
#   usage: headers.sh SOURCE CC CXX
set -eu

source=$1 cc=$2 cxx=$3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
flags="-Wall -Wextra -Wpedantic -Werror"
for header in "$source"/include/bothways/*.h; do
    name=bothways/$(basename "$header")
    printf '#include "%s"\n#include "%s"\nint main(void) { return 0; }\n' \
        "$name" "$name" >"$work/alone.c"
    cp "$work/alone.c" "$work/alone.cc"
    # shellcheck disable=SC2086
    "$cc" -std=c11 $flags -I"$source/include" -fsyntax-only "$work/alone.c"
    if [ -n "$cxx" ]; then
        # shellcheck disable=SC2086
        "$cxx" -std=c++17 $flags -I"$source/include" -fsyntax-only "$work/alone.cc"
    fi
done
[ -n "$cxx" ] || echo 'skipped: no C++ compiler here'
echo 'all headers compile alone'
