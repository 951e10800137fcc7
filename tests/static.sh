#!/bin/sh
# cppcheck and gcc's analyzer over the sources: no finding, or one line below
# that says why it is none.   usage: static.sh [cppcheck|analyzer]
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
cd "$root"
which=${1:-all}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
status=0

if [ "$which" != analyzer ]; then
    echo "cppcheck: $(cppcheck --version)"
    includes=
    for folder in include src/*/; do
        includes="$includes -I $folder"
    done
    # shellcheck disable=SC2086
    cppcheck --quiet --std=c11 --language=c --error-exitcode=1 \
        --enable=warning,portability,performance --inline-suppr \
        --suppressions-list=tests/static.cppcheck -D_POSIX_C_SOURCE=200809L \
        -DLIBXML_VERSION=20914 $includes src || status=1
fi

if [ "$which" != cppcheck ]; then
    echo "analyzer: $(gcc --version | head -n 1)"
    xml=$(pkg-config --cflags libxml-2.0)
    : >"$work/log"
    for folder in src/*/; do
        uses=
        for other in src/*/; do
            # its library.h is another than material's
            [ "$other" = src/command/ ] || uses="$uses -I$other"
        done
        for file in "$folder"*.c; do
            [ -e "$file" ] || continue
            # shellcheck disable=SC2086
            gcc -std=c17 -D_POSIX_C_SOURCE=200809L -DBW_VERSION='"0"' -O1 -Iinclude -I"$folder" \
                $uses $xml -fanalyzer -fanalyzer-transitivity \
                -fdiagnostics-plain-output -c "$file" -o "$work/object.o" \
                2>>"$work/log" || status=1
        done
    done
    # known: file:warning, a blank, the reason
    grep 'Wanalyzer' "$work/log" | sort -u >"$work/found" || true
    sed -n 's/^\([^ :]*\):.*\[-W\(analyzer[^]]*\)\].*/\1:\2/p' "$work/found" |
        sort -u >"$work/keys"
    grep -v '^#' tests/static.analyzer | cut -d' ' -f1 | sort >"$work/known" || true
    unexplained=$(comm -23 "$work/keys" "$work/known")
    if [ -n "$unexplained" ]; then
        printf 'not explained in tests/static.analyzer:\n%s\n' "$unexplained"
        cat "$work/found"
        status=1
    fi
    comm -13 "$work/keys" "$work/known" |
        sed 's/$/ is explained, but no longer found/'
    if grep -E ': (error|fatal error):' "$work/log"; then
        status=1
    fi
    echo "$(wc -l <"$work/found") findings of $(wc -l <"$work/keys") kinds," \
        "$(printf %s "$unexplained" | grep -c . || true) not explained"
fi
exit $status
