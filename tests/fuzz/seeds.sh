#!/bin/sh
# Lays out the seeds of the harnesses from the examples and the refused files
# of the tests, and a dictionary of the words of the formats.
#   usage: seeds.sh SOURCE-FOLDER OUTPUT-FOLDER
set -eu

source=$1 out=$2
rm -rf "$out"
for harness in assembly material profile monthly hourly tmy hours log units gbxml junction \
    sheet edit command verdict wall; do
    mkdir -p "$out/$harness"
done
cp "$source"/assemblies/*.xml "$source"/tests/bad/*.xml "$out/assembly"
cp "$source"/assemblies/junctions/*.xml "$source"/tests/bad/*.xml "$out/junction"
# Small ones, to a size that the harness assesses: 32 by months, 64 by hours.
small() { # NAME MULTIPLE: of what comes in
    file=$out/junction/small-$1
    cat >"$file"
    until [ $(($(wc -c <"$file") % 64)) -eq $(($2 % 64)) ]; do
        echo >>"$file"
    done
}
joint() { # KIND CHILDREN
    printf '<junction xmlns="urn:bothways:junction:1" id="made" kind="%s">\n<wall file="wall.xml"/>\n%s\n</junction>\n' \
        "$1" "$2"
}
joint outer-corner '' | small corner 32
joint window-jamb '<frame material="softwood" width="70 mm" depth="70 mm" setback="115 mm"/>' |
    small jamb 32
joint balcony '<slab material="dense-block" thickness="200 mm" reach="600 mm"/>' |
    small balcony 1
joint filled-opening '<wall file="wall.xml" offset="100 mm"/>' | small filled 1
small stud 32 <"$source/assemblies/junctions/upland-stud.xml"
small sill 32 <"$source/assemblies/junctions/upland-sill-leaking.xml"
small drawn 64 <<'END'
<junction xmlns="urn:bothways:junction:1" id="made">
<outdoors driving-rain="sheltered" faces="W"/>
<indoors temperature="20 degC" humidity-class="3"/>
<drawing>
<rectangle material="brick-old-soft" x="0 mm" y="0 mm" width="240 mm" height="300 mm"/>
<rectangle material="softwood" x="120 mm" y="100 mm" width="120 mm" height="100 mm" over="yes"/>
<space of="outside" x="-100 mm" y="0 mm" width="100 mm" height="300 mm"/>
<space of="room" x="240 mm" y="0 mm" width="100 mm" height="300 mm"/>
<symmetry side="below"/><symmetry side="above"/>
<spot name="end of the joist" x="120 mm" y="150 mm"/>
</drawing>
</junction>
END
cp "$source"/materials/*.xml "$source"/tests/bad/*.xml "$out/material"
for file in "$source"/tests/data/library/*.xml; do
    if [ -f "$file" ]; then cp "$file" "$out/material"; fi
done
cp "$source"/assemblies/profiles/*.xml "$source"/tests/bad/*.xml "$out/profile"
cp "$source"/tests/bad/*.xml "$out/gbxml"
for file in "$source"/tests/data/*gbxml*; do
    if [ -f "$file" ]; then cp "$file" "$out/gbxml"; fi
done
cat >"$out/gbxml/small" <<'END'
<gbXML xmlns="http://www.gbxml.org/schema" version="6.01" lengthUnit="Meters" temperatureUnit="C">
<Campus id="k"><Surface id="s" surfaceType="ExteriorWall" constructionIdRef="c"><Name>North</Name></Surface></Campus>
<Construction id="c"><Name>Wall</Name><LayerId layerIdRef="l"/></Construction>
<Layer id="l"><MaterialId materialIdRef="m"/><MaterialId materialIdRef="n" percentOfLayer="10"/></Layer>
<Material id="m"><Name>Board</Name><Thickness unit="Millimeters">12</Thickness>
<Conductivity unit="WPerMeterK">0.13</Conductivity><Density unit="KgPerCubicM">650</Density>
<SpecificHeat unit="JPerKgK">1600</SpecificHeat><Permeance unit="PermSI">50</Permeance></Material>
<Material id="n"><R-value unit="SquareMeterKPerW">0.18</R-value><Description>Air gap</Description></Material>
</gbXML>
END
cp "$source"/assemblies/climates/*.csv "$out/monthly"
for file in "$source"/tests/bad-climates/*.csv; do
    name=$(basename "$file")
    if [ "$(wc -c <"$file")" -le 4000 ]; then
        cp "$file" "$out/monthly/bad-$name"
        if grep -q '^time' "$file"; then
            cp "$file" "$out/hourly/bad-$name"
            { printf '+'; cat "$file"; } >"$out/hourly/year-$name"
        fi
    fi
done
cat >"$out/hourly/year" <<'END'
+# place: nowhere
# latitude: 50
# longitude: 10
time,temperature_C,relative_humidity_pct,direct_normal_W_m2,diffuse_horizontal_W_m2,longwave_down_W_m2,wind_m_s,wind_from_deg,rain_mm,pressure_Pa
2017-01-01T00:00Z,-3.1,91,0,0,240,2.5,270,0.2,98000
2017-01-01T01:00Z,2.0,85,120,60,300,0,360,0,99000
2017-01-01T02:00Z,18.5,55,,100,350,4.1,180,,
END
cat >"$out/tmy/public" <<'END'
+Latitude (decimal degrees): 45.000
Longitude (decimal degrees): 8.000
Elevation (m): 250.0
Irradiance Time Offset (h): 0.1

month,year
1,2017
time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP
20170101:0000,-1.5,90.1,0.0,-0.0,0.0,250.2,1.5,310.0,98500.0
20170101:0100,12.5,60.0,200.0,300.0,80.0,310.0,2.0,90.0,98600.0
END
cat >"$out/tmy/public-fewer" <<'END'
+Latitude (decimal degrees): -33.900
Longitude (decimal degrees): 151.200
time(UTC),T2m,RH,Gb(n),Gd(h),WS10m
20070101:0000,21.5,70,0,0,3.1
END
# One invented seed for each form of published hours.
cat >"$out/hours/reference" <<'END'
+Hoehenlage : 15 Meter
RW HW MM DD HH t p WR WG N x RF B D A E IL
***
3936500 2449500 @M @D @E 5.1 1003 243 5.9 8 5.2 94 0 0 312 -327 1
3936500 2449500 @M @D @E 9.1 1003 999 1.9 8 5.2 72 90 60 322 -327 1
END
cat >"$out/hours/dutch" <<'END'
+# 260:  5.180  52.100  1.90  A PLACE
# STN,YYYYMMDD,   HH,   DD,   FH,    T,    Q,   RH,    P,    U
  260,2017@M@D, @E,  990,   60,  105,   0,   -1, 10132, 87
  260,2017@M@D, @E,  230,   60,   85,  72,   12, 10032, 97
END
cat >"$out/hours/irish" <<'END'
+Station Height: 9 M
Latitude:51.938  ,Longitude: -10.241
date,ind,rain,ind,temp,ind,wetb,dewpt,vappr,rhum,msl,ind,wdsp,ind,wddir
2017-@M-@DT@H:00Z,0,0.1,0,6.7,0,5.4,4.0,8.1,83,1023.0,2,10,2,360
2017-@M-@DT@H:00Z,0, ,0,6.7,0,5.4,4.0,8.1,83,1023.0,2,10,2,10
END
cat >"$out/hours/french" <<'END'
+NUM_POSTE;NOM_USUEL;LAT;LON;ALTI;AAAAMMJJHH;RR1;FF;DD;T;U;PSTAT;GLO
29075001;A PLACE;48.4;-4.4;94;2017@M@D@H;0.2;3.1;230;9.2;91;1004.2;30
END
cat >"$out/hours/typical" <<'END'
+700000,"A PLACE",AK,-5.5,40.0,-80.0,300
Date (MM/DD/YYYY),Time (HH:MM),DNI (W/m^2),DHI (W/m^2),Dry-bulb (C),RHum (%),Pressure (mbar),Wdir (degrees),Wspd (m/s)
@M/@D/1988,@E:00,0,0,-3.0,60,980,180,4.1
@M/@D/1988,@E:00,500,80,25.0,60,980,180,-9900
END
cat >"$out/hours/location" <<'END'
+LOCATION,A PLACE,-,NOWHERE,invented,999999,50.0,8.0,1.0,112.0
DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31
1999,@M,@D,@E,60,?,2.5,1.0,90,99400,0,0,300,0,30,40,0,0,0,0,270,5.2
1999,@M,@D,@E,60,?,99.9,1.0,999,99400,0,0,300,0,30,40,0,0,0,0,270,5.2
END
cat >"$out/hours/logger" <<'END'
+Date/Time;Temp (C);RH (%)
@D.@M.2017 @H:00:00;5,5;80,0
@D.@M.2017 @H:00;4,5;81,0
END
cp "$source"/assemblies/climates/*.csv "$out/hours"
for file in year public; do
    find "$out/hourly" "$out/tmy" -name "$file" -exec cp {} "$out/hours" \;
done
head -n 40 "$source/assemblies/measured/north-wall-log.csv" >"$out/log/measured"
cat >"$out/log/days" <<'END'
+# utc-offset: 2 h
# humidity-reference: ice
time;room_temperature_C;room_relative_humidity_pct;cavity:gap_temperature_C;cavity:gap_relative_humidity_pct;place:a|b_temperature_C;place:a@20mm_relative_humidity_pct;battery
2031-01-@D @H:00;20,5;45;-8,5;88;9;71;3
2031-01-@DT@H:05:00+02:00;NA;46;-9;;8,5;72;3
END
cat >"$out/log/outdoors" <<'END'
+time_utc,room_temperature_F,room_relative_humidity_pct,outdoor_temperature_C,outdoor_relative_humidity_pct,place:outside|face_temperature_C,place:b|room_relative_humidity_pct
2031-01-@DT@H:00Z,68,45,1,100,1,50
2031-01-@DT@H:30Z,90,45,1,100,1,50
END
# and of a size with which the harness looks for what explains the difference
for name in days outdoors measured; do
    cp "$out/log/$name" "$out/log/$name-tried"
    until [ $(($(wc -c <"$out/log/$name-tried") % 8)) -eq 0 ]; do
        echo >>"$out/log/$name-tried"
    done
done
n=0
for text in '12 mm' '0.035 W/(m.K)' '-5 degC' '55 %' '5 MN.s/g' '1e-3 m' \
    '0.4 usperm' '1.5 h-1' '0.05 m2.K/W' '3 m3/(m2.h)' '1000 mm2/m' \
    '123456789012345678901234567890.5e-20' '41 degF' '1.0 kg/(m2.h0.5)' \
    '2 ng/(Pa.s.m2)' '1 perm' '90 deg' '1 GPa.s.m2/kg' '-0' '1e400'; do
    for dimension in 0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
        n=$((n + 1))
        # shellcheck disable=SC2059
        { printf "\\$(printf %03o "$dimension")"; printf '%s' "$text"; } \
            >"$out/units/$n"
    done
done
# Choices for the wall generator: any bytes are a wall.
i=0
for file in "$source"/assemblies/*.xml; do
    i=$((i + 1))
    cksum "$file" "$source/LICENSE" >"$out/wall/$i"
    head -c 300 "$file" | tail -c 200 >>"$out/wall/$i"
done

# The whole way, likewise: what is asked stands in the first bytes.
for asked in 0 1 2 3 4 5 6 7; do
    for how in 0 6; do
        # shellcheck disable=SC2059
        { printf "\\00$asked\\00$how\\000\\030"
            tail -c 220 "$out/wall/$((asked + 1))"; } >"$out/verdict/$asked-$how"
    done
done

# Sheets, true and not.
digest=$(printf one | sha256sum | cut -c 1-64)
printf '+A sheet of walls.\n# bothways 0.1.0\n@one  /dev/null\n%s  nowhere\n# of all above: @own\n' \
    "$digest" >"$out/sheet/sheet"
printf '# bothways 0.1.0\n%s  LICENSE\n%s  a\n' "$digest" "$digest" \
    >"$out/sheet/list"
printf '# bothways 0.1.0\n%s  a\n%s  a\n' "$digest" "$digest" >"$out/sheet/twice"

# Changes of a wall.
printf '%s\n' 'retarder.sd=2 m' 'stud-bay.framing.width=60 mm' \
    >"$out/edit/two"
printf '%s\n' 'outdoors.driving-rain=none' 'indoors.humidity-class=4' \
    'layers.listed=inside-to-outside' 'assembly.element=roof' \
    'air-leakage.q50=3 m3/(m2.h)' 'drying-test.wetting=1 kg/m2' \
    'rain-leak.fraction=1 %' 'rain-leak.after-layer=breather' \
    >"$out/edit/around"
printf '%s\n' 'layer-4.mu=12' 'layer-4.sd=' 'sheathing.material=osb-3' \
    'lining.thickness=0.5 in' 'cavity.ventilation=none' 'nowhere.mu=1' \
    >"$out/edit/layers"

# Command lines with their files: harness `command`.
n=0
files() { # NAME...: each after its mark
    for name in "$@"; do
        printf '\n=== %s\n' "$name"
        case $name in
        climates/*) cat "$source/assemblies/$name" ;;
        rules.xml) cat "$source/assemblies/profiles/se.xml" ;;
        *) cat "$source/assemblies/$(basename "$name")" ;;
        esac
    done
}
for wall in estuary-fibre.xml upland-closing-released.xml; do
    climate=climates/${wall%%-*}.csv
    while read -r line; do
        # shellcheck disable=SC2086
        { printf '%s\n' $line; files "$wall" "$climate"; } \
            >"$out/command/$n-$wall"
        n=$((n + 1))
    done <<END
check $wall
check --full $wall --set lining.thickness=25mm --set assembly.title=x
check --format json --step 24 $wall --no-advice
check -f html -o page.html $wall --no-synthetic-hours
check --tables t --format csv $wall -q
check $wall --from-readings --years 1 --cells 1 --start-month 2
margin $wall --format json --profile no
margin -q $wall --threads 1
compare $wall $wall --equal u --scale-layer stud-bay
compare $wall $wall --as-drawn --equal thickness --format html
audit $wall --date 2024-05-12 -o sheet.txt
audit --plan $wall --format csv
audit --date 2024-13-40 $wall
audit house $wall
check nowhere.xml
chek $wall
END
done
{ printf 'audit\nhouse\n--date\n2024-05-12\n'
    files house/upland-closing-released.xml house/upland-closing-refused.xml |
        sed 's,"climates/,"../climates/,'
    files climates/upland.csv; } >"$out/command/house"
{ printf 'check\n-\n'; files estuary-fibre.xml climates/estuary.csv
    printf '\n=== -\nestuary-fibre.xml\n# a remark\n'; } >"$out/command/list"
{ printf 'check\n--profile\nrules.xml\nupland-open-outside.xml\n'
    files upland-open-outside.xml climates/upland.csv rules.xml; } \
    >"$out/command/rules"
{ printf 'materials\nvalidate\nm\n'
    for file in "$source"/tests/data/library/*.xml; do
        printf '\n=== m/%s\n' "$(basename "$file")"
        cat "$file"
    done; } >"$out/command/validate"
{ printf 'import\nhouse.xml\n--permeance-unit\nng/(Pa.s.m2)\n'
    printf '\n=== house.xml\n'
    sed 's,<MaterialId materialIdRef="n" percentOfLayer="10"/>,,' \
        "$out/gbxml/small"; } >"$out/command/import"
{ printf 'climate\nlog.csv\n--position\n52,5\n--utc-offset\n1\n'
    printf '\n=== log.csv\n'; tail -n +1 "$out/hours/logger"; } \
    >"$out/command/climate"
{ printf 'replay\nwall.xml\nlog.csv\n--no-inputs\n'
    printf '\n=== wall.xml\n'; cat "$source/assemblies/measured/north-wall.xml"
    printf '\n=== log.csv\n'
    head -n 60 "$source/assemblies/measured/north-wall-log.csv"; } \
    >"$out/command/replay"
# verbs that the lines above leave out
{ printf 'junction\nj/corner.xml\n'
    printf '\n=== j/corner.xml\n'
    cat "$source/assemblies/junctions/upland-corner.xml"
    files upland-masonry-inside.xml climates/upland.csv; } \
    >"$out/command/junction"
{ printf 'junction\ncorner.xml\n--format\nhtml\n-o\nout.html\n'
    printf '\n=== corner.xml\n'
    cat "$out/junction/small-drawn"
    files climates/upland.csv; } \
    | sed 's,<outdoors driving,<outdoors climate="climates/upland.csv" driving,' \
        >"$out/command/junction-drawn"
for form in text csv json html; do
    { printf 'choose\nestuary-choices.xml\n--format\n%s\n--full\n' "$form"
        files estuary-choices.xml climates/estuary.csv |
            sed 's/thicknesses="90 mm, 120 mm, 140 mm, 160 mm"/thicknesses="90 mm"/'
    } >"$out/command/choose-$form"
done
{ printf 'choose\nestuary-choices.xml\n--resume\nkept\n--part\n1/2\n--settled\nblocked\n'
    files estuary-choices.xml climates/estuary.csv; } >"$out/command/choose-part"
# cases of another wall, whole
printf 'bothways choose, cases judged, 1\nof %s\n0 0 1 0 1 1 0.5\n' "$digest" \
    >"$out/kept"
printf 'end %s\n' "$(sha256sum <"$out/kept" | cut -c 1-64)" >>"$out/kept"
{ printf 'choose\nestuary-choices.xml\n--resume\nkept\n'
    files estuary-choices.xml climates/estuary.csv
    printf '\n=== kept\n'; cat "$out/kept"; } >"$out/command/choose-kept"
rm "$out/kept"
{ printf 'choose\nestuary-choices.xml\n--resume\nkept\n'
    files estuary-choices.xml climates/estuary.csv; } >"$out/command/choose-keep"
for options in '--format json' '--format csv --tables t' '--full' \
    '--format html -o pages' '--no-such'; do
    # shellcheck disable=SC2086
    { printf '%s\n' check a/one.xml a/two.xml $options
        printf '\n=== a/one.xml\n'; cat "$source/assemblies/estuary-fibre.xml"
        printf '\n=== a/two.xml\n'
        sed 's,id="estuary-fibre",id="other",' \
            "$source/assemblies/estuary-fibre.xml"
        files climates/estuary.csv; } |
        sed 's,"climates/,"../climates/,' \
            >"$out/command/two-$(echo "$options" | tr -dc '[:lower:]')"
done
printf 'materials\nsearch\nhemp\n' >"$out/command/search"
for asked in 'show softwood' 'show sofwood' 'show brick-old-soft --format json' \
    'search quite-unknown' 'list --format csv'; do
    # shellcheck disable=SC2086
    printf '%s\n' materials $asked >"$out/command/materials-$(
        echo "$asked" | tr -dc '[:lower:]')"
done
for options in '--equal u --scale-layer stud-bay' '--equal thickness' \
    '--as-drawn --format html'; do
    # shellcheck disable=SC2086
    { printf '%s\n' compare estuary-fibre.xml estuary-mineral-foil.xml $options
        files estuary-fibre.xml estuary-mineral-foil.xml climates/estuary.csv
    } >"$out/command/compare-$(echo "$options" | tr -dc '[:lower:]')"
done
printf 'check\n--profile\nlist\n' >"$out/command/profiles"
for verb in check compare margin choose audit junction climate import materials \
    replay; do
    printf '%s\n--help\n' "$verb" >"$out/command/help-$verb"
done
{ printf 'audit\n--verify\nsheet\n\n=== sheet\n'
    cat "$out/sheet/list"; } >"$out/command/verify"

# the words of the schemas
{
    sed -n 's/.*<xs:\(attribute\|element\) name="\([^"]*\)".*/"\2"/p' \
        "$source/docs/assembly.xsd" "$source/docs/material.xsd" \
        "$source/docs/profile.xsd"
    sed -n 's/.*<xs:enumeration value="\([^"\\]*\)".*/"\1"/p' \
        "$source/docs/assembly.xsd" "$source/docs/material.xsd" \
        "$source/docs/profile.xsd"
    for word in ' mm' ' m' ' degC' ' %' ' W/(m.K)' ' kg/m3' ' J/(kg.K)' \
        ' MN.s/g' ' usperm' ' kg/m2' ' m3/(m2.h)' ' m2.K/W' ' deg' ' mm2/m' \
        ' 1/h' ' kg/kg' '1e308' '-0' '1e-300' '<!--' '-->' '<![CDATA[' ']]>' \
        '&amp;' '&#0;' '&#10;' '<!DOCTYPE' '<?xml' \
        Campus Surface surfaceType constructionIdRef Construction LayerId \
        layerIdRef MaterialId materialIdRef percentOfLayer R-value Thickness \
        Conductivity Density SpecificHeat Permeance Porosity PermIP Inches \
        BtuPerHourFtF LbsPerCubicFt Millimeters lengthUnit ExteriorWall; do
        echo "\"$word\""
    done
} | sort -u >"$out/xml.dict"
# and those of the command line
{
    sed -n 's/.*"\(--[a-z-]*\)".*/"\1"/p; s/.*other_name = "\(-[^"]*\)".*/"\1"/p' \
        "$source/src/command/every_option.h"
    for word in check compare margin choose audit junction climate import \
        materials replay '=== ' \
        '\x0a=== ' '\x0a\x0a' '=== -\x0a' .framing layer-1 outdoors indoors \
        air-leakage drying-test rain-leak assembly layers '# bothways 0.1.0' \
        '# of all above: ' '@own' '@one'; do
        echo "\"$word\""
    done
    cat "$out/xml.dict"
} | sort -u >"$out/command.dict"
