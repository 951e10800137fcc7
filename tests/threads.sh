#!/bin/sh
# What starts threads, built with the thread sanitizer: the queue, and check of
# several walls, margin, compare and audit of a house on seven threads; clean, and
# the same bytes as on one, of the usual build where its program is given: the
# sanitizer takes twenty times as long.
#   usage: threads.sh BUILD-FOLDER [PROGRAM]   (of -DBOTHWAYS_SANITIZE=thread)
set -u

build=$(cd "$1" && pwd)
watched=$build/src/bothways
plain=$(realpath "${2:-$watched}")
cd "$(dirname "$0")/.." || exit 1
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
failures=0

fail() { # SENTENCE
    failures=$((failures + 1))
    echo "FAILED: $1"
}

run() { # PROGRAM THREADS COMMAND...: its result in of-THREADS
    program=$1 threads=$2
    shift 2
    "$program" "$@" --threads "$threads" >"$work/out" 2>"$work/err"
    status=$?
    case $status in
    0 | 1 | 4) ;;
    *) fail "exit $status, $threads threads: $*" ;;
    esac
    if grep -q 'ThreadSanitizer' "$work/err"; then
        fail "$threads threads: $*"
        head -n 40 "$work/err"
    fi
    # the command line, and the digest of all, name the threads; the program's
    # folder stands before the shipped materials
    grep -v -e '--threads' -e '^# of all above' "$work/out" |
        sed "s;$(dirname "$program")/;;" >"$work/of-$threads"
    [ -s "$work/of-$threads" ] || fail "nothing printed: $*"
}

clean() { # COMMAND... without --threads
    run "$watched" 7 "$@"
    run "$plain" 1 "$@"
    if cmp "$work/of-1" "$work/of-7"; then
        echo "clean, and the same bytes: $*"
    else
        fail "other bytes on seven threads: $*"
    fi
}

"$build/tests/test_pool" >"$work/out" 2>&1 ||
    { failures=1 && tail -n 40 "$work/out"; }
months='--monthly-only'
# shellcheck disable=SC2046
clean check $(ls assemblies/*.xml) $months --format json
clean check assemblies/estuary-fibre.xml assemblies/upland-cellar-wall.xml \
    --years 1 --no-advice --format csv
clean margin assemblies/estuary-fibre.xml $months --format csv
clean compare assemblies/estuary-fibre.xml \
    assemblies/estuary-mineral-variable.xml --years 1 --format csv
clean audit assemblies/upland-closing-refused.xml \
    assemblies/upland-closing-released.xml $months --format csv
clean audit assemblies/upland-cellar-wall.xml --format csv
echo "$failures failed"
[ $failures -eq 0 ]
