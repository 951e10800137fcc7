#!/bin/sh
# The questions people bring, each put to one command on a wall of its own: the
# answer stands among the first 45 lines. Looked for is the fact, a figure of a
# result table or a criterion, not a sentence. docs/user-guide.md, "Which
# question, which command".
#   usage: questions.sh PROGRAM SOURCE-FOLDER
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA COLUMNS
failures=0
cd "$work" || exit 1

# Invented, as its climate is.
cat >wall.xml <<XML
<assembly xmlns="urn:bothways:assembly:1" id="lane" title="Lane cottage">
  <outdoors climate="$source/assemblies/climates/upland.csv" faces="SW"
      solar-absorptance="0.7" driving-rain="moderate"/>
  <indoors temperature="20 degC" humidity-class="3"/>
  <layers listed="outside-to-inside">
    <layer id="boards" material="softwood" thickness="22 mm"/>
    <cavity id="gap" thickness="40 mm" ventilation="well"/>
    <layer id="sheathing" material="mdf-vapour-open" thickness="22 mm"
        evidence="assumed">
      <alternative material="osb" thickness="12 mm"/>
    </layer>
    <layer id="bay" material="hemp-batt" thickness="140 mm">
      <framing id="stud" material="softwood" width="45 mm" spacing="600 mm"/>
    </layer>
    <membrane id="membrane" material="variable-membrane-broad"/>
    <layer id="lining" material="gypsum-plasterboard" thickness="12.5 mm"/>
  </layers>
  <air-leakage q50="3 m3/(m2.h)" connected-height="3 m"/>
  <closing-up>
    <moisture-limit member="stud" allowed="18 %" critical="20 %"/>
    <reading date="2031-05-01" member="stud" place="bay 3" moisture="22 %"
        depth="20 mm"/>
  </closing-up>
</assembly>
XML
sed -e 's/id="lane"/id="mineral"/' -e 's/hemp-batt/glass-wool-batt/' wall.xml \
    >mineral.xml
sed -e '/<membrane /d' wall.xml >bare.xml

# The first screen of a command; its verdict is not judged here.
ask() { # QUESTION VERB ARGUMENT...
    question=$1
    shift
    rm -rf tables
    "$program" "$@" --tables tables >all.txt 2>err.txt
    case $? in
    0 | 1 | 4) ;;
    *)
        echo "$question: $(cat err.txt)"
        failures=$((failures + 1))
        ;;
    esac
    head -n 45 all.txt | tr '\n' ' ' | tr -s ' ' >screen.txt
}

shows() { # TEXT: fixed
    grep -qF -e "$1" screen.txt && return
    echo "$question: not on the first screen: $1"
    failures=$((failures + 1))
}

# A field of a table: shown TABLE COLUMN CONDITION FORMAT (awk; f() by name)
figure() {
    awk -F, -v want="$2" '
        NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
        '"$3"' { printf "'"$4"'\n", $at[want]; exit }' "tables/$1.csv"
}

ask 'does it dry both ways' check wall.xml --no-advice
for way in both outwards; do
    months=$(figure wetting months "\$at[\"way\"] == \"$way\"" %.1f)
    shows "dry in $months months"
done
shows "$(figure wetting left_kg_m2 '$at["way"] == "inwards"' %.2f) kg still there"

question='sun after rain'
grep -qE 'Sun after rain [a-z ]*, [0-9]+ Pa in [A-Z][a-z]+: [0-9]+ % RH' \
    screen.txt || shows 'Sun after rain: pressure, month and humidity'
question='corner and cupboard'
for place in corner cupboard; do
    shows "$(figure verdict value "\$2 == \"through-stud\" &&
        \$3 == \"surface-mould-$place\"" %.3g)"
done
shows 'corners are asked of bothways junction'

ask 'the stud' check wall.xml --no-advice --set sheathing.material=osb \
    --set rain-leak.fraction='5%' --set rain-leak.after-layer=sheathing
shows 'hrough stud'
# the figure of a criterion that is judged there
awk -F, '$2 == "through-stud" && $5 != "" && $7 != "" {
    printf "%.3g\n", $5 }' tables/verdict.csv >figures.txt
grep -oE '[Tt]hrough stud[^;]*' screen.txt | grep -qF -f figures.txt ||
    shows 'a figure through the stud'

ask 'the membrane leaks' check wall.xml --no-advice \
    --set air-leakage.q50='10 m3/(m2.h)'
leaky=$(grep -oE 'leaking room air [0-9.]+' screen.txt | tail -n 1)
ask 'the membrane is tight' check wall.xml --no-advice \
    --set air-leakage.q50='1 m3/(m2.h)'
tight=$(grep -oE 'leaking room air [0-9.]+' screen.txt | tail -n 1)
awk "BEGIN { exit !(${leaky##* } > 2 * ${tight##* }) }" || {
    echo "the membrane leaks: $leaky against $tight g/m2 a year"
    failures=$((failures + 1))
}

ask 'is the rain leak the cause' check wall.xml \
    --set sheathing.material=plywood-softwood --set rain-leak.fraction='1%' \
    --set rain-leak.after-layer=sheathing
shows '(1 %)'
shows 'it is the cause'
[ "$(figure verdict verdict '$3 == "overall"' %s)" = fails ] ||
    shows 'a wall that fails'
ask 'and without it' check wall.xml --no-advice \
    --set sheathing.material=plywood-softwood
[ "$(figure verdict verdict '$3 == "overall"' %s)" != fails ] ||
    shows 'a wall that does not fail'

ask 'which membrane, what to buy' check bare.xml --set indoors.humidity-class=4
shows 'membrane'
grep -qE 'membrane[^;]* sd [0-9.]+ m|\(sd [0-9.]+ m at' screen.txt ||
    shows 'the sd of a membrane'

ask 'closed at 22 %' check wall.xml --no-advice --from-readings
shows '22 %'
shows "$(figure verdict value '$3 == "first-year-drying"' %.3g) weeks"
ask 'closed at 22 %, the hold point' audit wall.xml --monthly-only
shows '22 %'
shows 'critical 20 %'

ask 'an unknown sheathing' margin wall.xml
shows 'Oriented strand board'
grep -q '^lane,.*Oriented strand board.*,simulation,' tables/margin-cases.csv ||
    shows 'the other sheathing, simulated'
question='how damp may the room be'
shows 'humidity class 3'
grep -q 'dampest-room' tables/margin-summary.csv || shows 'the dampest room'

ask 'fibre or mineral, cavity partly blocked' compare wall.xml mineral.xml \
    --set gap.filled-with=mortar-droppings --set gap.blocked='20 %'
shows lane
shows mineral
shows "$(figure verdict verdict '$3 == "overall"' %s)"

ask 'a picture of it' check wall.xml --no-advice --format html \
    --output page.html
grep -q '<svg' page.html && grep -q 'through the year' page.html ||
    shows 'the wall through the year'

[ $failures -eq 0 ] && echo 'each question is answered on the first screen'
exit $((failures > 0))
