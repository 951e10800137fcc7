#!/bin/sh
# Twice the file, twice the work: instructions are counted, not seconds, so that
# the answer is the same on every machine (valgrind's callgrind counts them).
#   usage: linear.sh PROGRAM SOURCE-FOLDER
set -u

command -v valgrind >/dev/null 2>&1 || {
    echo 'skipped: no valgrind to count instructions with'
    exit 77
}
program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
cp -r "$source/assemblies" "$work"
cd "$work" || exit 1
wall=assemblies/estuary-fibre.xml
climate=assemblies/climates/estuary.csv
failures=0

numbered() { # TIMES TEXT: with @ its number
    awk -v n="$1" -v text="$2" 'BEGIN {
        for (i = 0; i < n; i++) { line = text; gsub(/@/, i, line); print line }
    }'
}

# before PATTERN TIMES TEXT FILE: so many of them before the line
before() {
    numbered "$2" "$3" >piece
    awk -v pattern="$1" 'index($0, pattern) && !done {
        while ((getline line <"piece") > 0) print line
        done = 1
    } { print }' "$4"
}

instructions() {
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$program" "$@" \
        >out 2>err
    awk '/Collected/ { print $4 }' err
}

# work KIND PATTERN TIMES TEXT: of a run on the file that grew so
work_of() {
    case $1 in
    wall)
        before "$2" "$3" "$4" $wall >assemblies/grown.xml
        instructions check assemblies/grown.xml --monthly-only --no-advice
        ;;
    climate)
        before "$2" "$3" "$4" $climate >grown.csv
        instructions check $wall --climate grown.csv --monthly-only --no-advice
        ;;
    gbxml)
        before "$2" "$3" "$4" "$source/tests/data/gbxml-sample.xml" >grown.xml
        instructions import grown.xml --construction roof-ip
        ;;
    esac
}

# linear TITLE KIND PATTERN TIMES TEXT
linear() {
    title=$1
    # of what has not grown, once for each kind
    [ -s "count.$2" ] || work_of "$2" "$3" 0 "$5" >"count.$2"
    count_0=$(cat "count.$2")
    count_1=$(work_of "$2" "$3" "$4" "$5")
    count_2=$(work_of "$2" "$3" $((2 * $4)) "$5")
    answer=$(awk -v a="${count_0:-0}" -v b="${count_1:-0}" -v c="${count_2:-0}" 'BEGIN {
        once = b - a; twice = c - a
        printf "%d %d %.2f %s", once, twice, (once > 0 ? twice / once : 0),
            (a > 0 && twice <= 2.2 * once + 500000 ? "linear" : "NOT LINEAR")
    }')
    printf '%-28s %s\n' "$title" "$answer"
    case $answer in *NOT*) failures=$((failures + 1)) ;; esac
}

while IFS='|' read -r title kind pattern number text; do
    linear "$title" "$kind" "$pattern" "$number" "$text"
done <<'EOF'
remarks of a climate|climate|month,|2000|# remark: number @
places of a climate|climate|month,|2000|# place: @
keys of no meaning|climate|month,|2000|# keyword@: x
empty lines|climate|month,|20000|
comments of a wall|wall|<outdoors|5000|<!-- remark @ -->
instructions|wall|<outdoors|5000|<?remark @ ?>
elements of no meaning|wall|<outdoors|5000|<outdors x="@"/>
elements that stand twice|wall|<outdoors|5000|<outdoors climate="@"/>
readings|wall|<reading|200|<reading date="2024-05-01" member="stud" place="bay @" moisture="14.0 %" depth="20 mm"/>
photographs|wall|<reading|200|<evidence kind="photograph" of="a thing" part="cavity" date="2024-05-01" ref="x-@"/>
layers of a building model|gbxml|<Layer |2000|<Layer id="l@"><MaterialId materialIdRef="m@"/></Layer>
materials of a building model|gbxml|<Material |2000|<Material id="m@"><Name>n @</Name></Material>
EOF
[ $failures -eq 0 ] || { echo "$failures grow faster than their file"; exit 1; }
echo 'all linear'
