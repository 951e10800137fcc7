#!/bin/sh
# The command line as a user meets it: exit status, what goes where, what is
# refused and in which words.   usage: cli.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

# --- usage ------------------------------------------------------------------
run 2
says err 'usage: bothways VERB'
empty out
run 0 --help
says out 'check'
says out 'materials'
empty err
run 0 --version
says out 'bothways '
run 0 check --help
says out '--climate FILE'
says out '--tables DIR'
run 0 materials --help
run 2 chek wall.xml
says err "bothways: unknown verb 'chek'; did you mean check?"
run 2 "$wall"
says err 'a verb comes first: bothways check'
run 2 check
says err 'check needs an assembly file'
run 2 check --clmate x "$wall"
says err "unknown option '--clmate' for check; did you mean --climate?"
run 2 check "$wall" --climate
says err '--climate needs a value'
run 2 check "$wall" --quiet=yes
says err '--quiet takes no value'
run 2 check "$wall" --output a --output b
says err '--output is given twice'
run 2 check "$wall" --format htm
says err 'did you mean html?'
run 2 check "$wall" "$wall" --format html
says err 'a page is of one wall'
run 2 check "$wall" --format cvs
says err 'did you mean csv?'

# --- input ------------------------------------------------------------------
run 2 check missing.xml
says err 'bothways: missing.xml: cannot open'
empty out
run 2 check .
says err 'this is a directory'
: >empty.xml
run 2 check empty.xml
says err 'empty.xml'
run 2 check missing.xml empty.xml
says err 'missing.xml'
says err 'empty.xml'
run 2 check "$wall" --climate missing.csv
says err 'missing.csv'
run 2 check "$wall" --materials nowhere
BOTHWAYS_DATA=$work/nowhere "$program" materials >out 2>err
[ $? -eq 2 ] || fail "BOTHWAYS_DATA without materials was taken"
says err 'BOTHWAYS_DATA'

# --- check ------------------------------------------------------------------
run_any check "$wall" --monthly-only
says out 'Verdict: '
says out 'Local codes and licensed professionals decide'
run_any check "$wall" --monthly-only --full
says out 'Cautions'
if grep -q "$(printf '\033')" out; then
    fail 'colour although standard output is no terminal'
fi
status=$got
run "$status" check "$wall" --monthly-only --quiet
[ "$(wc -l <out)" -lt 40 ] || fail '--quiet is long'
run "$status" check --monthly-only --format=csv -- "$wall"
cp out verdict.csv
says out 'assembly,section,criterion,method,value,unit,limit,margin,verdict,reason,source'
run "$status" check "$wall" --monthly-only --format csv --output saved.csv
empty out
cmp -s saved.csv verdict.csv || fail '--output differs from standard output'
run "$status" check "$wall" --monthly-only --tables results
for table in verdict layers monthly surface period hourly; do
    [ -s "results/$table.csv" ] || fail "no $table.csv"
done
for hours in 0 8761 day 1.5; do
    run 2 check "$wall" --tables unwritten --step "$hours"
    says err "--step '$hours' is no whole number from 1 to 8760"
done
[ ! -e unwritten ] || fail 'tables of a refused step'
cmp -s results/verdict.csv verdict.csv || fail 'verdict.csv differs from --format csv'
awk -F, 'NR > 1 && $3 == "design" { seen[$2 "," $5]++ }
    END { for (k in seen) if (seen[k] != 12) exit 1
          exit length(seen) < 4 }' results/monthly.csv ||
    fail 'monthly.csv: not twelve months for every interface'
find . -name '.bothways-*' | grep . && fail 'an unfinished file stayed'

# several walls: one header row, rows of both
run_any check --monthly-only --format csv "$wall" \
    "$source/assemblies/upland-tight-outside.xml"
[ "$(grep -c '^assembly,' out)" -eq 1 ] || fail 'several header rows'
says out 'estuary-fibre,'
says out 'upland-tight-outside,'
[ "$(wc -l <out)" -gt "$(wc -l <verdict.csv)" ] || fail 'rows of one wall only'

# --- output that cannot be written --------------------------------------------
run 2 check "$wall" --monthly-only --output nowhere/report.txt
says err 'nowhere/report.txt'
says err 'make its folder first'
run 2 check "$wall" --monthly-only --output nowhere/report.txt --tables unwritten
[ ! -e unwritten ] || fail 'tables were written although the report was refused'
run 2 check "$wall" --monthly-only --tables nowhere/results
says err 'make its folder first'
run 2 check "$wall" --monthly-only --output saved.csv/more
says err 'a part of its path is no folder'
run 2 materials list --output nowhere/list.txt
run_any check "$wall" --monthly-only --tables slashed/
[ -s slashed/verdict.csv ] || fail '--tables with a slash at its end'
run 2 check "$wall" --monthly-only --output results
says err 'directory'
run 2 check "$wall" --monthly-only --tables saved.csv
says err 'saved.csv'
if [ -w /dev/full ]; then
    "$program" check "$wall" --monthly-only >/dev/full 2>err
    [ $? -eq 3 ] || fail 'a full disk was not noticed'
    says err 'No space left'
    "$program" --help >/dev/full 2>err
    [ $? -eq 3 ] || fail 'a full disk was not noticed by --help'
    run 3 check "$wall" --monthly-only --output /dev/full
fi
("$program" check "$wall" --monthly-only 2>err; echo $? >code) | :
case $(cat code) in
3) says err 'roken pipe' ;;
0 | 1 | 4) ;; # everything fitted into the pipe before it closed
*) fail "a closed pipe gave exit $(cat code)" ;;
esac
if [ "$(id -u)" -ne 0 ]; then
    echo old >locked.csv
    chmod 444 locked.csv
    run 2 check "$wall" --monthly-only --output locked.csv
    [ "$(cat locked.csv)" = old ] || fail 'a read-only file was replaced'
fi

# --- audit --------------------------------------------------------------------
refused=$work/assemblies/upland-closing-refused.xml
released=$work/assemblies/upland-closing-released.xml
# A sheet takes a dozen simulations: what it says without them is asked of months.
# The refused wall is simulated by the suite `audit` and by documents.sh.
run 4 audit "$refused" --date 2024-04-12 --monthly-only
says out 'declared: a data sheet'
says out 'severe: hilltop, coast'
says out '3: buildings of unknown occupancy'
says out 'Hold point before closing up: NOT released'
says out 'no air test with the membrane still exposed'
run 4 audit "$refused" --monthly-only --quiet
says out 'Hold point before closing up: NOT released'
# of today it is stale
run 4 audit "$released" --monthly-only --format csv
says out ',stale,,open,'
# by months alone nothing is released
run 4 audit "$released" --date 2024-05-10 --monthly-only --format csv
says out ',not-simulated,,open,'
silent_about out ',stale,,open,'
silent_about out ',changed,,open,'
run 4 audit "$released" --date 2024-05-10 --monthly-only --format csv \
    --climate "$work/assemblies/climates/estuary.csv"
says out ',changed,,open,"the climate is '
run 0 audit "$released" --date 2024-05-10 --output released.txt --tables sheet
says released.txt 'Hold point before closing up: released'
says released.txt 'signature'
cp sheet/audit.csv out
says out 'assembly,part,item,value,unit,state,detail'
says out ',hold-point,before closing up,,,released,'
for table in audit verdict monthly margin; do
    [ -s "sheet/$table.csv" ] || fail "no $table.csv of an audit"
done
if command -v sha256sum >tool; then
    says out "$(sha256sum "$released" | cut -c1-64)"
    says out "$(sha256sum "$work/assemblies/climates/upland.csv" | cut -c1-64)"
fi
cp "$released" 'a wall.xml'
sed -i 's,climates/,assemblies/climates/,' 'a wall.xml'
run 4 audit 'a wall.xml' --date 2024-05-10 --monthly-only
says out 'signature'
tr -s ' \n' ' ' <out >joined # the command line may be broken there
says joined "'a wall.xml'"
if again 'a closing wall by another rule set'; then
    run 4 audit "$released" --date 2024-05-10 --profile au-ncc --quiet
    says out 'as profile au-ncc asks'
fi
run 1 audit "$source/assemblies/upland-tight-outside.xml" --monthly-only --quiet
run 2 audit
says err 'audit needs an assembly file, or the folder of a house'
sed 's/critical="20 %"/critical="17 %"/' "$refused" >order.xml
sed -i 's,climates/,assemblies/climates/,' order.xml
run 2 audit order.xml
says err 'is below allowed="18 %"'
sed 's/moisture="16.0 %"/moisture="16.0"/' "$refused" >unit.xml
run 2 audit unit.xml
says err 'unit.xml'
sed 's/reading date="2024-04-11"/reading date="April"/' "$refused" >date.xml
run 2 audit date.xml
says err 'is not a day'
run 2 audit "$released" --date yesterday
says err "--date 'yesterday' is no day; write year-month-day"
run 2 audit "$released" --date 2400-01-01
says err "--date '2400-01-01' is after today, "

# --- the plan of evidence
if again 'the plan of a closing wall: text, page, rows'; then
    run 0 audit "$refused" --plan
    says out 'What to measure and photograph before closing up'
    says out 'Read its moisture at 3 different places or more, 14 mm deep'
    says out 'part="stud-bay.framing"'
    run 0 audit "$refused" --plan --format html --output plan.html
    says plan.html '<!DOCTYPE html>'
    run 0 audit "$refused" --plan --format csv
    says out ',need,readings,stud-bay.framing,,'
    ! grep -q ',hold-point,' out || fail 'a plan tells of the hold point'
fi

# --- compare ------------------------------------------------------------------
mineral=$source/assemblies/estuary-mineral-variable.xml
foil=$source/assemblies/estuary-mineral-foil.xml
if again 'simulated walls of equal U'; then
    run_any compare "$wall" "$mineral" --equal u --full
    says out 'Held equal: the U-value of estuary-fibre'
    says out 'What the numbers show'
fi
"$program" check "$wall" "$foil" --monthly-only --quiet >/dev/null
run $? compare "$wall" "$foil" --monthly-only
months=
again 'two walls simulated side by side' || months=--monthly-only
# shellcheck disable=SC2086
run_any compare "$wall" "$mineral" --format csv --tables both $months
says out 'criterion,kind,assembly,section,value,unit,limit,margin,verdict,instead'
cmp -s out both/compare.csv || fail 'compare.csv is not what --format csv says'
run 2 compare "$wall"
says err 'takes 2 to 8'
run 2 compare "$wall" "$source/assemblies/estuary-as-found.xml"
says err '--as-drawn'
empty out
if again 'simulated walls of other rooms'; then
    run_any compare "$wall" "$source/assemblies/estuary-as-found.xml" --as-drawn --full
    says out 'The rooms differ'
fi
run 2 compare "$wall" "$mineral" --equal u --as-drawn
says err 'contradict'
run 2 compare "$wall" "$mineral" --equal weight
says err 'use u, thickness or drawn'
run 2 compare "$wall" "$mineral" --equal u --scale-layer none
says err "no layer 'none'"

# --- import -------------------------------------------------------------------
model=$source/tests/data/gbxml-sample.xml
run 2 import "$model"
says err 'wall-mixed'
empty out
run 2 import "$model" --construction wall-si
says err '--permeance-unit'
run 0 import "$model" --construction roof-ip
says out 'listed="outside-to-inside"'
says err 'Missing'
run 0 import "$model" --construction wall-si --permeance-unit usperm --quiet
says out '<!-- by its name perhaps material="brick-facing"'
silent_about out ' material="brick-facing" thickness'
run 0 import "$model" --construction wall-si --permeance-unit usperm \
    --output skeleton.xml --quiet
empty out
empty err
run 2 check skeleton.xml
says err 'skeleton.xml:'
run 2 import "$wall"
says err 'gbXML'

# --- materials ----------------------------------------------------------------
run 0 materials
says out 'hemp-batt'
run 0 materials list --format csv
says out 'id,name,group,density_kg_m3'
[ "$(wc -l <out)" -gt 80 ] || fail 'fewer than 80 materials'
run 0 materials hemp-batt
says out 'source: '
cp out shown
run 0 materials show hemp-batt
cmp -s out shown || fail '"materials show NAME" differs from "materials NAME"'
run 2 materials hemp-bat
says err "no material 'hemp-bat'; did you mean hemp-batt?"
# several faults of one file are told in one run
cat >slips.xml <<'XML'
<assembly xmlns="urn:bothways:assembly:1" id="slips">
<outdoors climate="assemblies/climates/estuary.csv" height="5 ft"/>
<indoors temperature="20" humidity-class="3"/>
<layers listed="inside-to-outside">
<layer material="hemp-bat" thickness="140"/>
</layers>
</assembly>
XML
run 2 check slips.xml --output never.txt
empty out
[ ! -e never.txt ] || fail 'written in spite of faults'
[ "$(wc -l <err)" -eq 4 ] || fail 'not one line a fault'
says err 'bothways: slips.xml:2: <outdoors> height="5 ft"'
says err 'bothways: slips.xml:3: <indoors> temperature="20"'
says err 'bothways: slips.xml:5: <layer> material="hemp-bat"'
says err 'bothways: slips.xml:5: <layer> thickness="140"'
sed '5{p;p;p;p;p;p;p;p;p;p;p}' slips.xml >many.xml
run 2 check many.xml
[ "$(wc -l <err)" -eq 21 ] || fail 'not twenty faults and how many more'
says err 'bothways: many.xml: and 6 more'

run 0 materials search HEMP
says out 'hemp-batt'
run 2 materials search zzzzqqq
says err "no material 'zzzzqqq'"
run 2 materials search hmp
says err "no material mentions 'hmp'; did you mean hemp?"
run 2 materials search
says err 'usage: bothways materials'
# of the shipped ones a wall reads what it names: the rest is for its refusal
sed 's/material="gypsum-plasterboard"/material="gypsum-plasterbord"/' \
    "$source/assemblies/estuary-fibre.xml" >misnamed.xml
run 2 check misnamed.xml --monthly-only
says err 'did you mean gypsum-plasterboard?'
[ "$(grep -c 'did you mean' err)" -eq 1 ] || fail 'a refusal is said twice'
# of the user's own every fault is told, whatever the wall names
mkdir own-faulty
sed 's/<density /<densty /' "$source/tests/data/library/wood.xml" \
    >own-faulty/wood.xml
run 2 check "$wall" --monthly-only --materials own-faulty
says err 'own-faulty/wood.xml:5: <densty>'
run 0 materials validate "$source/materials"
says out 'no fault'
run 2 materials validate "$source/tests"
run 0 materials list --output list.txt
empty out
says list.txt hemp-batt

finish
