#!/bin/sh
# No verb, no output and no other name of a file, be it a link, a device or a
# detour, replaces a file that is read or another output of the same run.
#   usage: cli_guard.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

mkdir in
cp -r "$source/materials" shipped-materials
cp "$wall" in/wall.xml
cp "$source/assemblies/estuary-mineral-foil.xml" in/other.xml
cp "$source/assemblies/climates/estuary.csv" in/climate.csv
cp "$source/assemblies/profiles/dk.xml" in/rules.xml
mkdir in/materials in/house
cp "$source/tests/data/library/insulation.xml" in/materials/mine.xml
cp in/wall.xml in/house/a.xml
cp "$source/tests/data/gbxml-sample.xml" in/model.xml
echo in/wall.xml >in/list
run_any audit in/wall.xml --climate in/climate.csv --monthly-only \
    --date 2024-05-10 --output in/sheet
cp -r in was

same() { # TITLE
    diff -r in was >difference 2>&1 && return
    fail "$1: $(head -n 1 difference)"
    rm -rf in
    cp -r was in
}

# refused TITLE ARGUMENTS...: exit 2, said why, everything as it was
refused() {
    title=$1
    shift
    "$program" "$@" <in/list >out 2>err
    got=$?
    [ $got -eq 2 ] || fail "$title: exit $got: $*"
    grep -qE 'is read and would be replaced|be one of the tables|two results of this run' \
        err || fail "$title: not said: $*"
    empty out
    same "$title: $*"
}

# never FILE ARGUMENTS...: by none of its names
never() {
    file=$1
    shift
    refused 'its name' "$@" -o "$file"
    refused 'a detour' "$@" -o "in/.././$file"
    refused 'from the root' "$@" -o "$work/$file"
    ln -s "$file" symbolic
    ln "$file" hard
    refused 'a symbolic link' "$@" -o symbolic
    refused 'a hard link' "$@" -o hard
    rm symbolic hard
    # standard output as a device, and without: what is read would grow
    "$program" "$@" -o /dev/stdout <in/list >>"$file" 2>err
    [ $? -eq 2 ] || fail "/dev/stdout onto $file: exit $?"
    same "/dev/stdout: $*"
    "$program" "$@" <in/list >>"$file" 2>err
    [ $? -eq 2 ] || fail "standard output onto $file: exit $?"
    same "standard output: $*"
}

common='--climate in/climate.csv --monthly-only --profile in/rules.xml --materials in/materials'
while read -r file arguments; do
    # shellcheck disable=SC2086
    never $file $arguments
done <<EOF
in/wall.xml check in/wall.xml $common
in/climate.csv check in/wall.xml $common -f csv
in/rules.xml check in/wall.xml $common -f json
in/materials/mine.xml check in/wall.xml $common -f html
in/list check - --monthly-only
in/wall.xml check - --monthly-only
in/other.xml compare in/wall.xml in/other.xml $common
in/climate.csv margin in/wall.xml $common
in/wall.xml audit in/wall.xml --monthly-only --climate in/climate.csv
in/house/a.xml audit in/house --monthly-only --climate in/climate.csv
in/climate.csv audit in/wall.xml --plan --monthly-only --climate in/climate.csv
in/sheet audit --verify in/sheet
in/wall.xml audit --verify in/sheet
in/climate.csv audit --verify in/sheet.sha256
in/model.xml import in/model.xml --construction roof-ip
in/materials/mine.xml import in/model.xml --construction roof-ip --materials in/materials
in/climate.csv climate in/climate.csv
in/climate.csv climate in/../in/climate.csv --quiet
in/materials/mine.xml materials validate in/materials
in/materials/mine.xml materials list --materials in/materials
in/materials/mine.xml materials hemp-batt --materials in/materials
in/materials/mine.xml materials search hemp --materials in/materials -f csv
EOF
BOTHWAYS_DATA=$work/shipped
mkdir shipped
cp -r "$source/materials" shipped
cp -r "$source/assemblies" shipped
export BOTHWAYS_DATA
for file in shipped/materials/wood.xml shipped/assemblies/profiles/dk.xml; do
    cp "$file" before
    "$program" check in/wall.xml --climate in/climate.csv --monthly-only \
        --profile dk -o "$file" >out 2>err
    [ $? -eq 2 ] || fail "a shipped file: exit $?"
    cmp "$file" before || fail "$file was replaced"
done
unset BOTHWAYS_DATA

# --- tables: each of them, be it a link to what is read
cp in/climate.csv in/verdict.csv
cp in/climate.csv was/verdict.csv
for verb in check margin audit "compare in/other.xml"; do
    # shellcheck disable=SC2086
    refused "tables of $verb" $verb in/wall.xml --monthly-only \
        --climate in/verdict.csv --tables in
    mkdir tables
    ln -s ../in/wall.xml tables/verdict.csv
    # shellcheck disable=SC2086
    refused "a table that is a link, of $verb" $verb in/wall.xml \
        --monthly-only --climate in/climate.csv --tables tables
    rm -r tables
done

# --- two outputs of one run
once() { # TITLE ARGUMENTS...
    mkdir t
    refused "$@"
    left=$(find t new -type f 2>/dev/null)
    [ -z "$left" ] || fail "$1: left $left"
    rm -rf t new
}
check="check in/wall.xml --climate in/climate.csv --monthly-only"
audit="audit in/wall.xml --climate in/climate.csv --monthly-only"
# shellcheck disable=SC2086
{
    for format in text html csv json; do
        once "the report as a table, $format" $check -f $format \
            -o t/verdict.csv --tables t
        once "the report as a table by a detour, $format" $check -f $format \
            -o t/../t/./verdict.csv --tables "$work/t"
    done
    once 'the report as the folder of the tables' $check -o new --tables new
    once 'the same with a slash' $check -o new --tables new/
    once 'the list of digests as the folder of the tables' $audit -o new \
        --tables new.sha256
    mkdir t
    echo old >t/verdict.csv
    ln -s t/verdict.csv report
    refused 'the report as a link to a table' $check -o report --tables t
    ln -s verdict.csv t/layers.csv
    refused 'two tables by a link' $check --tables t
    [ "$(cat t/verdict.csv)" = old ] || fail 'a table was replaced'
    rm -r t report
    mkdir t
    "$program" $check --tables t >t/verdict.csv 2>err
    [ $? -eq 2 ] || fail "standard output as a table: exit $?"
    says err 'standard output and another result'
    rm -r t
    # devices and pipes take what comes, one after the other
    run_any $check -o /dev/null --tables t
    [ -s t/verdict.csv ] || fail 'no tables beside a device'
    rm -r t
    run_any $check --tables t -o t.html -f html
    run_any $check --tables t -o t.html -f html # and again, over the old ones
    # a second hard link keeps the old content, so nothing is lost
    ln t/verdict.csv t/kept.csv
    run_any $check --tables t
}

# --- a list of rule sets has one way out
run 2 check --profile list -o list.txt
says err '--profile list goes to standard output; leave out --output'
[ ! -e list.txt ] || fail 'a list was written'
"$program" check --profile in/rules.xml --profile list >>in/rules.xml 2>err
same 'rules listed onto themselves'
run 0 check --profile list
same 'at the end'
finish
