#!/bin/sh
# Words of the command line: verbs, options and their values, operands, the list
# on standard input, the words of materials and import.
#   usage: cli_words.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

foil=$source/assemblies/estuary-mineral-foil.xml
mineral=$source/assemblies/estuary-mineral-variable.xml

# refuse MESSAGE ARGUMENTS...: one line, nothing on standard output
refuse() {
    message=$1
    shift
    run 2 "$@"
    empty out
    says err "bothways: $message"
    [ "$(wc -l <err)" -eq 1 ] || fail "more than one line: bothways $*"
}

# --- a start from readings ----------------------------------------------------
refuse '--from-readings starts a simulation, of which there is none with --monthly-only' \
    check "$wall" --from-readings --monthly-only
run 2 check "$foil" --from-readings
says err 'there is no <reading> in <closing-up>'
run_any check "$wall" --from-readings --full
says out 'the simulation starts with sheathing at 17 % by mass'
says out 'the simulation starts with stud at 16.5 % by mass'

# --- what a simulation is told, where there is none ---------------------------
for option in --cells=2 --tolerance='0.01 K' --years=3 --start-month=4 --converge; do
    refuse "${option%%=*} is of a simulation, of which there is none with --monthly-only" \
        check "$wall" "$option" --monthly-only
done
refuse '--years is of a simulation, of which there is none with --monthly-only' \
    compare "$foil" "$mineral" --monthly-only --years 3

# --- a wall changed as it is read ----------------------------------------------
run_any check "$foil" --monthly-only --format csv
cp out as_drawn
cp "$foil" untouched.xml
run_any check "$foil" --monthly-only --quiet --set lining.thickness='25 mm' \
    --set=outdoors.driving-rain=severe
says out 'changed from outside the file: lining.thickness="25 mm"'
says out 'changed from outside the file: outdoors.driving-rain="severe"'
cmp "$foil" untouched.xml || fail '--set changed the file'
run_any check "$foil" --monthly-only --format csv
cmp out as_drawn || fail 'a change outlived its run'
run 2 check "$foil" --climate "$foil" --set outdoors.climate=x.csv
says err '--climate and --set outdoors.climate name the same thing'
run_any audit "$foil" --monthly-only --set lining.thickness='25 mm'
says out 'the wall was changed from outside the file'
run_any compare "$foil" "$mineral" --monthly-only --as-drawn \
    --set indoors.surface-resistance='0.13 m2.K/W'
says out 'changed from outside the file: indoors.surface-resistance='
run_any margin "$foil" --monthly-only --quiet --set lining.thickness='25 mm'
says out 'changed from outside the file: lining.thickness='
refuse "$foil: the change linning.mu=" check "$foil" --set linning.mu=3
for verb in check compare margin choose junction replay; do
    refuse '--quiet prints the least and --full all there is; give one' \
        "$verb" --full -q x.xml
done
refuse "--set 'lining' is no change of a wall; write PLACE.ATTRIBUTE=VALUE" \
    check "$foil" --set lining
refuse "--set '=3' is no change of a wall" check "$foil" --set =3
sets=
for i in $(seq 64); do
    sets="$sets --set lining.mu=$i"
done
# shellcheck disable=SC2086
run_any check "$foil" --monthly-only --quiet $sets
# shellcheck disable=SC2086
refuse '--set is given more than 64 times' check "$foil" $sets --set lining.mu=9

# --- verbs --------------------------------------------------------------------
refuse "unknown verb ''; see bothways --help" ''
refuse "unknown verb 'frobnicate'; see bothways --help" frobnicate
refuse "unknown verb '.xml'; see" .xml
refuse "unknown verb '-q'; see" -q
refuse 'a verb comes first: bothways check x.xml' x.xml
refuse "unknown verb 'Audit'; did you mean audit?" Audit
run 0 --help
cp out help
for words in -h '-h check' '--help x'; do
    # shellcheck disable=SC2086
    run 0 $words
    cmp out help || fail "$words is not --help"
done
run 0 --version
cp out version
[ "$(wc -l <version)" -eq 1 ] || fail 'the version is more than a line'
run 0 --version --nonsense
cmp out version || fail '--version with another word'
for verb in check compare margin audit import materials; do
    run 0 $verb --version
    cmp out version || fail "another version of $verb"
    run 0 $verb --help --output nowhere/x missing.xml
    says out "usage: bothways $verb [options]"
    cp out help
    run 0 $verb -h
    cmp out help || fail "$verb -h is not $verb --help"
done

# --- options ------------------------------------------------------------------
refuse "unknown option '--frobnicate' for check; see bothways check --help" \
    check --frobnicate "$wall"
refuse "unknown option '-x' for margin; see bothways margin --help" margin -x
refuse "unknown option '--converge' for margin; see" margin --converge "$wall"
refuse "unknown option '--fromat' for audit; did you mean --format?" \
    audit --fromat=csv "$wall"
refuse "unknown option '--equal' for check" check --equal u "$wall"
many=$(printf '%0300d' 0)
refuse "unknown option '--$(printf '%061d' 0)' for check; see" check "--$many"
for option in climate output tables scale-layer equal format profile step \
    materials; do
    refuse "--$option is empty" compare "--$option=" "$wall" "$foil"
    refuse "--$option is empty" compare "--$option" '' "$wall" "$foil"
    refuse "--$option needs a value: --$option" compare --$option
done
refuse '--format is empty' check -f= "$wall"
for option in climate output tables scale-layer; do
    refuse "--$option is given twice ('a' and 'b'); give it once" \
        compare --$option a "$wall" --$option=b "$foil"
done
for option in construction permeance-unit; do
    refuse "--$option is empty" import --$option= model.xml
    refuse "--$option is given twice" import --$option=a --$option=a model.xml
done
refuse '--equal is given twice' compare --equal u --equal=u "$wall" "$foil"
refuse '--profile is given twice' check --profile us-irc --profile dk "$wall"
refuse "--quiet takes no value" check -q=1 "$wall"
refuse "--no-colour takes no value" check --no-color=1 "$wall"
refuse "--format 'pdf' is not known; use text, csv, json or html" \
    check --format pdf "$wall"
silent_about err 'did you mean'

# whole numbers: from the least to the most, in digits
refuse_numbers() { # VERB OPTION MOST
    for value in 0 $(($3 + 1)) 1000000000 99999999999999999999 -1 +1 1. 1,5 \
        0x1 1e2 ' 1' '1 ' one; do
        refuse "$2 '$value' is no whole number from 1 to $3" \
            "$1" "$2=$value" "$wall"
    done
}
refuse_numbers check --threads 64
refuse_numbers check --step 8760
refuse_numbers check --cells 8
refuse_numbers check --years 30
refuse_numbers compare --start-month 12
for value in 0.01 '0.01 degC' '2 K' '0 K' K '0,01 K'; do
    refuse "--tolerance '$value' is no difference of temperature from" \
        check --tolerance "$value" "$wall"
done
refuse "unknown option '--converge' for compare" compare --converge "$wall" "$foil"
refuse_numbers margin --ensemble 1000000
"$program" check "$wall" --monthly-only --format csv >plain 2>err
status=$?
run $status check --threads=64 --step 8760 --monthly-only -f=csv "$wall"
cmp out plain || fail 'options glued with = or at their most'
run $status check -f csv --threads 01 --monthly-only -- "$wall"
cmp out plain || fail 'options before --'
run $status check --format text --monthly-only "$wall" --format csv
cmp out plain || fail 'the last format counts'
run_any margin "$wall" --monthly-only --ensemble 8 --format csv
run_any margin --monthly-only --ensemble=8 "$wall" -f csv --threads 2
eight=
for i in 1 2 3 4 5 6 7 8; do
    mkdir "m$i"
    cp "$source/tests/data/library/wood.xml" "m$i"
    eight="$eight --materials m$i"
done
# shellcheck disable=SC2086
run 0 materials test-timber $eight
says out 'In m8/wood.xml:'
# shellcheck disable=SC2086
refuse '--materials is given more than 8 times' materials $eight --materials m1

# --- operands -----------------------------------------------------------------
refuse 'an empty word; check takes WALL.xml ...' check "$wall" ''
refuse 'an empty word; audit takes WALL.xml' audit ''
refuse 'an empty word; import takes FILE.xml' import -- ''
refuse 'an empty word; materials takes [list |' materials search ''
refuse 'margin takes one assembly file, 0 given' margin
refuse 'margin takes one assembly file, 2 given' margin "$wall" "$foil"
refuse '--transient simulates every case and --monthly-only' margin --transient --monthly-only "$wall"
refuse 'import takes one gbXML file, 0 given' import
refuse 'import takes one gbXML file, 2 given' import "$wall" "$wall"
refuse 'compare takes 2 to 8 assembly files, 0 given' compare
refuse 'compare takes 2 to 8 assembly files, 9 given' compare \
    1 2 3 4 5 6 7 8 9
refuse '-x: cannot open this assembly file' check -- -x
refuse '--: cannot open this assembly file' audit -- --
refuse '-: cannot open this assembly file' audit -
refuse '.: this is a directory; give one climate file' \
    check --climate . "$wall"
refuse "$wall: cannot open this directory of materials: Not a directory" \
    check --materials "$wall" "$wall"
run 2 compare missing.xml also-missing.xml "$wall"
says err 'bothways: missing.xml: cannot open'
says err 'bothways: also-missing.xml: cannot open'
sed 's/<outdoors .*climate="[^"]*"/<outdoors/; s, climate="[^"]*",,' "$wall" \
    >homeless.xml
refuse 'homeless.xml: this assembly names no climate; give one with --climate' \
    check homeless.xml
run $status check homeless.xml --monthly-only --format csv \
    --climate assemblies/climates/estuary.csv
cmp out plain || fail 'the same climate, given on the command line'

sed 's,climates/estuary.csv,nowhere.csv,' "$wall" >lost.xml
refuse 'nowhere.csv: cannot open this climate file' check lost.xml

# the exit status is that of the worst wall, of each verb that judges
cat >holds.xml <<END
<assembly xmlns="urn:bothways:assembly:1" id="holds">
  <outdoors climate="$source/assemblies/climates/upland.csv" faces="N"
      driving-rain="none"/>
  <indoors temperature="20 degC" humidity-class="2"/>
  <layers listed="outside-to-inside">
    <layer id="panel" material="fibre-cement-sheet" thickness="8 mm"/>
    <layer id="wool" name="wool" thickness="100 mm" lambda="0.040 W/(m.K)"
        mu="1" kind="mineral-wool"/>
    <membrane id="foil" name="foil" sd="100 m"/>
    <layer id="lining" material="gypsum-plasterboard" thickness="12.5 mm"/>
  </layers>
</assembly>
END
holds=holds.xml
fails=$source/assemblies/upland-tight-outside.xml
for verb in 'margin --monthly-only' 'check --monthly-only'; do
    # shellcheck disable=SC2086
    {
        run 0 $verb "$holds"
        run 1 $verb "$fails"
        run 4 $verb "$wall"
    }
done
run 4 check --monthly-only "$holds" "$wall" "$holds"
run 1 check --monthly-only "$wall" "$holds" "$fails" "$holds"
run 1 compare --monthly-only --as-drawn "$holds" "$fails"
run 4 compare --monthly-only --as-drawn "$holds" "$wall"
run 0 compare --monthly-only "$holds" "$holds"

# what is held equal
run_any compare "$wall" "$mineral" --monthly-only --quiet
cp out drawn
run_any compare "$wall" "$mineral" --monthly-only --quiet --equal drawn
cmp out drawn || fail '--equal drawn is not what is compared without it'
run_any compare "$wall" "$mineral" --monthly-only --equal thickness
says out 'Held equal: the total thickness'
run_any compare "$wall" "$mineral" --monthly-only --equal u
says out 'Held equal: the U-value'

# --- the list on standard input -----------------------------------------------
list() { # STATUS LIST: a list in the words of printf
    # shellcheck disable=SC2059
    printf "$2" | "$program" check - --monthly-only --format csv >out 2>err
    got=$?
    [ $got -eq "$1" ] || fail "exit $got instead of $1: list $2"
}
cp "$wall" 'a wall.xml'
sed -i 's,climates/,assemblies/climates/,' 'a wall.xml'
list $status '\n\r\n# a remark\na wall.xml\r\n\n'
cmp out plain || fail 'a list with blank lines, remarks and CR'
list $status 'a wall.xml' # no line feed at its end
cmp out plain || fail 'a list without a last line feed'
list $status 'a wall.xml\na wall.xml\n'
[ "$(wc -l <out)" -eq $((2 * $(wc -l <plain) - 1)) ] ||
    fail 'a wall named twice is judged twice'
list 2 '# nothing\n\n'
says err 'standard input: no file is named there, one a line'
list 2 'a wall.xml\nmissing.xml\n.\n'
says err 'missing.xml: cannot open'
says err '.: this is a directory'
empty out
# names parted by zero bytes, as find -print0 gives them
list 2 'a wall.xml\0a wall.xml\0'
says err 'standard input:1: a zero byte; the list names one file a line'
empty out
list 2 'a wall.xml\n\n\0\n'
says err 'standard input:3: a zero byte'
"$program" check - <. >out 2>err
[ $? -eq 2 ] || fail 'a directory as the list'
says err 'standard input: reading the list broke off: Is a directory'
"$program" check - <&- >out 2>err
[ $? -eq 3 ] || fail 'no standard input'
says err 'standard input: reading the list broke off: Bad file'
echo 'a wall.xml' | "$program" check - - >out 2>err
[ $? -eq 2 ] || fail 'two lists'
says err 'can be read once only'
list 2 "$(printf '%05000d' 0).xml\\n"
says err 'File name too long'

# --- materials ----------------------------------------------------------------
usage='usage: bothways materials [list | NAME | show NAME | search WORD'
for words in 'list x' search 'search a b' show 'show a b' validate \
    'validate a b' 'hemp-batt hemp-batt'; do
    # shellcheck disable=SC2086
    refuse "$usage" materials $words
done
run 0 materials
cp out listed
run 0 materials list
cmp out listed || fail 'materials is materials list'
# materials that are called like the words of the verb
mkdir words
{
    sed '/<material /,$d' "$source/tests/data/library/wood.xml"
    for id in list show search validate; do
        sed -n "s/id=\"test-timber\" name=\"[^\"]*\"/id=\"$id\" name=\"Plank $id\"/
            /<material /,/<.material>/p" "$source/tests/data/library/wood.xml"
    done
    echo '</materials>'
} >words/words.xml
run 0 materials validate words
says out '4 materials read, no fault'
for id in list show search validate; do
    run 0 materials show $id --materials words
    says out "$id: Plank $id (wood)"
done
run 0 materials list --materials words --format csv
says out 'validate,Plank validate,wood,450,0.12,1600,50,20,,yes'
# a word is sought in id, name, group and remark, whatever its case
run 0 materials search LANK --materials words
[ "$(grep -c Plank out)" -eq 4 ] || fail 'a part of the name'
"$program" materials --format csv | grep ',masonry,' >masonry.csv
run 0 materials search MASONRY --format csv
grep ',masonry,' out | cmp - masonry.csv || fail 'not all of a group'
silent_about out 'aluminium-sheet'
run 0 materials search 'fibre' --format csv
says out 'hemp-batt,'
silent_about out 'aluminium-sheet'
refuse "no material 'HEMP-BATT'; did you mean hemp-batt?" materials HEMP-BATT
refuse "no material 'qqqqqqqqqqqq'; bothways materials lists all" \
    materials show qqqqqqqqqqqq
refuse "no material mentions 'plasetr'; did you mean plaster?" \
    materials search plasetr
# a page is not to be had, and a single material is no table
refuse "--format 'html' is not known; use text, csv or json" \
    materials list --format html
refuse "--format 'cvs' is not known; use text, csv or json (did you mean csv?)" \
    materials list --format cvs
refuse '--format csv is for lists; one material is shown as text' \
    materials hemp-batt --format csv
# all that is known is shown: factors of either kind, curves, notes, flags
cat >words/known.xml <<'XML'
<?xml version="1.0" encoding="UTF-8"?>
<materials xmlns="urn:bothways:material:1" group="board">
  <source key="made-up">made up for a test</source>
  <material id="known" name="Known">
    <density value="800 kg/m3" basis="estimate" source="made-up"/>
    <conductivity value="0.2 W/(m.K)" low="0.1 W/(m.K)" high="0.4 W/(m.K)"
        basis="estimate" source="made-up" note="said of lambda"/>
    <conductivity-factor kind="f-psi" value="4" basis="estimate"
        source="made-up"/>
    <specific-heat value="1000 J/(kg.K)" basis="estimate" source="made-up"/>
    <mu-dry value="10" basis="estimate" source="made-up"/>
    <flags hygroscopic="yes" absorbs-condensate="yes" wood="panel"
        mould="sensitive" source="made-up"/>
    <mu-curve basis="estimate" source="made-up" note="said of the curve">
      <point rh="30 %" mu="10"/>
      <point rh="90 %" mu="4"/>
    </mu-curve>
    <remark>Of no tree alone.</remark>
  </material>
</materials>
XML
run 0 materials known --materials words
says out 'Moisture factor of conductivity, f_psi: 4'
says out '(plausible 0.1 to 0.4)'
says out 'said of lambda'
says out 'mu, at RH: 30 %: 10, 90 %: 4'
says out 'said of the curve'
says out 'Hygroscopic: yes; face absorbs condensate: yes; wood: '
says out 'In words/known.xml:4'
silent_about out 'sd, m at mean RH'
run 0 materials search 'NO TREE' --materials words
says out known
[ "$(grep -c '^  [a-z]* *Known' out)" -eq 1 ] || fail 'a word of the remark'
sed -i 's/f-psi/f-u/; s/ note="said of the curve"//' words/known.xml
run 0 materials known --materials words
says out 'Moisture factor of conductivity, f_u: 4'
silent_about out 'said of the curve'
run 0 materials aluminium-sheet
says out 'Hygroscopic: no; face absorbs condensate: no; wood: not wood'
# validation
mkdir nothing faulty
refuse 'nothing' materials validate nothing
refuse 'nowhere: cannot open this directory' materials validate nowhere
refuse "$wall: cannot open this directory of materials: Not a directory" \
    materials validate "$wall"
sed 's/basis="estimate"/basis="guess"/' words/known.xml >faulty/known.xml
refuse 'faulty/known.xml:5: ' materials validate faulty
cp words/known.xml faulty/known.xml
cp words/known.xml faulty/more.xml
refuse 'faulty/more.xml:4: <material> id="known" is already taken' \
    materials validate faulty
run 0 materials validate words --output counted.txt
empty out
[ "$(cat counted.txt)" = '5 materials read, no fault' ] || fail 'the count'

# --- import -------------------------------------------------------------------
model=$source/tests/data/gbxml-sample.xml
run 2 import "$model"
empty out
says err 'Constructions of this file (layers):'
says err '  wall-si (6)  Brick and batt & lining'
[ "$(grep -c '^  wall-mixed (2)$' err)" -eq 1 ] || fail 'one without a name'
says err '--construction'
run 2 import "$model" --construction nowhere
silent_about err 'Constructions of this file'
says err 'nowhere'
sed '/<Construction id="roof-ip">/,/<.Construction>/d
    /<Construction id="wall-mixed">/,/<.Construction>/d
    /<Construction id="door">/,/<.Construction>/d
    /<Surface/d' "$model" >single.xml
refuse 'single.xml' import single.xml # no list where there is no choice
says err '--permeance-unit'
run 0 import single.xml --permeance-unit usperm --output single.out
empty out
says err 'Missing, marked "?" or named here:'
says err 'Understood:'
says single.out '<assembly'
sed "s/<Name>Roof in inch and pound/<Name>Roof$(printf '\302\233')2J\&#10;\&#x7f;/" \
    "$model" >steering.xml
run 2 import steering.xml
says err '  roof-ip (2)  Roof?2J'
if grep -q "$(printf '\302\233')\|$(printf '\177')" err; then
    fail 'the name of a construction steers the terminal'
fi

finish
