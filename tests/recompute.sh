#!/bin/sh
# The monthly part of audit sheets, computed again from their printed text by
# recompute.py; and a figure that is changed in a sheet is found.
#   usage: recompute.sh PROGRAM SOURCE-FOLDER
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
cd "$2" || exit 1
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA COLUMNS
failures=0

if ! command -v python3 >/dev/null; then
    echo 'SKIPPED: no python3 here, no sheet is computed again'
    exit 0
fi
# Condensate and none, a membrane that changes, framing, masonry, soil.
for wall in assemblies/*.xml; do
    sheet=$work/$(basename "$wall" .xml).txt
    "$program" audit "$wall" --monthly-only >"$sheet" 2>"$work/err"
    [ -s "$work/err" ] && cat "$work/err"
    python3 tests/recompute.py "$sheet" || failures=$((failures + 1))
done
for name in estuary-mineral-variable upland-tight-outside; do
    python3 tests/recompute.py --flip 60 "$work/$name.txt" ||
        failures=$((failures + 1))
done
# What it says to a text that is no such sheet.
echo 'no sheet' >"$work/none.txt"
python3 tests/recompute.py "$work/none.txt" && failures=$((failures + 1))

[ "$failures" -eq 0 ] || { echo "$failures failed"; exit 1; }
echo 'every sheet as computed again'
