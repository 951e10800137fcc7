#!/bin/sh
# What a check, a comparison and a margin print without options is one screen,
# whatever they find: at most 45 lines of 100 columns, and no line wider than a
# page of 60; of a check the verdict is
# the first thing said and the last; its figure and its limit are those of a row
# of verdict.csv that has the verdict. Walls: the demonstration set, and those
# whose outcome in practice is known, if they are there (field_walls.sh).
#   usage: screen.sh PROGRAM SOURCE-FOLDER
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
field=${BOTHWAYS_SHARED_DATA:-$source/../shared/data}/field-walls
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA COLUMNS
failures=0

fail() {
    echo "$*"
    failures=$((failures + 1))
}

widest() {
    awk '{ if (length($0) > n) n = length($0) } END { print n + 0 }' "$1"
}

# The figure that decides, as printed, is that of a row with the same verdict.
has_row() { # TEXT TABLE
    awk -F, '
        NR == FNR {
            if ($0 ~ /^Verdict: / && verdict == "")
                verdict = substr($0, 10)
            text = text " " $0
            next
        }
        FNR == 1 {
            gsub(/ +/, " ", text)
            if (match(text, /: (not in )?[-0-9.e]+[^:]*, limit: at (most|least) [-0-9.e]+/)) {
                figure = substr(text, RSTART + 2, RLENGTH - 2)
                # "not in 10 years": the column is in months
                value = sub(/^not in /, "", figure) ? 12 * figure : figure + 0
                sub(/.* at (most|least) /, "", figure)
                limit = figure + 0
            }
        }
        # three digits are printed
        function near(a, b) { return (a - b) ^ 2 <= (0.006 * b) ^ 2 }
        $9 == verdict && $5 != "" && $7 != "" && near($5, value) &&
            near($7, limit) { found = 1 }
        END { exit !(figure == "" ? verdict == "not assessed" : found) }' "$1" "$2"
}

screen() { # WALL OPTIONS
    wall=$1
    shift
    "$program" check "$wall" "$@" --tables "$work/tables" >"$work/text" \
        2>"$work/err"
    status=$?
    [ $status -eq 2 ] || [ $status -eq 3 ] && fail "$wall: $(cat "$work/err")"
    lines=$(wc -l <"$work/text")
    [ "$lines" -le 45 ] || fail "$wall $*: $lines lines"
    [ "$(widest "$work/text")" -le 100 ] || fail "$wall $*: a line too wide"
    first=$(grep -m 1 '^Verdict: ' "$work/text")
    case $(tail -n 1 "$work/text") in
    "$first ("*')') ;;
    *) fail "$wall $*: the last line is not the verdict, '$first'" ;;
    esac
    has_row "$work/text" "$work/tables/verdict.csv" ||
        fail "$wall $*: the figure that decides is in no row with its verdict"
}

for wall in "$source"/assemblies/*.xml; do
    screen "$wall" --no-advice
    screen "$wall" --monthly-only
    for more in '' --full --quiet; do
        # shellcheck disable=SC2086
        COLUMNS=60 "$program" check "$wall" --monthly-only $more >"$work/text"
        [ "$(widest "$work/text")" -le 60 ] ||
            fail "$wall $more: a line wider than 60"
    done
done
# Much to say of each: what fails, what is marginal, warnings, three changes.
for name in estuary-mineral-foil upland-cooled-archive; do
    screen "$source/assemblies/$name.xml"
done
walls=0
for wall in "$field"/f*.xml; do
    [ -f "$wall" ] || continue
    screen "$wall" --no-advice
    walls=$((walls + 1))
done
[ $walls -gt 0 ] || echo "no walls in $field: the demonstration set alone"

# Of several walls each has its screen, and a line at the end.
cd "$source" || exit 1
"$program" check assemblies/estuary-fibre.xml assemblies/estuary-mineral-foil.xml \
    --monthly-only >"$work/text"
[ "$(tail -n 3 "$work/text" | grep -c -E '^(2 walls|  estuary-[a-z-]*: )')" -eq 3 ] ||
    fail 'two walls: no line a wall at the end'

# Which wall: of every pair of the demonstration set by months; and simulated,
# the walls of one place and all that fit a comparison. The answer stands first
# and last.
answers() { # COMMAND...
    "$program" "$@" >"$work/text" 2>"$work/err"
    status=$?
    [ $status -eq 2 ] || [ $status -eq 3 ] && fail "$*: $(cat "$work/err")"
    lines=$(wc -l <"$work/text")
    [ "$lines" -le 45 ] || fail "$*: $lines lines"
    [ "$(widest "$work/text")" -le 100 ] || fail "$*: a line too wide"
}
which_wall() { # OPTIONS-AND-WALLS...
    answers compare --as-drawn "$@"
    [ "$(grep -c '^Which wall' "$work/text")" -eq 2 ] &&
        tail -n 2 "$work/text" | grep -q '^Which wall' ||
        fail "compare $*: the answer is not first and last"
}
for wall in assemblies/*.xml; do
    answers margin "$wall" --monthly-only
    COLUMNS=60 "$program" margin "$wall" --monthly-only >"$work/text"
    [ "$(widest "$work/text")" -le 60 ] || fail "margin $wall: wider than 60"
    for other in assemblies/*.xml; do
        [ "$wall" = "$other" ] && break
        which_wall "$wall" "$other" --monthly-only
    done
done
which_wall assemblies/estuary-fibre.xml assemblies/estuary-mineral-variable.xml
which_wall assemblies/estuary-fibre.xml assemblies/estuary-mineral-foil.xml
which_wall assemblies/upland-open-outside.xml assemblies/upland-tight-outside.xml
which_wall assemblies/estuary-*.xml assemblies/upland-[mot]*.xml --years 1
# With ids and titles of 60 letters, too, and one layer of each made to fit.
letters() { # NUMBER: sixty of them
    printf '%s%058d' w "$1" | tr 0 x
}
mkdir "$work/long"
ln -s "$source/assemblies/climates" "$work/long/climates"
for name in fibre mineral-variable mineral-foil; do
    for copy in 1 2 3; do
        id=$(letters $copy)-$name
        id=$(printf '%.60s' "$name-$id")
        sed -e "s/ id=\"estuary-$name\"/ id=\"$id\"/" \
            -e "s/title=\"[^\"]*\"/title=\"$id\"/" \
            "assemblies/estuary-$name.xml" >"$work/long/$copy-$name.xml"
    done
done
for walls in '1-fibre 1-mineral-variable' \
    '1-fibre 1-mineral-variable 1-mineral-foil' \
    '1-fibre 2-fibre 1-mineral-variable 1-mineral-foil' \
    '1-fibre 2-fibre 3-fibre 1-mineral-variable 2-mineral-variable 1-mineral-foil 2-mineral-foil 3-mineral-foil'; do
    files=
    for name in $walls; do
        files="$files $work/long/$name.xml"
    done
    # shellcheck disable=SC2086
    {
        which_wall $files --years 1
        which_wall $files --monthly-only
        answers compare --equal u $files --monthly-only
    }
done
answers margin assemblies/estuary-fibre.xml
COLUMNS=60 "$program" compare assemblies/estuary-fibre.xml \
    assemblies/estuary-mineral-foil.xml --monthly-only >"$work/text"
[ "$(widest "$work/text")" -le 60 ] || fail 'compare: wider than 60'
[ $failures -eq 0 ] && echo 'each wall on one screen'
exit $((failures > 0))
