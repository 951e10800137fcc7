#!/bin/sh
# Lays out the seeds of the harnesses from the examples and the refused files
# of the tests, and a dictionary of the words of the formats.
#   usage: seeds.sh SOURCE-FOLDER OUTPUT-FOLDER
set -eu

source=$1 out=$2
rm -rf "$out"
for harness in assembly material profile monthly hourly tmy units gbxml wall; do
    mkdir -p "$out/$harness"
done
cp "$source"/assemblies/*.xml "$source"/tests/bad/*.xml "$out/assembly"
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
