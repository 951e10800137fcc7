#!/bin/sh
# Many walls in one run, and in shards: the same bytes whatever the threads,
# in the order given; a shard that crashes loses its own walls alone.
#   usage: many_walls.sh PROGRAM SOURCE-FOLDER
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
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
