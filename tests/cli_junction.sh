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

# --- a leak is what months say nothing of, and not the vapour's fault
sed '/<wall/a <drawing><spot name="seam" x="200 mm" y="15 mm"/></drawing>\
<rain-leak at="seam" fraction="1 %" face="2 m" source="survey"/>' "$stud" \
    >assemblies/junctions/leaking.xml
run 4 junction assemblies/junctions/leaking.xml
says out '--simulate alone can tell'
says out 'leak in months know nothing'
silent_about out 'nothing speaks against it'
run 4 junction "$stud"
says out 'nothing speaks against it'

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

# --- a wall that names its junctions is no better than the worst of them
mkdir named
wall() { # JUNCTIONS
    sed -e 's#climates/#../assemblies/climates/#' -e '/<.assembly>/d' \
        assemblies/upland-open-outside.xml
    printf '  <junctions>\n%s\n  </junctions>\n</assembly>\n' "$1"
}
sed 's#\.\./upland-open-outside#wall#' "$stud" >named/stud.xml
sed -e 's#assemblies/climates#../assemblies/climates#; s/300 mm/60 mm/' \
    -e 's/humidity-class="2"/humidity-class="3"/' plane.xml >named/plane.xml
wall '    <junction file="stud.xml"/>' >named/wall.xml
run 4 check named/wall.xml --monthly-only --no-advice
says out 'Junctions'
says out 'Upland frame wall, a stud in its bay'
wall '    <junction file="stud.xml"/>
    <junction file="plane.xml"/>' >named/wall.xml
run 1 check named/wall.xml --monthly-only --no-advice
run 1 check named/wall.xml --monthly-only --no-advice --format csv
says out 'upland-open-outside,upland-stud,junction,steady,,-,,,not assessed'
says out 'upland-open-outside,plane,junction,steady,,-,,,fails'
run 1 check named/wall.xml --monthly-only --no-advice --format json
says out '"section": "plane", "criterion": "junction"'
run 1 check named/wall.xml --monthly-only --no-advice --format html --output named/wall.html
[ "$(grep -c 'data-month' named/wall.html)" -ge 1 ] || fail 'no picture of a junction'
run 4 junction named/stud.xml   # which names the wall that names it
# the wall's own changes are the junction's
wall '    <junction file="stud.xml"/>' >named/wall.xml
run 4 check named/wall.xml --monthly-only --no-advice --quiet
before=$(grep 'Upland frame wall' out)
run 4 check named/wall.xml --monthly-only --no-advice --quiet --set stud-bay.thickness='120 mm'
[ "$before" != "$(grep 'Upland frame wall' out)" ] || fail 'a junction of the wall before it was changed'
# one error each, with its line
wall '    <junction file="missing.xml"/>' >named/wall.xml
run 2 check named/wall.xml --monthly-only
says err 'named/wall.xml:24: <junction file="named/missing.xml"> is not there'
[ "$(wc -l <err)" -eq 1 ] || fail 'more than one line'
sed 's#\.\./upland#../assemblies/upland#' "$corner" >named/other.xml
wall '    <junction file="other.xml"/>' >named/wall.xml
run 2 check named/wall.xml --monthly-only
says err 'is made of "upland-masonry-inside", not of this wall'
wall '    <junction file="stud.xml"/>
    <junction file="stud.xml"/>' >named/wall.xml
run 2 check named/wall.xml --monthly-only
says err 'stands twice'
wall '' >named/wall.xml
run 2 check named/wall.xml --monthly-only
says err 'names 0 junctions'
sed 's/kind="stud"/kind="stut"/' named/stud.xml >named/wrong.xml
wall '    <junction file="wrong.xml"/>' >named/wall.xml
run 2 check named/wall.xml --monthly-only
says err 'named/wrong.xml:4:'
sed 's#upland.csv#estuary.csv#' named/plane.xml >named/plane2.xml
wall '    <junction file="plane2.xml"/>' >named/wall.xml
run 2 check named/wall.xml --monthly-only
says err 'is in another climate'
wall '    <junction file="plane.xml"/>' >named/wall.xml
run 2 check named/wall.xml --monthly-only --set indoors.temperature='24 degC'
says err 'named/wall.xml:24: <junction file="named/plane.xml"> has no room whose air'
wall '    <junction file="stud.xml"/>' >named/wall.xml
run 4 audit named/wall.xml --monthly-only --output named/audit.txt
grep -q '^[0-9a-f]\{64\}  named/stud.xml' named/audit.txt || fail 'an input without its digest'

# --- the sheets: what each was judged with, and that no evidence is asked for
says named/audit.txt 'Junctions of this wall'
says named/audit.txt 'Not evidenced: no evidence of a junction'
run_any audit named/wall.xml --plan --monthly-only --quiet
says out 'Junctions, as they were judged'
says out '[ ] Softwood, across the grain, 450 kg/m3: 45.0 mm by 240.0 mm'
says out '[ ] Gypsum plasterboard: 12.5 mm, going on sideways'
says out '[ ] Membrane of constant sd 5 m, without a gap'
silent_about out 'than it was judged with'
sed '/<wall/a <drawing><spot name="seam" x="200 mm" y="15 mm"/></drawing>\
<rain-leak at="seam" fraction="1 %" face="2 m" source="survey"/>\
<room-air at="seam" flow="0.5 m3/(m.h)" source="smoke"/>' named/stud.xml >named/drips.xml
wall '    <junction file="drips.xml"/>' >named/wall.xml
run_any audit named/wall.xml --plan --monthly-only --quiet
says out '[ ] Rain gets in no more than it was judged with. At "seam": 1 % of the driving'
says out '[ ] Room air gets in no more than it was judged with. Air of "room" to "seam":'
run_any audit assemblies/upland-closing-refused.xml --plan --monthly-only
silent_about out 'Junctions'

# --- walls side by side: none wins by a junction that nobody looked at
wall '    <junction file="plane.xml"/>
    <junction file="stud.xml"/>' >named/wall.xml
sed 's/id="upland-open-outside"/id="bare"/; s#climates/#../assemblies/climates/#' \
    assemblies/upland-open-outside.xml >named/bare.xml
sed 's/thickness="240 mm"/thickness="260 mm"/' named/bare.xml >named/thicker.xml
run 1 compare named/wall.xml named/bare.xml --monthly-only --as-drawn --format csv
grep -q '^junction,criterion,upland-open-outside,plane,.*,fails,' out ||
    fail 'a failing junction is not compared'
run 1 compare named/wall.xml named/bare.xml --monthly-only --as-drawn
says out 'Verdict                                 fails'
says out 'Junction                                fails'
says out 'Which wall: none of them is known to hold'
# under a stress its junctions are not judged: it holds none
wall '    <junction file="stud.xml"/>' >named/wall.xml
run 4 compare named/wall.xml named/bare.xml --monthly-only --as-drawn
says out 'not assessed: the wall alone'
# nor does any case of a margin
run 4 margin named/wall.xml --monthly-only --quiet
silent_about out 'would hold'
says out '(not assessed: junction)'
# equal U would be another wall than its junctions were drawn of
run 2 compare named/thicker.xml named/wall.xml --monthly-only --equal u --output beside.txt
says err 'named/wall.xml:24: a wall that names <junctions> cannot be rescaled'
[ "$(wc -l <err)" -eq 1 ] && [ ! -e beside.txt ] || fail 'a refusal that is more than a line'
run 4 compare named/wall.xml named/thicker.xml --monthly-only --equal u
# of several junctions the worst is the wall's in a margin, too
for last in stud plane; do
    case $last in stud) first=plane ;; *) first=stud ;; esac
    wall "    <junction file=\"$first.xml\"/>
    <junction file=\"$last.xml\"/>" >named/wall.xml
    run 1 margin named/wall.xml --monthly-only --quiet
    says out 'As drawn, screened by months alone: would fail'
done

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
