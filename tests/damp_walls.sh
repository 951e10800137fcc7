#!/bin/sh
# Whole walls through the program: what an outside reader found passing that
# fails in practice, more rain never better than less, and months alone never
# better than a simulation. What becomes of such walls is common practice: no
# source, unless one stands beside the wall.
#   usage: damp_walls.sh PROGRAM SOURCE
set -eu

program=$1 source=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
faults=0
BOTHWAYS_DATA=$source
export BOTHWAYS_DATA

damp="climate=\"$source/assemblies/climates/estuary.csv\" faces=\"SW\" solar-absorptance=\"0.6\""
cold="climate=\"$source/assemblies/climates/upland.csv\" faces=\"N\" solar-absorptance=\"0.6\""
home='temperature="20 degC" humidity-class="3"'
pool='temperature="30 degC" relative-humidity="65 %" margin="no"'

layer() { printf '<layer material="%s" thickness="%s mm" %s/>' "$1" "$2" "${3-}"; }
film() { printf '<membrane material="%s"/>' "$1"; }
cavity() { printf '<cavity thickness="%s mm" ventilation="%s"/>' "$1" "$2"; }

# wall NAME ELEMENT OUTDOORS ROOM LAYERS
wall()
{
    cat >"$work/$1.xml" <<XML
<assembly xmlns="urn:bothways:assembly:1" id="$1" title="$1" element="$2">
  <outdoors $3/>
  <indoors $4/>
  <layers listed="outside-to-inside">$5</layers>
</assembly>
XML
}

# verdict NAME [OPTION...]: the word; the rows stay in $work/rows.csv
verdict()
{
    name=$1
    shift
    "$program" check --no-advice --format csv "$@" "$work/$name.xml" \
        >"$work/rows.csv" 2>"$work/errors" || true
    sed -n 2p "$work/rows.csv" | cut -d, -f9
}

# says WORD of the criterion CRITERION in the rows
row() { grep ",$1," "$work/rows.csv" | cut -d, -f9 | tr '\n' ' '; }

wrong()
{
    echo "damp_walls: $*" >&2
    faults=$((faults + 1))
}

# is NAME 'WORD WORD' WHAT: its verdict is one of the words
is()
{
    found=$(verdict "$1")
    case " $2 " in
    *" $found "*) ;;
    *) wrong "$1 ($3): $found, not one of: $2" ;;
    esac
}

# ---- what holds water where nothing rots --------------------------------------

ground='driving-rain="none" below="open-air"'
slab=$(layer eps 100)$(layer concrete-2400 200 'initial-relative-humidity="97 %"')
wall vinyl-on-damp-concrete floor "$cold $ground" "$home" \
    "$slab$(layer floor-plastic 2)"
is vinyl-on-damp-concrete fails 'a tight covering on a damp slab'
case $(row covering-humidity) in fails*) ;; *) wrong 'vinyl: not by its own row' ;; esac
wall boards-under-vinyl floor "$cold $ground" "$home" \
    "$slab$(layer softwood 20)$(layer floor-plastic 2)"
is boards-under-vinyl fails 'timber boards between a covering and a damp slab'
wall vinyl-on-dry-concrete floor "$cold $ground" "$home" \
    "$(layer eps 100)$(layer concrete-2400 200)$(layer floor-plastic 2)"
is vinyl-on-dry-concrete 'holds marginal' 'a covering on a slab at 80 %'

wall concrete-and-wool wall "$cold driving-rain=\"sheltered\"" "$home" \
    "$(layer concrete-2400 200)$(layer glass-wool-batt 100)$(layer gypsum-plasterboard 12.5)"
is concrete-and-wool fails 'wool inside concrete without a barrier'
wall pool-of-aerated-concrete wall "$cold driving-rain=\"sheltered\"" "$pool" \
    "$(layer render-acrylic 5)$(layer aerated-concrete-400 365)$(layer lime-mortar 10)"
is pool-of-aerated-concrete fails 'a pool behind aerated concrete and a tight render'
wall pool-behind-brick wall "$cold driving-rain=\"sheltered\"" "$pool" \
    "$(layer brick-facing 115)$(layer glass-wool-batt 100)$(layer brick-facing 115)$(layer cement-render 15)"
is pool-behind-brick fails 'a pool behind a filled cavity without a barrier'

# ---- a floor of which nobody has said what lies below ---------------------------

timber="$(layer osb 15)$(layer glass-wool-batt 200)$(film membrane-sd-5m)$(layer osb 22)"
wall floor-over-what floor "$cold driving-rain=\"none\"" "$home" "$timber"
is floor-over-what 'not assessed fails' 'nobody has said what lies below'
case $(row floor-underside) in 'not assessed'*) ;; *) wrong 'no row of what lies below' ;; esac
"$program" check --quiet "$work/floor-over-what.xml" >"$work/text" || true
grep -q 'below= is not given' "$work/text" || wrong 'no warning on the first screen'
wall floor-over-air floor "$cold driving-rain=\"none\" below=\"open-air\"" "$home" "$timber"
verdict floor-over-air >"$work/word"
[ -z "$(row floor-underside)" ] || wrong 'a floor over open air asks what lies below'

wall wall-over-air wall "$cold below=\"open-air\"" "$home" "$timber"
"$program" check --quiet "$work/wall-over-air.xml" >"$work/text" 2>&1 &&
    wrong 'below= is taken of a wall'
grep -q 'is for a floor' "$work/text" || wrong 'below= of a wall: not told why'
wall rain-below floor "$cold driving-rain=\"moderate\" below=\"climate-of-space\"" "$home" "$timber"
"$program" check --quiet "$work/rain-below.xml" >"$work/text" 2>&1 &&
    wrong 'it rains in a crawl space'

# ---- one member, however it is drawn ----------------------------------------------

rest="$(layer glass-wool-batt 140)$(film membrane-sd-5m)$(layer gypsum-plasterboard 12.5)"
front="$(layer softwood 22)$(cavity 25 well)"
wall one-board wall "$cold driving-rain=\"sheltered\"" "$home" \
    "$front$(layer plywood-softwood 18)$rest"
wall two-boards wall "$cold driving-rain=\"sheltered\"" "$home" \
    "$front$(layer plywood-softwood 9)$(layer plywood-softwood 9)$rest"
verdict one-board >"$work/one"
grep transient "$work/rows.csv" | cut -d, -f3-9 >"$work/one.rows"
verdict two-boards >"$work/two"
grep transient "$work/rows.csv" | cut -d, -f3-9 >"$work/two.rows"
cmp -s "$work/one.rows" "$work/two.rows" || wrong 'a board drawn as two is judged otherwise'

# ---- more rain is never better, months alone never better than hours --------------

rank()
{
    case $1 in
    holds) echo 0 ;; marginal) echo 1 ;; 'not assessed') echo 2 ;; *) echo 3 ;;
    esac
}

no_kinder()
{
    last=0 before=none
    for rain in $rains; do
        wall "$1-$rain" wall "$damp driving-rain=\"$rain\"" "$home" "$2"
        word=$(verdict "$1-$rain")
        now=$(rank "$word")
        mould=0
        for each in $(grep ',mould-index-hidden,' "$work/rows.csv" | cut -d, -f9); do
            [ "$(rank "$each")" -le "$mould" ] || mould=$(rank "$each")
        done
        [ "$now" -ge "$last" ] || wrong "$1: $rain is better than $before"
        [ "$mould" -ge "${mould_before:-0}" ] || wrong "$1: mould at $rain is better than at $before"
        months=$(verdict "$1-$rain" --monthly-only)
        case $months in
        holds | marginal)
            [ "$(rank "$months")" -ge "$now" ] ||
                wrong "$1-$rain: by months alone $months, simulated $word"
            ;;
        esac
        last=$now before=$rain mould_before=$mould
    done
    mould_before=0
}

rains='none sheltered moderate severe'
if [ -n "${BOTHWAYS_SANITIZED:-}" ]; then
    rains='none severe'
    echo 'left to the usual build: two rains of four'
fi
no_kinder veneer "$(layer brick-facing 102)$(cavity 50 well)$(layer osb-sheathing 9)$(layer glass-wool-batt 140)$(film membrane-sd-1m)$(layer gypsum-plasterboard 12.5)"
# A sanitizer has one of the three: the others go the same way.
if [ -n "${BOTHWAYS_SANITIZED:-}" ]; then
    echo 'left to the usual build: more rain on two walls of three'
else
    no_kinder veneer-and-foil "$(layer brick-facing 102)$(cavity 50 well)$(film breather-membrane)$(layer osb-sheathing 9)$(layer glass-wool-batt 140)$(film pe-foil-0-20mm)$(layer gypsum-plasterboard 12.5)"
    no_kinder boarding "$(layer softwood 22)$(cavity 25 well)$(layer plywood-softwood 12)$(layer cellulose-fibre 140)$(layer gypsum-plasterboard 12.5)"
fi

[ "$faults" -eq 0 ] || exit 1
