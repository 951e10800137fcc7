#!/bin/sh
# What a check, a comparison and a margin print without options is one screen,
# whatever they find: at most 45 lines of 100 columns, and no line wider than a
# page of 60; of a check the verdict is
# the first thing said and the last; its figure and its limit are those of a row
# of verdict.csv that has the verdict. Walls: the demonstration set; those whose
# outcome in practice is known field_walls.sh asks the same of.
#   usage: screen.sh PROGRAM SOURCE-FOLDER
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA COLUMNS
failures=0

fail() {
    echo "$*"
    failures=$((failures + 1))
}

. "$(dirname "$0")/screen_looks.sh"

screen() { # WALL OPTIONS
    wall=$1
    shift
    "$program" check "$wall" "$@" --tables "$work/tables" >"$work/text" \
        2>"$work/err"
    status=$?
    [ $status -eq 2 ] || [ $status -eq 3 ] && fail "$wall: $(cat "$work/err")"
    one_screen "$wall $*" "$work/text" "$work/tables/verdict.csv"
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
