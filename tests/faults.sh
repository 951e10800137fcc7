#!/bin/sh
# The machine fails, and no result is lost, half-written or made up: memory,
# disk, pipe, permissions, interruptions, locale, clock, home, terminal, odd
# files, a thousand walls. Each case checks exit status, message, what is left.
#   usage: faults.sh PROGRAM SOURCE-FOLDER TESTS-BUILD-FOLDER [EVERY]
# EVERY: every how manyeth allocation fails (nothing: a selection; 1: all).
set -u

absolute() {
    (cd "$(dirname "$1")" && printf '%s/%s' "$(pwd)" "$(basename "$1")")
}

program=$(absolute "$1")
source=$(cd "$2" && pwd)
tests=$(cd "$3" && pwd)
every=${4:-0}
work=$(mktemp -d) || exit 1
library=$work/libfault_machine.so # LD_PRELOAD takes no path with a blank
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
failures=0
cases=0
cp -r "$source/assemblies" "$work"
cp "$tests/libfault_machine.so" "$library" || exit 1
cd "$work" || exit 1
wall=assemblies/estuary-fibre.xml

fail() {
    failures=$((failures + 1))
    printf 'FAILED: %s\n' "$*"
    [ ! -s err ] || sed 's/^/    stderr: /' err
}

case_of() {
    cases=$((cases + 1))
    title=$*
}

# expect STATUS... -- COMMAND...: leaves out, err and got
expect() {
    wanted=
    while [ "$1" != -- ]; do
        wanted="$wanted $1"
        shift
    done
    shift
    "$@" >out 2>err
    got=$?
    case " $wanted " in
    *" $got "*) ;;
    *) fail "$title: exit $got instead of$wanted" ;;
    esac
}

says() {
    grep -qiE -e "$1" err || fail "$title: no '$1' on standard error"
}

# nothing unfinished beside, and the old file as it was
untouched() {
    [ "$(cat target.csv 2>/dev/null)" = old ] || fail "$title: target changed"
    litter
}

litter() {
    left=$(find . -name '.bothways-*')
    [ -z "$left" ] || fail "$title: left behind: $left"
    find . -name '.bothways-*' -exec rm -f {} +
}

check() {
    "$program" check "$wall" --monthly-only "$@"
}

# --- what an undisturbed run gives
check --format csv >sound.csv 2>err
verdict=$?
case $verdict in 0 | 1 | 4) ;; *) fail "an undisturbed run gave $verdict" ;; esac

# --- memory
case_of 'out of memory in the library'
"$tests/fault_allocation" "$source" "$every" >out 2>err || fail "$title"
cat out
[ ! -s err ] || fail "$title: something was printed by a library"

# in the program: the n-th allocation, further and further apart
apart=2
[ "$every" -ne 1 ] || apart=20
for verb in 'check --monthly-only --format csv' \
    'check --monthly-only --format html' 'margin --monthly-only' 'audit --monthly-only' \
    'audit assemblies/upland-closing-refused.xml --monthly-only' \
    'compare assemblies/estuary-mineral-variable.xml --monthly-only'; do
    case_of "out of memory in $verb"
    # shellcheck disable=SC2086
    "$program" $verb "$wall" --output target.csv >out 2>err
    sound=$?
    case $sound in 0 | 1 | 4) ;; *) fail "$title: exit $sound" ;; esac
    mv target.csv sound.out
    n=1
    got=3
    while [ $n -lt 60000 ]; do
        echo old >target.csv
        # shellcheck disable=SC2086
        env LD_PRELOAD="$library" FAULT_CALL=malloc FAULT_AT=$n \
            "$program" $verb "$wall" --output target.csv >out 2>err
        got=$?
        case $got in
        3)
            says 'memory'
            untouched
            ;;
        "$sound") cmp -s target.csv sound.out || fail "$title: other at $n" ;;
        *) fail "$title: exit $got at $n" ;;
        esac
        n=$((n + n / apart + 1))
    done
    [ "$got" -eq "$sound" ] || echo "not all of $verb was reached"
done

case_of 'out of memory while the list of walls is read'
met=0
for n in $(seq 20); do
    seq 100 | sed "s,.*,$wall," | env LD_PRELOAD="$library" FAULT_CALL=malloc \
        FAULT_AT=$n "$program" check - --monthly-only --format csv >out 2>err
    got=$?
    [ $got -ne 3 ] || { says 'memory' && met=$((met + 1)); }
done
[ $met -ge 10 ] || fail "$title: $met times of 20"

case_of 'out of memory at one wall, the next is missing: the worse one counts'
n=10000 # the library takes more than this, and grows
met=0
while [ $met -eq 0 ] && [ $n -lt 90000 ]; do
    env LD_PRELOAD="$library" FAULT_CALL=malloc FAULT_AT=$n \
        "$program" check "$wall" missing.xml >out 2>err
    got=$?
    if grep -q 'memory' err; then
        [ $got -eq 3 ] || fail "$title: exit $got at $n"
        ! grep -q 'missing.xml' err || met=1
    fi
    n=$((n + 97))
done
[ $met -eq 1 ] || fail "$title: the wall was not met"

case_of 'address space of 40 MB'
(ulimit -v 40000 && exec "$program" check "$wall" --monthly-only --format csv) \
    >out 2>err
got=$?
case $got in
"$verdict") cmp -s out sound.csv || fail "$title: another result" ;;
3 | 127) ;; # 127: not even the loader had room
*) fail "$title: exit $got" ;;
esac

# --- the disk
for call in write fsync rename linkat close open; do
    case_of "$call fails"
    nth=1
    [ $call != close ] || nth=2 # the first is of the look before the work
    echo old >target.csv
    rm -rf out err
    env LD_PRELOAD="$library" FAULT_CALL=$call FAULT_AT=$nth FAULT_ERRNO=28 \
        "$program" check "$wall" --monthly-only --format csv \
        --output target.csv >out 2>err
    got=$?
    case $call$got in
    write3 | fsync3 | rename3 | close3 | linkat3)
        says 'target.csv.*no space left'
        untouched
        ;;
    open$verdict | linkat$verdict) # another way was found
        cmp -s target.csv sound.csv || fail "$title: another result"
        litter
        ;;
    open3) untouched ;;
    *) fail "$title: exit $got" ;;
    esac
done
case_of 'the second of several tables cannot be written'
env LD_PRELOAD="$library" FAULT_CALL=write FAULT_AT=2 FAULT_ERRNO=5 \
    "$program" check "$wall" --monthly-only --tables tables >out 2>err
got=$?
[ "$got" -eq 3 ] || fail "$title: exit $got"
[ -z "$(ls tables)" ] || fail "$title: tables appeared: $(ls tables)"
litter
for verb in 'audit --monthly-only' 'margin --monthly-only' \
    'compare assemblies/estuary-mineral-variable.xml --monthly-only'; do
    case_of "a table of ${verb%% *} cannot be written, whichever"
    nth=1
    got=3
    while [ $got -eq 3 ] && [ $nth -lt 400 ]; do
        rm -rf tables
        # shellcheck disable=SC2086
        env LD_PRELOAD="$library" FAULT_CALL=write FAULT_AT=$nth FAULT_ERRNO=28 \
            "$program" $verb "$wall" --tables tables --quiet >out 2>err
        got=$?
        [ $got -ne 3 ] || says 'cannot write this: no space left'
        [ -n "$(ls tables)" ] || [ ! -s out ] ||
            fail "$title: a report without its tables"
        [ -z "$(ls tables)" ] || break # all of them were ready by then
        nth=$((nth + 5))
    done
    [ $nth -gt 6 ] || fail "$title: only $nth writes"
    litter
done
if [ -w /dev/full ]; then
    case_of 'full disk'
    check >/dev/full 2>err
    [ $? -eq 3 ] || fail "$title: not noticed"
    says 'no space left'
    expect 3 -- check --output /dev/full
fi
case_of 'file too large'
for way in output tables stdout; do
    (ulimit -f 1
    case $way in
    output) exec "$program" check "$wall" --monthly-only -f json -o big.txt ;;
    tables) exec "$program" check "$wall" --monthly-only --tables big -o /dev/null ;;
    stdout) exec "$program" check "$wall" --monthly-only -f json >grown ;;
    esac) >out 2>err
    got=$?
    [ "$got" -eq 3 ] || fail "$title, $way: exit $got"
    says 'file too large'
    [ ! -e big.txt ] || fail "$title: half a file"
    [ -z "$(ls big 2>/dev/null)" ] || fail "$title: tables"
    litter
done

# --- pipes
case_of 'closed pipe'
(check 2>err; echo $? >code) | true
case $(cat code) in
3) says 'broken pipe' ;;
"$verdict") ;; # all of it fitted into the pipe before it closed
*) fail "$title: exit $(cat code)" ;;
esac
case_of 'standard output is closed'
check >&- 2>err
[ $? -eq 3 ] || fail "$title: not noticed"
case_of 'standard error is closed'
check --format csv >out 2>&-
[ $? -eq "$verdict" ] || fail "$title: exit status"
cmp -s out sound.csv || fail "$title: another result"

# --- interruptions
for call in open write fsync linkat rename close; do
    case_of "interrupted at $call"
    echo old >target.csv
    env LD_PRELOAD="$library" FAULT_CALL=$call FAULT_AT=1 FAULT_STOP=1 \
        "$program" check "$wall" --monthly-only --format csv \
        --output target.csv >out 2>err
    got=$?
    case $call$got in
    linkat130 | rename130 | close130) # held back until the file was in place
        cmp -s target.csv sound.csv || [ "$(cat target.csv)" = old ] ||
            fail "$title: half a file"
        litter
        ;;
    *130) untouched ;;
    *) fail "$title: exit $got" ;;
    esac
done
stopped=0
for signal in INT TERM; do
    for after in 0.05 0.2 0.5 1; do
        case_of "$signal after $after s, all walls, two threads"
        echo old >target.csv
        timeout --preserve-status -s $signal $after "$program" check \
            assemblies/*.xml --threads 2 --output target.csv \
            --tables "tables-$signal-$after" >out 2>err
        got=$?
        case $got in
        130 | 143)
            stopped=$((stopped + 1))
            untouched
            [ -z "$(ls "tables-$signal-$after" 2>/dev/null)" ] ||
                fail "$title: some tables"
            ;;
        0 | 1 | 4) litter ;; # it was done by then
        *) fail "$title: exit $got" ;;
        esac
    done
done
[ $stopped -gt 0 ] || fail 'no run was interrupted while computing'

# --- permissions and surroundings
as_user=
if [ "$(id -u)" -eq 0 ]; then
    if command -v setpriv >/dev/null 2>&1; then
        as_user='setpriv --reuid=65534 --regid=65534 --clear-groups'
        chmod -R a+rX "$work"
    fi
    $as_user test -x "$program" 2>/dev/null || as_user=
fi
if [ "$(id -u)" -ne 0 ] || [ -n "$as_user" ]; then
    case_of 'read-only folder'
    mkdir locked
    echo old >locked/target.csv
    chmod 555 locked
    chmod 444 locked/target.csv
    expect 2 -- $as_user "$program" check "$wall" --monthly-only \
        --output locked/target.csv
    says 'permission denied|cannot write'
    expect 2 -- $as_user "$program" check "$wall" --monthly-only \
        --output locked/new.csv
    [ "$(ls locked)" = target.csv ] || fail "$title: $(ls locked)"
    case_of 'home that cannot be read or written'
    mkdir home
    chmod 000 home
    expect "$verdict" -- env HOME="$work/home" $as_user "$program" check \
        "$wall" --monthly-only --format csv
    cmp -s out sound.csv || fail "$title: another result"
else
    echo 'skipped: permissions (root, and no setpriv to become another user)'
fi
if [ "$(id -u)" -ne 0 ] || [ -n "$as_user" ]; then
    chmod 755 home
    mkdir sealed
    chmod 555 sealed
    case_of 'home and working folder that cannot be written'
    (cd sealed && HOME="$work/sealed" exec $as_user "$program" check \
        "$work/$wall" --monthly-only --format csv) >out 2>err
    [ $? -eq "$verdict" ] || fail "$title: exit status"
    cmp -s out sound.csv || fail "$title: another result"
fi
case_of 'no environment, no terminal'
session=
! command -v setsid >/dev/null 2>&1 || session='setsid -w'
expect "$verdict" -- env -i $session "$program" check "$wall" --monthly-only \
    --format csv </dev/null
cmp -s out sound.csv || fail "$title: another result"

# --- locale and clock
comma=
mkdir locales
if localedef -i de_DE -f UTF-8 "$work/locales/de_DE.UTF-8" 2>/dev/null &&
    [ "$(LOCPATH=$work/locales LC_ALL=de_DE.UTF-8 locale decimal_point)" = , ]
then
    comma=de_DE.UTF-8
    chmod -R a+rX locales
else
    echo 'skipped: a locale with a decimal comma (cannot be made here)'
fi
for locale in $comma de_DE.utf8 fr_FR.UTF-8 ar_EG.UTF-8 tr_TR nonsense; do
    case_of "locale $locale"
    expect "$verdict" -- env LOCPATH="$work/locales" LC_ALL=$locale \
        "$program" check "$wall" --monthly-only --format csv
    cmp -s out sound.csv || fail "$title: another result"
done
host() {
    env LOCPATH="$work/locales" "$tests/fault_locale" "$1" \
        "$source/materials" "$wall" assemblies/climates/estuary.csv
}
if [ -n "$comma" ]; then
    case_of 'a host program that has set a locale with a decimal comma'
    expect 0 -- host C
    mv out with-point
    expect 0 -- host $comma
    [ "$(sed -n '1p' with-point; sed -n '1p' out)" = "$(echo 0.5; echo 0,5)" ] ||
        fail "$title: the locale is not in force"
    sed 1d with-point >with-point.rest
    sed 1d out | cmp - with-point.rest || fail "$title: other numbers"
fi
# A page says at its foot of what day it is, and nothing else of the clock.
undated() {
    sed 's/\\20 [0-9]*\\2d [0-9]*\\2d [0-9]*\\2c //' "$1"
}
"$program" check "$wall" --monthly-only --format html >today.html 2>err
undated today.html >sound.html
! cmp -s today.html sound.html || fail 'a page has no day'
for clock in -2000000000 -1 0 4102444800 99999999999; do
    case_of "the clock stands at $clock, zone and build date are nonsense"
    expect "$verdict" -- env LD_PRELOAD="$library" FAULT_CLOCK=$clock \
        TZ=Nowhere/Odd SOURCE_DATE_EPOCH=$clock "$program" check "$wall" \
        --monthly-only --format html
    undated out | cmp -s - sound.html || fail "$title: another page"
done

for clock in -1 9223372036854775807; do
    case_of "audit while the clock stands at $clock: no date is made up"
    expect 4 -- env LD_PRELOAD="$library" FAULT_CLOCK=$clock "$program" audit \
        "$wall" --monthly-only --format csv
    grep -q '^estuary-fibre,identity,date,,' out || fail "$title"
done
case_of 'no /proc: the materials are found by the path the program was started by'
ln -s "$program" started
for start in "$program" ./started; do
    expect 0 -- env LD_PRELOAD="$library" FAULT_CALL=readlink FAULT_AT=1 \
        "$start" materials hemp-batt
done

# --- odd files
case_of 'truncated files'
size=$(wc -c <"$wall")
for percent in 0 1 10 35 60 85 99; do
    head -c $((size * percent / 100)) "$wall" >cut.xml
    expect 2 -- "$program" check cut.xml --monthly-only
    says 'cut.xml'
done
case_of 'a climate cut off'
for lines in 0 3 12 18; do
    head -n $lines assemblies/climates/estuary.csv >cut.csv
    expect 2 -- check --climate cut.csv
    says 'cut.csv'
done
case_of 'a material file cut off'
material=$source/tests/data/library/insulation.xml
size=$(wc -c <"$material")
mkdir cut-materials
for percent in 0 1 20 50 80 99; do
    head -c $((size * percent / 100)) "$material" >cut-materials/cut.xml
    expect 2 -- check --materials cut-materials
    says 'cut-materials/cut.xml'
done
case_of 'a gbXML file cut off'
gbxml=$source/tests/data/gbxml-sample.xml
size=$(wc -c <"$gbxml")
for percent in 0 1 20 50 80 99; do
    head -c $((size * percent / 100)) "$gbxml" >cut.gbxml
    expect 2 -- "$program" import cut.gbxml
    says 'cut.gbxml'
done
dd if=/dev/zero of=huge.xml bs=1024 seek=34000 count=1 2>/dev/null
mkdir huge-materials
ln -s ../huge.xml huge-materials/huge.xml
case_of 'a huge assembly'
expect 2 -- "$program" check huge.xml
says 'larger than 32 MiB'
case_of 'a huge climate'
expect 2 -- check --climate huge.xml
says 'larger than 32 MiB'
case_of 'a huge material file'
expect 2 -- check --materials huge-materials
says 'larger than 32 MiB'
case_of 'a huge gbXML file'
expect 2 -- "$program" import huge.xml
says 'larger than 32 MiB'
case_of 'thirty megabytes of elements'
{
    echo '<assembly xmlns="urn:bothways:assembly:1" id="x"><layers>'
    yes '<layer material="softwood" thickness="1 mm"/>' | head -n 640000
    echo '</layers></assembly>'
} >many.xml
expect 2 -- "$program" check many.xml
case_of 'ten thousand levels'
{
    printf '<assembly xmlns="urn:bothways:assembly:1">'
    yes '<a>' | head -n 10000
} >deep.xml
expect 2 -- "$program" check deep.xml
expect 2 -- "$program" import deep.xml
case_of 'thirty megabytes in one line of a climate'
{
    echo 'month,temperature_C,relative_humidity_pct'
    head -c 30000000 /dev/zero | tr '\0' 1
} >line.csv
expect 2 -- check --climate line.csv
for odd in /dev/zero /dev/null; do
    case_of "the file is $odd"
    expect 2 -- "$program" check $odd
done
case_of 'the file is a pipe without a writer'
mkfifo pipe
expect 2 -- timeout 20 "$program" check pipe

# --- a thousand walls at once
case_of 'a thousand walls'
seq 1000 | sed "s,.*,$wall," >list
# shellcheck disable=SC2046
expect "$verdict" -- "$program" check --monthly-only --format csv $(cat list)
rows=$(($(wc -l <sound.csv) - 1))
[ "$(wc -l <out)" -eq $((1000 * rows + 1)) ] || fail "$title: rows are missing"

case_of 'a thousand walls in forty processes at once'
printf '%s\n' assemblies/*.xml >kinds
head -n 25 list >part
mkdir shards
i=0
jobs=
while [ $i -lt 40 ]; do
    i=$((i + 1))
    "$program" check - --monthly-only --format csv --output shards/$i.csv \
        <part >/dev/null 2>"shards/$i.err" &
    jobs="$jobs $!"
done
for job in $jobs; do
    wait "$job"
    got=$?
    [ $got -eq "$verdict" ] || fail "$title: exit $got"
done
sum=$(cat shards/*.csv | grep -vc '^assembly,')
[ "$sum" -eq $((1000 * rows)) ] || fail "$title: $sum rows"
case_of 'forty processes write the same file'
echo old >target.csv
i=0
jobs=
while [ $i -lt 40 ]; do
    i=$((i + 1))
    "$program" check "$wall" --monthly-only --format csv \
        --output target.csv >/dev/null 2>>err &
    jobs="$jobs $!"
done
for job in $jobs; do
    wait "$job"
    got=$?
    [ $got -eq "$verdict" ] || fail "$title: exit $got"
done
cmp -s target.csv sound.csv || fail "$title: not the file of one of them"
litter

echo "$cases cases, $failures failed"
[ "$failures" -eq 0 ]
