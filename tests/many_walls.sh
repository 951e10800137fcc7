#!/bin/sh
# Many walls in one run, and in shards: the same bytes whatever the threads,
# in the order given, in memory that does not grow with them; a shard that
# crashes loses its own walls alone.
#   usage: many_walls.sh PROGRAM SOURCE-FOLDER [PEAK-PROGRAM]
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
peak=${3:+$(cd "$(dirname "$3")" && pwd)/$(basename "$3")}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
failures=0
fail() {
    failures=$((failures + 1))
    echo "FAILED: $*"
}
cp -r "$source/assemblies" "$work"
cd "$work" || exit 1
ls assemblies/*.xml >list
walls=$(wc -l <list)

check() {
    "$program" check --monthly-only --format csv "$@"
}

check - --threads 1 <list >one.csv
status=$?
for threads in 2 3 16; do
    check - --threads $threads <list >other.csv
    [ $? -eq $status ] || fail "exit status with $threads threads"
    cmp one.csv other.csv || fail "$threads threads give other bytes"
done
check $(cat list) >other.csv
cmp one.csv other.csv || fail 'operands and list differ'
order=$(sed '1d;s/,.*//' one.csv | uniq | tr '\n' ' ')
wanted=$(sed 's,.*/,,;s,\.xml,,' list | tr '\n' ' ')
[ "$order" = "$wanted" ] || fail "order: $order"

# operands before and behind the list; comments; CRLF
{ echo '# a remark'; echo; sed -n 2p list | sed 's/$/\r/'; } >part
check "$(sed -n 1p list)" - "$(sed -n 3p list)" <part >mixed.csv
order=$(sed '1d;s/,.*//' mixed.csv | uniq | tr '\n' ' ')
[ "$order" = "$(sed -n 1,3p list | sed 's,.*/,,;s,\.xml,,' | tr '\n' ' ')" ] ||
    fail "mixed: $order"
check - </dev/null 2>err && fail 'an empty list was taken'
grep -q 'no file is named' err || fail 'an empty list: message'
check - - <list 2>err && fail 'two lists were taken'
{ cat list; echo missing.xml; } | check - >out 2>err
[ $? -eq 2 ] || fail 'a missing file: exit status'
[ ! -s out ] || fail 'a missing file: something was printed'
grep -q missing.xml err || fail 'a missing file: message'

# all tables of many walls at once
check - --tables tables <list >/dev/null
[ "$(sed '1d;s/,.*//' tables/monthly.csv | uniq | wc -l)" -eq "$walls" ] ||
    fail 'monthly.csv lacks walls'

# the same bytes of every form, whatever the threads, simulated too; a sanitizer,
# which has one of them (that of threads has more), is shown the tables
cat >forms <<'END'
--monthly-only
--monthly-only --quiet
--monthly-only --full --no-advice
--monthly-only --format json
--monthly-only --tables tables
--monthly-only --format json --tables tables --output out
--no-advice --years 1 --format json --step 730 --tables tables --output out
END
if [ -n "${BOTHWAYS_SANITIZED:-}" ]; then
    echo 'left to the usual build: six of seven forms'
    echo '--monthly-only --format json --tables tables --output out' >forms
fi
hourly="$(sed -n 2p list) $(sed -n 5p list)"
while read -r form; do
    walls_of=$(cat list)
    case $form in *years*) walls_of=$hourly ;; esac
    for threads in 1 2 7; do
        rm -rf tables out
        mkdir -p "of-$threads/tables"
        # shellcheck disable=SC2086
        "$program" check $walls_of $form --threads $threads >of-$threads/text 2>&1
        echo $? >>of-$threads/text
        [ ! -e out ] || mv out of-$threads
        [ ! -e tables ] || mv tables of-$threads
    done
    for threads in 2 7; do
        diff -r of-1 of-$threads >/dev/null ||
            fail "$threads threads give other bytes: $form"
    done
    rm -rf of-*
done <forms

# of many walls the text is that of each, then all of them in a line each
for wall in $(cat list); do
    "$program" check "$wall" --monthly-only
    printf '\n\n'
done >each
check - --format text <list >all
head -c "$(wc -c <each)" all | cmp - each || fail 'the text is not that of each'
tail -c +"$(($(wc -c <each) + 1))" all >last
head -n 1 last | grep -qx "$walls walls" || fail "no list: $(head -n 1 last)"
[ "$(grep -c '^  *[a-z-]*: \|^[a-z-]*: ' last)" -eq "$walls" ] ||
    fail 'the list lacks walls'

# whole or not at all, of files, when the disk is full half-way
yes "$(cat list)" | head -n 200 >long
(ulimit -f 16 && trap '' XFSZ && check - --output big.csv --tables big) \
    <long >out 2>err
[ $? -eq 3 ] || fail 'a full disk: exit status'
[ ! -e big.csv ] && [ -z "$(ls big)" ] || fail 'a full disk: something is left'
[ -z "$(find . -name '.bothways-*')" ] || fail 'a full disk: litter'

# memory at n and at 4 n walls: 210 more that were kept would be 40 MB; the
# allocator itself takes two or three until it has seen all sizes
if [ -n "$peak" ]; then
    for form in csv text json; do
        for n in 70 280; do
            yes "$(cat list)" | head -n $n >long
            "$peak" "$program" check - --monthly-only --no-advice --threads 2 \
                --format $form --output result <long >peak.$n
        done
        [ "$(wc -l <result)" -gt 280 ] || fail "$form: not all walls"
        [ "$(cat peak.280)" -lt $(($(cat peak.70) + 6000)) ] ||
            fail "$form: $(cat peak.70) kB at 70 walls, $(cat peak.280) at 280"
    done
fi

# a shard that is killed leaves nothing, the others all of theirs
split --lines 3 --numeric-suffixes list shard.
for shard in shard.??; do
    if [ "$shard" = shard.01 ]; then
        (ulimit -v 4000 && check - --output $shard.csv) <$shard >log 2>&1
    else
        check - --output $shard.csv <$shard
    fi
done
[ ! -e shard.01.csv ] || fail 'the crashed shard left a file'
check - --output shard.01.csv <shard.01
{ head -n 1 shard.00.csv; for f in shard.??.csv; do tail -n +2 $f; done; } \
    >joined.csv
cmp one.csv joined.csv || fail 'shards joined differ from one run'

echo "$walls walls, $failures failed"
[ $failures -eq 0 ]
