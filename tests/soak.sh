#!/bin/sh
# Random walls, short of memory and with faults, for as long as is given: every
# run ends with an exit status of the contract, a word on standard error where
# there is no result, and a result that is whole or not there.
#   usage: soak.sh PROGRAM SOURCE-FOLDER TESTS-BUILD-FOLDER SECONDS [SEED]
set -u

absolute() {
    (cd "$(dirname "$1")" && printf '%s/%s' "$(pwd)" "$(basename "$1")")
}

program=$(absolute "$1")
source=$(cd "$2" && pwd)
tests=$(cd "$3" && pwd)
seconds=$4
seed=${5:-1}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
library=$work/libfault_machine.so
cp "$tests/libfault_machine.so" "$library" || exit 1
cp -r "$source/assemblies" "$work"
cd "$work" || exit 1
unset BOTHWAYS_DATA
failures=0
runs=0

# A number below $1, the next of the seed's (Numerical Recipes' generator,
# from memory: any would do).
draw() {
    seed=$(((seed * 1664525 + 1013904223) % 4294967296))
    drawn=$((seed / 65536 % $1))
}

one_of() {
    draw $#
    shift $drawn
    picked=$1
}

fail() {
    failures=$((failures + 1))
    echo "FAILED: run $runs: $*"
    echo "    $line"
    head -n 3 err | sed 's/^/    stderr: /'
}

# One of the demonstration walls, with thicknesses, climate data and properties
# drawn at random: many of them are of no use, or are refused.
wall() {
    one_of assemblies/*.xml
    draw 900
    thick=$((drawn + 1))
    draw 4
    case $drawn in
    0) sed "s/thickness=\"[0-9.]* mm\"/thickness=\"$thick mm\"/" "$picked" ;;
    1) sed "0,/ mm\"/s/[0-9.]* mm\"/$thick mm\"/" "$picked" ;;
    2) sed "s/sd=\"[0-9.]* m\"/sd=\"0.$thick m\"/" "$picked" ;;
    3) head -c $((thick * 4)) "$picked" ;;
    esac >"assemblies/random-$1.xml"
}

end=$(($(date +%s) + seconds))
held=0 failed=0 refused=0 machine=0 not=0
while [ "$(date +%s)" -lt $end ]; do
    runs=$((runs + 1))
    rm -rf out err tables result*
    echo old >result
    for n in 1 2 3; do wall $n; done
    draw 12
    walls=assemblies/random-1.xml
    many='--output result'
    case $drawn in
    0) verb='check --no-advice' ;;
    1) verb='check --no-advice --tables tables' ;;
    2) verb='check -f html --no-advice' ;;
    3) verb='margin --monthly-only' ;;
    4) verb='audit --monthly-only' ;;
    5)
        verb='compare --monthly-only --as-drawn'
        walls="$walls assemblies/random-2.xml"
        ;;
    *)
        one_of csv json text
        verb="check --monthly-only -f $picked"
        walls="$walls assemblies/random-2.xml assemblies/random-3.xml
            assemblies/estuary-fibre.xml"
        ;;
    esac
    draw 6
    limit=unlimited
    fault=
    case $drawn in
    0 | 1)
        draw 60000
        limit=$((drawn + 6000)) # kB
        ;;
    2 | 3 | 4)
        one_of malloc malloc write fsync rename linkat close open
        fault=$picked
        draw 20000
        [ $fault = malloc ] || drawn=$((drawn % 12))
        nth=$((drawn + 1))
        ;;
    esac
    line="$verb $walls $many (memory $limit kB, fault ${fault:-none} ${nth:-})"
    (
        [ $limit = unlimited ] || ulimit -v $limit
        # shellcheck disable=SC2086
        if [ -n "$fault" ]; then
            exec env LD_PRELOAD="$library" FAULT_CALL=$fault FAULT_AT=$nth \
                FAULT_ERRNO=28 "$program" $verb $walls $many
        else
            exec "$program" $verb $walls $many
        fi
    ) >out 2>err
    got=$?
    case $got in
    0) held=$((held + 1)) ;;
    1) failed=$((failed + 1)) ;;
    4) not=$((not + 1)) ;;
    2) refused=$((refused + 1)) ;;
    3) machine=$((machine + 1)) ;;
    127) [ $limit != unlimited ] || fail 'not started' ;; # no room to load it
    *) fail "exit $got" ;;
    esac
    case $got in
    0 | 1 | 4)
        [ "$(head -c 3 result)" != old ] && [ -s result ] || fail 'no result'
        case $verb in
        *json) [ "$(tail -c 2 result)" = '}' ] || fail 'half a result' ;;
        *html*) tail -n 1 result | grep -q '</html>' || fail 'half a page' ;;
        esac
        ;;
    2 | 3)
        [ "$(cat result)" = old ] || fail 'exit 2 or 3, and the result changed'
        [ -s err ] || fail 'no word on standard error'
        ;;
    esac
    grep -qiwE 'sanitizer|assert|nan' err && fail 'not a word for users'
    [ -z "$(find . -name '.bothways-*')" ] || {
        fail 'left behind'
        find . -name '.bothways-*' -exec rm -f {} +
    }
done
echo "$runs runs in $seconds s: $held held, $failed fail, $not not assessed," \
    "$refused refused, $machine stopped by the machine; $failures failed"
[ $failures -eq 0 ] && [ $runs -gt 0 ]
