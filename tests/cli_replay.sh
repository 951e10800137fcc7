#!/bin/sh
# The verb replay: its statuses, forms and refusals.   usage: cli_replay.sh
# PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

wall=assemblies/measured/north-wall.xml
log=assemblies/measured/north-wall-log.csv

# --- a comparison is no verdict
run 0 replay "$wall" "$log"
says out 'Measured beside computed'
says out 'CC BY 4.0'
says out 'the layers outside it (1) are left out'
says out 'over liquid water'
says out 'the first 48 hours are left out'
empty err
run 0 replay "$wall" "$log" --run-in 96 --no-inputs
says out 'the first 96 hours are left out'
silent_about out 'explains the difference'

# --- for programs
run 0 replay "$wall" "$log" --format csv --no-inputs
says out 'place:wind-board|insulation,between-studs,all,3513,3513,'
says out ',2021-02,'
run 0 replay "$wall" "$log" --format json --no-inputs
says out '"replay": ['
silent_about out '"replay-hours"'
run 0 replay "$wall" "$log" --tables folder --quiet
for table in replay replay-inputs replay-doubts replay-hours; do
    [ -s "folder/$table.csv" ] || fail "no $table.csv"
done
[ "$(wc -l <folder/replay-hours.csv)" -eq 3562 ] || fail 'hours are missing'
! grep -Eqi '(^|,)-?(nan|inf)(,|$)' folder/*.csv || fail 'a number that is none'
run 0 replay "$wall" "$log" --format html --output log.html
[ "$(grep -c 'data-bias=' log.html)" -ge 1 ] || fail 'no chart with its bias'
run 0 replay "$wall" "$log" --no-inputs --set insulation.lambda="0.044 W/(m.K)"
says out '0.044'

# --- what proves nothing is not assessed
head -n 60 "$log" >short.csv
run 4 replay "$wall" short.csv
says out 'Not assessed: too short'

# --- doubts stand in the report, and do not refuse it
sed 's/^\(.*T[0-9:]*Z\),\([0-9.-]*\),\([0-9.]*\),/\1,\3,\2,/' "$log" >swapped.csv
run 0 replay "$wall" swapped.csv --quiet --no-inputs
says out 'room: '
says out 'stand swapped? (swapped.csv:'

# --- refusals: file and line, nothing written
run 2 replay
says err 'replay takes a wall and a log'
run 2 replay "$wall"
run 2 replay "$wall" "$log" "$log"
run 2 replay missing.xml "$log"
run 2 replay "$wall" missing.csv
run 2 replay "$wall" "$wall" --output refused.txt
[ ! -e refused.txt ] || fail 'a refused log was written about'
sed '12s/,[0-9.]*,/,warm,/' "$log" >warm.csv
run 2 replay "$wall" warm.csv
says err "warm.csv:12: temperature of 'room': 'warm' is not a number"
sed 's/wind-board|insulation/wind-board|nothing/' "$log" >nowhere.csv
run 2 replay "$wall" nowhere.csv
says err 'nowhere.csv:7: '
sed '20d' "$log" | sed '30{h;d};31{p;x}' >order.csv
run 2 replay "$wall" order.csv
says err 'does not ascend'
sed 's/time_utc/time/; s/Z,/,/' "$log" >clock.csv
run 2 replay "$wall" clock.csv
says err 'do not say their clock'
run 0 replay "$wall" clock.csv --utc-offset 2 --no-inputs --quiet
run 2 replay "$wall" "$log" --output "$log"
run 2 replay "$wall" "$log" --output "$wall"
run 2 replay "$wall" "$log" --run-in 0
run 2 replay "$wall" "$log" --monthly-only
cmp -s "$log" "$source/$log" || fail 'the log was replaced'

finish
