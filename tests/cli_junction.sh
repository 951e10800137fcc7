#!/bin/sh
# The verb junction: its statuses, forms and refusals.   usage: cli_junction.sh
# PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

corner=assemblies/junctions/upland-corner.xml
bare=assemblies/junctions/upland-reveal-bare.xml

stud=assemblies/junctions/upland-stud.xml

# --- what fails is 1, what holds at the surface alone is not assessed
run 1 junction "$bare"
says out 'Verdict: fails'
says out 'Where mould is found first'
[ "$(wc -l <out)" -le 45 ] || fail 'more than a screen'
run 4 junction "$stud"
says out 'The surface holds; by months no water stands within'
run 1 junction "$corner"
says out 'Where water stands by months'
says out '(screening; a'
empty err

# --- for programs
run 1 junction "$corner" --simulate --no-synthetic-hours
says out 'Not simulated: the climate has no hours'
run 1 junction "$corner" --format csv
says out 'junction,place,criterion,verdict'
says out 'junction-inside,not assessed,yes'
run 1 junction "$corner" --format json
says out '"junction-field": ['
run 1 junction "$corner" --tables folder --quiet
for table in junction junction-heat junction-field junction-water \
    junction-faces junction-year; do
    [ -s "folder/$table.csv" ] || fail "no $table.csv"
done
! grep -Eqi '(^|,)-?(nan|inf)(,|$)' folder/*.csv || fail 'a number that is none'
run 1 junction "$corner" --format html --output corner.html
grep -q '<svg' corner.html || fail 'no picture'
cat >plane.xml <<'XML'
<junction xmlns="urn:bothways:junction:1" id="plane">
  <outdoors climate="assemblies/climates/upland.csv"/>
  <indoors temperature="20 degC" humidity-class="2"/>
  <drawing>
    <rectangle material="brick-old-soft" x="0 mm" y="0 mm" width="300 mm" height="1 m"/>
    <space of="outside" x="-100 mm" y="0 mm" width="100 mm" height="1 m"/>
    <space of="room" x="300 mm" y="0 mm" width="100 mm" height="1 m"/>
    <symmetry side="below"/>
    <symmetry side="above"/>
  </drawing>
</junction>
XML
run 4 junction plane.xml --format html --output plane.html
! grep -q 'viewBox="[^"]*-' plane.html || fail 'a picture without extent'

# --- refusals write nothing
run 2 junction
says err 'junction takes one file'
run 2 junction "$corner" "$bare"
run 2 junction missing.xml
sed 's/setback="115 mm"/setback="9 m"/' "$bare" >assemblies/junctions/wrong.xml
run 2 junction assemblies/junctions/wrong.xml --output wrong.txt
says err 'wrong.xml:6: <frame> setback="9 m"'
[ ! -e wrong.txt ] || fail 'something was written'
run 2 junction "$corner" --output "$corner"
run 2 junction "$corner" --output assemblies/upland-masonry-inside.xml
run 2 junction "$corner" --monthly-only
run 2 junction assemblies/upland-masonry-inside.xml
says err 'junction'

finish
