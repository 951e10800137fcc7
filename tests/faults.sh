#!/bin/sh
# The machine fails, and no result is lost, half-written or made up: memory,
# disk, pipe, permissions, interruptions, locale, home, terminal, odd files,
# a thousand walls. Each case checks exit status, message, and what is left.
#   usage: faults.sh PROGRAM SOURCE-FOLDER ALLOCATION MACHINE-LIBRARY [EVERY]
# EVERY: every how manyeth allocation fails (7; 1 is the full run).
set -u

program=$1
source=$2
allocation=$3
library=$4
every=${5:-7}
work=$(mktemp -d) || exit 1
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
failures=0
cases=0
cp -r "$source/assemblies" "$work"
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
case_of 'out of memory'
"$allocation" "$source/materials" "$wall" assemblies/climates/estuary.csv \
    "$every" >out 2>err || { fail "$title"; cat out; }
tail -n 1 out
[ ! -s err ] || fail "$title: something was printed by a library"

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
if [ -w /dev/full ]; then
    case_of 'full disk'
    check >/dev/full 2>err
    [ $? -eq 3 ] || fail "$title: not noticed"
    says 'no space left'
    expect 3 -- check --output /dev/full
fi
case_of 'file too large'
(ulimit -f 1 && trap '' XFSZ && exec "$program" check "$wall" \
    --monthly-only --output big.txt) >out 2>err
got=$?
[ "$got" -eq 3 ] || fail "$title: exit $got"
[ ! -e big.txt ] || fail "$title: half a file"
litter

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
case_of 'interrupted while computing'
echo old >target.csv
"$program" check "$wall" --synthetic-hours --output target.csv >out 2>err &
job=$!
sleep 0.3
kill -TERM $job 2>/dev/null
wait $job
got=$?
[ "$got" -eq 143 ] || [ "$got" -eq "$verdict" ] || [ "$got" -le 4 ] ||
    fail "$title: exit $got"
[ "$got" -ne 143 ] || untouched

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
case_of 'no environment, no terminal'
expect "$verdict" -- env -i "$program" check "$wall" --monthly-only \
    --format csv </dev/null
cmp -s out sound.csv || fail "$title: another result"
for locale in de_DE.UTF-8 de_DE.utf8 fr_FR.UTF-8 ar_EG.UTF-8 nonsense; do
    case_of "locale $locale"
    expect "$verdict" -- env LC_ALL=$locale "$program" check "$wall" \
        --monthly-only --format csv
    cmp -s out sound.csv || fail "$title: another result"
done
locale -a 2>/dev/null | grep -qi '^de_DE' ||
    echo 'not installed here: locale de_DE; the program never calls setlocale'

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
case_of 'huge file'
dd if=/dev/zero of=huge.xml bs=1024 seek=34000 count=1 2>/dev/null
expect 2 -- "$program" check huge.xml
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

echo "$cases cases, $failures failed"
[ "$failures" -eq 0 ]
