#!/bin/sh
# What the demo walls give, kept in tests/golden: a change of output is seen,
# and explained in the commit that changes it. They are regression values: our
# own code made them. The monthly method alone, 100 columns wide.
#   usage: golden.sh PROGRAM SOURCE-FOLDER [update]
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
cd "$2" || exit 1
update=${3:-}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
failures=0

compare() { # NAME
    if [ -n "$update" ]; then
        mkdir -p tests/golden
        cp "$work/$1" "tests/golden/$1"
    elif ! diff -u "tests/golden/$1" "$work/$1"; then
        failures=$((failures + 1))
    fi
}

for wall in assemblies/*.xml; do
    name=$(basename "$wall" .xml)
    "$program" check "$wall" --monthly-only >"$work/$name.txt" 2>"$work/err"
    echo "exit status $?" >>"$work/$name.txt"
    "$program" check "$wall" --monthly-only --format csv >"$work/$name.csv" \
        2>>"$work/err"
    compare "$name.txt"
    compare "$name.csv"
    if [ -s "$work/err" ]; then
        cat "$work/err"
        failures=$((failures + 1))
    fi
done
"$program" compare --as-drawn assemblies/estuary-*.xml --monthly-only \
    --format csv >"$work/compare.csv" 2>"$work/err"
[ -s "$work/compare.csv" ] || { cat "$work/err"; failures=$((failures + 1)); }
compare compare.csv
if [ $failures -gt 0 ]; then
    echo "$failures outputs changed. If they should:" \
        'sh tests/golden.sh PROGRAM . update, and say why in the commit'
    exit 1
fi
echo 'outputs as kept'
