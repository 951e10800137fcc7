#!/bin/sh
# The verb climate: what a file holds and lacks, files joined into one that is
# checked, refusals that write nothing.   usage: cli_climate.sh PROGRAM
# SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

shared=${BOTHWAYS_SHARED_DATA:-$source/../shared/data}

# hours NAMES VALUES [SKIP-FROM SKIP-TO]: an invented file of hours, our form
hours() {
    awk -v names="$1" -v values="$2" -v from="${3:-9999}" -v to="${4:-9999}" '
        BEGIN {
            split("31 28 31 30 31 30 31 31 30 31 30 31", days, " ")
            print "# latitude: 52\n# longitude: 5\n# kind: measured-year"
            print "time,temperature_C,relative_humidity_pct," names
            for (m = 1; m <= 12; m++)
                for (d = 1; d <= days[m]; d++)
                    for (h = 0; h < 24; h++) {
                        if (row < from || row >= to)
                            printf "2017-%02d-%02dT%02d:00Z,%d,80,%s\n",
                                m, d, h, 5 + h % 6, values
                        row++
                    }
        }'
}

hours rain_mm,wind_m_s,wind_from_deg 0.1,5,230 >station.csv
hours direct_normal_W_m2,diffuse_horizontal_W_m2 100,50 >sun.csv
hours rain_mm,wind_m_s,wind_from_deg 0.1,5,230 100 150 >gap.csv
hours rain_mm,wind_m_s,wind_from_deg 0.1,5,230 100 190 >hole.csv

# --- without --output: what is there, what is missing, where it is published
run 0 climate station.csv
says out 'rain_mm, sum 876'
says out 'missing   direct sun: no sun on the wall'
says out 'national weather'
empty err
run 0 climate station.csv sun.csv
says out 'Joined:'
says out 'Taken from it: direct sun, diffuse sun'

# --- with it: one file, the same on every run, its header says what was done
run 0 climate station.csv sun.csv --output joined.csv
empty out
says err 'Missing: longwave'
says joined.csv "File 1: station.csv, SHA-256 $(sha256sum station.csv |
    cut -d' ' -f1)"
says joined.csv '# Taken from it: temperature, humidity, wind, wind direction, rain'
says joined.csv '# remark: Sun and rain are joined by month, day and hour'
says joined.csv '# source: hours joined by bothways climate from station.csv and'
says joined.csv '# All times: UTC.'
cp joined.csv first.csv
run 0 climate station.csv sun.csv --output joined.csv --quiet
empty err
cmp -s first.csv joined.csv || fail 'two runs differ'
run 0 climate gap.csv --output filled.csv
says filled.csv 'rain, 50 h in 1 gap, by the same hours of the days before'
[ "$(grep -c '^2001-' filled.csv)" -eq 8760 ] || fail 'hours are missing'

# --- check reads it, and names it where a climate lacks what can be had
run_any check "$wall" --climate joined.csv --monthly-only
run_any check "$wall" --climate filled.csv --monthly-only
# Under a low sun a global one is as direct as it is outside the atmosphere.
hours rain_mm,wind_m_s,wind_from_deg,global_horizontal_W_m2 0.1,5,230,300 \
    >bright.csv
run 0 climate bright.csv --output parted.csv
awk -F, '/^2001-/ { if ($4 > m) m = $4 } END { exit !(m > 1400 && m <= 1410) }' \
    parted.csv || fail 'no direct sun as strong as it may be'
run_any check "$wall" --climate parted.csv --no-advice --years 1
run 2 check "$wall" --climate gap.csv
says err 'bothways climate FILE --output OUT.csv fills gaps of up to 3 days'
run_any check "$wall" --climate sun.csv --no-advice --years 1
tr '\n' ' ' <out | tr -s ' ' >line
says line 'bothways climate sun.csv OTHER.csv --output joined.csv takes it from'
{
    echo 'STN,YYYYMMDD,HH,DD,FH,T,Q,RH,P,U'
    echo '260,20170101,1,230,60,105,0,12,10132,87'
} >dutch.csv
run 2 check "$wall" --climate dutch.csv
says err 'the Dutch list of hours (layout from memory): bothways climate'

# --- refusals: one sentence, nothing written, nothing replaced
refused() { # WORDS ARGUMENTS...
    words=$1
    shift
    rm -f none.csv
    run 2 climate "$@" --output none.csv
    says err "$words"
    [ "$(wc -l <err)" -eq 1 ] || fail "more than one line: climate $*"
    [ ! -e none.csv ] || fail "half-written: climate $*"
}
refused 'hole.csv:104: temperature: no value for 90 hours from Jan 5 04:00' \
    hole.csv
sed '9s/,80,/,280,/' station.csv >bad.csv
refused "bad.csv:9: column 'relative_humidity_pct' (field 3): 280 lies outside" \
    bad.csv
refused 'none of the forms that are known' "$wall"
refused 'cannot open' nowhere.csv
refused 'climate takes 1 to 8 files, 0 given'
refused "no LATITUDE,LONGITUDE" station.csv --position 95,5
refused "no number of hours" station.csv --utc-offset soon
refused "no whole number from 1800 to 2200" station.csv --year 17
refused 'no hours of the year' dutch.csv --year 2016
refused '--year 2016 chooses one of several years; this file is read as one year' \
    sun.csv --year 2016
refused 'each of these files is read as one' sun.csv station.csv --year 2017
run 2 climate station.csv --output station.csv
cmp -s station.csv first.csv && fail 'the input was replaced'
says err 'station.csv'

# --- a station and typical years that are published, where they are at hand:
# monthly means computed here from the raw file stand in the result
irish=$shared/hourly_2017/malin_head_2017.csv
public=$shared/pvgis/tmy_56.273_9.987_2007_2016.csv
if [ -r "$irish" ] && [ -r "$public" ]; then
    run 0 climate "$irish" "$public" --output malin.csv
    # temperature and wind at their time; rain of the hour that ends there
    awk -F, 'NR > 1 {
            m = substr($1, 6, 2) + 0
            t[m] += $2; w[m] += $6 * 1852 / 3600; n[m]++
            if (substr($1, 9, 5) == "01T00") m = m > 1 ? m - 1 : 12
            r[m] += $4
        }
        END { for (m = 1; m <= 12; m++)
                  printf "%d %.3f %.3f %.1f\n", m, t[m] / n[m], w[m] / n[m],
                      r[m] }' "$irish" >raw
    awk -F, '/^time/ { for (i = 1; i <= NF; i++) at[$i] = i }
        /^2017-/ {
            m = substr($1, 6, 2) + 0
            t[m] += $at["temperature_C"]; w[m] += $at["wind_m_s"]
            r[m] += $at["rain_mm"]; n[m]++
        }
        END { for (m = 1; m <= 12; m++)
                  printf "%d %.3f %.3f %.1f\n", m, t[m] / n[m], w[m] / n[m],
                      r[m] }' malin.csv >made
    diff raw made || fail 'the months (<) are not those of the station (>)'
    # the sun is the typical year's, hour by hour
    awk -F, '/^20[0-9]*:/ { print $5 + 0, $6 + 0 }' "$public" >raw
    awk -F, '/^2017-/ { print $4 + 0, $5 + 0 }' malin.csv >made
    cmp -s raw made || fail "the sun is not the typical year's"
    run_any check "$wall" --climate malin.csv --monthly-only
else
    echo "SKIPPED: no station and typical year in $shared"
fi

finish
