#!/bin/sh
# What starts threads, built with the thread sanitizer: the queue, and check of
# several walls, margin, compare and audit of a house on seven threads; clean, and
# the same bytes as on one.
#   usage: threads.sh BUILD-FOLDER (of -DBOTHWAYS_SANITIZE=thread)
set -u

build=$(cd "$1" && pwd)
cd "$(dirname "$0")/.." || exit 1
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
failures=0

# -- COMMAND... without --threads; its result on standard output
clean() {
    for threads in 1 7; do
        "$build/src/bothways" "$@" --threads $threads >"$work/out" 2>"$work/err"
        status=$?
        case $status in
        0 | 1 | 4) ;;
        *)
            failures=$((failures + 1))
            echo "FAILED: exit $status, $threads threads: $*"
            ;;
        esac
        if grep -q 'ThreadSanitizer' "$work/err"; then
            failures=$((failures + 1))
            echo "FAILED: $threads threads: $*"
            head -n 40 "$work/err"
        fi
        # the command line, and the digest of all, name the threads
        grep -v -e '--threads' -e '^# of all above' "$work/out" \
            >"$work/of-$threads"
    done
    if cmp "$work/of-1" "$work/of-7"; then
        echo "clean, and the same bytes: $*"
    else
        failures=$((failures + 1))
    fi
}

"$build/tests/test_pool" >"$work/out" 2>&1 ||
    { failures=1 && tail -n 40 "$work/out"; }
months='--monthly-only'
# shellcheck disable=SC2046
clean check $(ls assemblies/*.xml) $months --format json
clean check assemblies/estuary-fibre.xml assemblies/upland-cellar-wall.xml \
    --years 1 --no-advice --format csv
clean check assemblies/upland-masonry-inside.xml --years 1 --format csv
clean margin assemblies/estuary-fibre.xml $months --format csv
clean compare assemblies/estuary-fibre.xml assemblies/estuary-mineral-foil.xml \
    --years 1 --format csv
clean audit assemblies/upland-closing-refused.xml \
    assemblies/upland-closing-released.xml $months --format csv
clean audit assemblies/estuary-fibre.xml --format csv
echo "$failures failed"
[ $failures -eq 0 ]
