#!/bin/sh
# The verb choose: its options, the cases kept, parts of several machines, and
# that threads and interruptions change no byte. By months, which are soon done.
#   usage: cli_choose.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

choices=$source/assemblies/estuary-choices.xml
few='--monthly-only --race 32 --drawn 32'

# refuse MESSAGE ARGUMENTS...: one line, nothing on standard output
refuse() {
    message=$1
    shift
    run 2 "$@"
    empty out
    says err "$message"
    [ "$(wc -l <err)" -eq 1 ] || fail "more than one line: bothways $*"
}

# --- options ------------------------------------------------------------------
refuse "choose takes one assembly file" choose
refuse "says nothing of what may be chosen" choose "$wall" --monthly-only
refuse "--race '12' is no multiple of 8" choose "$choices" --race 12
refuse "--drawn '12' is no multiple of 8" choose "$choices" --drawn 12
refuse "--race '4' is no whole number from 8 to 4096" choose "$choices" --race 4
refuse "--part '3/2' is no part" choose "$choices" --part 3/2 --resume a
refuse "--part 'half' is no part" choose "$choices" --part half --resume a
refuse "say with --resume FILE" choose "$choices" --part 1/2
refuse "is in the name of no finding" \
    choose "$choices" --monthly-only --settled "green roof"
refuse "is in the name of several findings" \
    choose "$choices" --monthly-only --settled "mu of"

# --- the wall of the file is the wall as drawn -----------------------------------
run_any check "$choices" --monthly-only --format csv --output with.csv
sed '/<choices/,/<\/choices>/d' "$choices" >without.xml
mkdir -p climates
cp "$source"/assemblies/climates/* climates
run_any check without.xml --monthly-only --format csv --output without.csv
cmp -s with.csv without.csv || fail "choices change what check says"

# --- the same bytes ---------------------------------------------------------------
run_any choose "$choices" $few --full --output one.txt --threads 1
for threads in 2 7; do
    run_any choose "$choices" $few --full --output more.txt --threads $threads
    cmp -s one.txt more.txt || fail "$threads threads: other bytes"
done
says one.txt 'cases weigh the ranges you gave, not likelihoods'

run_any choose "$choices" $few --full --output first.txt --resume cases
cmp -s one.txt first.txt || fail "kept cases: other bytes"
cp cases whole
run_any choose "$choices" $few --full --output again.txt --resume cases
cmp -s one.txt again.txt || fail "resumed: other bytes"
cmp -s cases whole || fail "resumed: other cases"

# --- in parts ----------------------------------------------------------------------
for part in 1 2 3; do
    run 0 choose "$choices" $few --part $part/3 --resume part.$part
    says out "part $part of 3"
done
run_any choose "$choices" $few --full --output joined.txt --resume joined \
    --resume part.1 --resume part.2 --resume part.3
cmp -s one.txt joined.txt || fail "in parts: other bytes"

# --- what is refused stays as it is ----------------------------------------------
refused() {
    cp kept before
    refuse "$1" choose "$choices" $few --resume kept
    cmp -s kept before || fail "a file that is refused was touched: $1"
}
echo 'my notes' >kept
refused 'is no file of cases that choose has kept'
head -n 30 whole >kept
refused 'is damaged'
sed '5s/ / 7/' whole >kept
refused 'is damaged'
sed 's/^end ..../end 0000/' whole >kept
refused 'is damaged'
head -c 100 whole >kept
refused 'is damaged'
cp whole kept
refuse 'are of another wall, climate, material, option or version' \
    choose "$choices" $few --seed 2 --resume kept
cmp -s kept whole || fail "cases of another seed were touched"
refuse 'this file is read and would be replaced' \
    choose without.xml $few --resume without.xml
refuse 'two results of this run would be written there' \
    choose "$choices" $few --resume same --output same
refuse 'cannot open' choose "$choices" $few --resume new --resume missing

# --- tables ---------------------------------------------------------------------
run_any choose "$choices" $few --tables tables
for table in choose choose-findings choose-summary; do
    [ -s "tables/$table.csv" ] || fail "no table $table.csv"
done
[ "$(wc -l <tables/choose.csv)" -eq 37 ] || fail "choose.csv has not 36 designs"
grep -q 'holds' tables/choose.csv && fail "months alone say that a design holds"
# --- a wall whose junctions no design is judged with -------------------------------
# The wall against soil holds by months; what it names fails, and is not judged.
cat >slab.xml <<'XML'
<junction xmlns="urn:bothways:junction:1" id="slab">
  <outdoors climate="climates/upland.csv" faces="N"/>
  <indoors temperature="18 degC" humidity-class="2"/>
  <drawing>
    <rectangle material="reinforced-concrete" x="0 mm" y="0 mm" width="100 mm" height="1000 mm"/>
    <space of="outside" x="-500 mm" y="0 mm" width="500 mm" height="1000 mm"/>
    <space of="room" x="100 mm" y="0 mm" width="500 mm" height="1000 mm"/>
    <symmetry side="below"/>
    <symmetry side="above"/>
  </drawing>
</junction>
XML
made='<choices><choice layer="finish"><option/><option><none/></option></choice></choices>'
sed "s|</assembly>|$made&|" "$source/assemblies/upland-cellar-wall.xml" >cellar.xml
run 0 choose cellar.xml $few
sed 's|<choices>|<junctions><junction file="slab.xml"/></junctions>&|' cellar.xml >named.xml
run 1 check named.xml --monthly-only
run 4 choose named.xml $few --tables named
says out 'of no design are they judged'
grep -q ',holds,' named/choose.csv && fail "a design holds whose junction nobody judged"
finish
