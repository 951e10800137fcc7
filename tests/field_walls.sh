#!/bin/sh
# Walls whose outcome in practice is known, against what the built command says
# of them, simulation included: at most one differs, none that fails in
# practice passes, none stays without an answer; and docs/field-walls.md says
# what the command says. With "update" its last two columns are written anew.
# The walls, and expected.csv with the verdicts practice allows, are no part of
# the project: in field-walls of the folder that BOTHWAYS_SHARED_DATA names,
# else of ../shared/data beside the project. Where they are not, nothing is
# tested, and that is said.
#   usage: field_walls.sh PROGRAM SOURCE-FOLDER [update]
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
update=${3:-}
walls=${BOTHWAYS_SHARED_DATA:-$source/../shared/data}/field-walls
document=$source/docs/field-walls.md
[ -f "$walls/expected.csv" ] || {
    echo "skipped: no $walls/expected.csv"
    exit 0
}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
cd "$walls" || exit 1
failures=0

fail() {
    echo "$*"
    failures=$((failures + 1))
}
. "$source/tests/screen_looks.sh"

# The line "overall" of each wall holds verdict and reason; of that, what
# stands before the colon names the row: number, verdict, row.
sed '1d; s/,.*//' expected.csv | xargs -P "$(nproc)" -I{} sh -c \
    '"$0" check "$1" --no-advice --tables "$2/$1" 2>&1 >"$2/$1.text" |
        sed "s/^/$1: /"' "$program" {} "$work"
for wall in $(sed '1d; s/,.*//' expected.csv); do
    one_screen "$wall" "$work/$wall.text" "$work/$wall/verdict.csv" >>"$work/screens"
    said=$(sed -n 's/^[^,]*,all,overall,all that decide,,,,,//p' "$work/$wall/verdict.csv")
    verdict=${said%%,*}
    row=$(printf '%s\n' "${said#*,}" | sed 's/^"//
        s/^Every criterion that decides holds\. Closest to its limit: //
        s/^\([^:]*\):.*/\1/; s/"$//; s/|/,/g')
    printf '%s|%s|%s|%s\n' "${wall%%-*}" "${verdict:-no answer}" "$row" "$wall"
done >"$work/said"
[ -z "$(cat "$work/screens")" ] || fail "$(cat "$work/screens")"

awk -F'|' '
    NR == FNR { split($0, f, ","); want[f[1]] = f[2]; next }
    {
        n++
        allowed = index("|" want[$4] "|", "|" $2 "|") > 0
        may_hold = index("|" want[$4] "|", "|holds|") > 0
        if ($2 == "no answer" || $2 == "not assessed") what = "no answer"
        else if (allowed || (may_hold && $2 == "marginal")) { agree++; next }
        else what = $2 == "fails" ? "too strict" : "UNSAFE"
        count[what]++
        printf "%s: %s, in practice %s (%s)\n", $4, $2, want[$4], what
    }
    END {
        printf "%d of %d walls agree; unsafe %d, without an answer %d\n",
            agree, n, count["UNSAFE"], count["no answer"]
        exit n < 24 || agree < n - 1 || count["UNSAFE"] || count["no answer"]
    }' expected.csv "$work/said" || failures=$((failures + 1))

# A row of the document begins with the wall's number; its last two cells are
# ours.
awk -F' [|] ' -v OFS=' | ' '
    NR == FNR { split($0, f, "|"); verdict[f[1]] = f[2]; row[f[1]] = f[3]; next }
    { number = $1; sub(/^[|] */, "", number); sub(/ *$/, "", number) }
    number in verdict { $(NF - 1) = verdict[number]; $NF = row[number] " |"
                        delete verdict[number] }
    { print }
    END { for (number in verdict) { print "no row of " number; exit 1 } }
    ' "$work/said" "$document" >"$work/document" || {
    tail -n 1 "$work/document"
    exit 1
}
if [ -n "$update" ]; then
    cp "$work/document" "$document"
elif ! diff -u "$document" "$work/document"; then
    failures=$((failures + 1))
    echo "$document says otherwise. If it should change:" \
        'sh tests/field_walls.sh PROGRAM . update, and say why in the commit'
fi
exit $((failures > 0))
