#!/bin/sh
# What the demo walls give, kept in tests/golden: a change of output is seen,
# and explained in the commit that changes it. They are regression values: our
# own code made them. 100 columns wide; the monthly method alone, and of two walls
# the simulation, without the search for advice, which simulates for minutes.
#   usage: golden.sh PROGRAM SOURCE-FOLDER [update]
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
cd "$2" || exit 1
update=${3:-}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA COLUMNS
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
    "$program" check "$wall" --monthly-only --full >"$work/$name.txt" \
        2>"$work/err"
    echo "exit status $?" >>"$work/$name.txt"
    "$program" check "$wall" --monthly-only >"$work/$name-screen.txt" \
        2>>"$work/err"
    "$program" check "$wall" --monthly-only --format csv >"$work/$name.csv" \
        2>>"$work/err"
    compare "$name.txt"
    compare "$name-screen.txt"
    compare "$name.csv"
    if [ -s "$work/err" ]; then
        cat "$work/err"
        failures=$((failures + 1))
    fi
done
for junction in assemblies/junctions/*.xml; do
    name=junction-$(basename "$junction" .xml)
    "$program" junction "$junction" --full >"$work/$name.txt" 2>"$work/err"
    echo "exit status $?" >>"$work/$name.txt"
    compare "$name.txt"
    if [ -s "$work/err" ]; then
        cat "$work/err"
        failures=$((failures + 1))
    fi
done
for replay in assemblies/measured/*.xml; do
    name=replay-$(basename "$replay" .xml)
    "$program" replay "$replay" "${replay%.xml}-log.csv" --full \
        >"$work/$name.txt" 2>"$work/err"
    echo "exit status $?" >>"$work/$name.txt"
    compare "$name.txt"
    if [ -s "$work/err" ]; then
        cat "$work/err"
        failures=$((failures + 1))
    fi
done
# A timber wall that rain wets, with framing, and masonry insulated inside.
for name in estuary-fibre upland-masonry-inside; do
    mkdir "$work/tables"
    "$program" check "assemblies/$name.xml" --no-advice --full \
        --step 8760 --tables "$work/tables" >"$work/$name-simulated.txt" 2>"$work/err"
    echo "exit status $?" >>"$work/$name-simulated.txt"
    compare "$name-simulated.txt"
    for table in verdict damage wetting frost; do
        mv "$work/tables/$table.csv" "$work/$name-simulated-$table.csv"
        compare "$name-simulated-$table.csv"
    done
    rm -r "$work/tables"
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
