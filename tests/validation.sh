#!/bin/sh
# The figures of docs/validation.md against what the suites measure: each suite
# that a row of the document names is run, tells in lines "measured: ID|FIGURE|
# LIMIT|UNIT" (measured.h), and of a row `ID` the cells of limit and figure must
# say the same, figures within 5 % or both under 1 % of the limit: compilers differ
# in the last digits. With "update" these cells are written anew. What needs data
# that is no part of the project (shared_data.h) or a library that is not there is
# skipped, and said; a row whose figure no suite tells, and a figure without a row,
# is a fault.
#   usage: validation.sh FOLDER-OF-THE-SUITES SOURCE-FOLDER [update]
set -u

suites=$(cd "$1" && pwd)
document=$(cd "$2" && pwd)/docs/validation.md
update=${3:-}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA

# rows: | what | `id` | source | limit | figure | `suite` |
awk -F' *[|] *' '/^\|/ && $3 ~ /^`.*`$/ { gsub(/`/, ""); print $3 "|" $7 }' \
    "$document" >"$work/rows"
[ -s "$work/rows" ] || {
    echo "$document has no rows"
    exit 1
}
failures=0
for suite in $(sed 's/.*|//' "$work/rows" | sort -u); do
    [ -x "$suites/test_$suite" ] || {
        echo "no suite $suite"
        failures=$((failures + 1))
        continue
    }
    "$suites/test_$suite" >"$work/out" 2>&1 || {
        grep -v '^measured: ' "$work/out"
        echo "$suite fails"
        failures=$((failures + 1))
    }
    grep -q skipped "$work/out" && echo "$suite" >>"$work/skipped"
    sed -n "s/^measured: //p" "$work/out" | sed "s/\$/|$suite/" >>"$work/told"
done
touch "$work/skipped" "$work/told"

# of an id told more than once the largest
awk -v update="$update" -v skipped="$work/skipped" -v told="$work/told" '
    function shown(figure, unit) {
        return figure (unit == "-" ? "" : " " unit)
    }
    BEGIN {
        while ((getline line < skipped) > 0) short[line] = 1
        while ((getline line < told) > 0) {
            split(line, f, "|")
            if (!(f[1] in figure) || f[2] + 0 > figure[f[1]] + 0)
                figure[f[1]] = f[2]
            limit[f[1]] = f[3]; unit[f[1]] = f[4]; of[f[1]] = f[5]
        }
        FS = OFS = "|"
    }
    /^\|/ && $3 ~ /^ *`.*` *$/ {
        id = $3; gsub(/[ `]/, "", id)
        suite = $7; gsub(/[ `]/, "", suite)
        seen[id] = 1
        if (!(id in figure)) {
            if (suite in short) print id ": skipped" >"/dev/stderr"
            else { print id ": no suite tells it" >"/dev/stderr"; bad++ }
        } else {
            is = shown(figure[id], unit[id])
            may = limit[id] == "" ? "none" : shown(limit[id], unit[id])
            said = $6; gsub(/^ +| +$/, "", said)
            bound = $5; gsub(/^ +| +$/, "", bound)
            far = (said + 0) - (figure[id] + 0)
            if (far < 0) far = -far
            # what is next to nothing of the limit is rounding
            same = (far <= 0.05 * (figure[id] + 0) + 1e-12 || \
                (limit[id] != "" && said + 0 < 0.01 * limit[id] && \
                figure[id] + 0 < 0.01 * limit[id])) && \
                said == shown(said == "" ? "" : substr(said, 1, \
                index(said " ", " ") - 1), unit[id])
            if (update != "") {
                $5 = " " may " "; $6 = " " is " "
            } else if (!(same && bound == may)) {
                print id ": " is ", at most " may ", not " said ", " bound \
                    >"/dev/stderr"
                bad++
            }
        }
    }
    { print }
    END {
        for (id in figure)
            if (!(id in seen) && of[id] != "cases") {
                print id ": told by " of[id] ", without a row" >"/dev/stderr"
                bad++
            }
        exit bad > 0
    }' "$document" >"$work/new" || failures=$((failures + 1))
if [ -n "$update" ]; then
    cat "$work/new" >"$document"
fi
if [ "$failures" -gt 0 ]; then
    echo 'figures differ: sh tests/validation.sh build/tests . update'
    exit 1
fi
echo "$(wc -l <"$work/rows") figures as measured"
