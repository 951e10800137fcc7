#!/bin/sh
# Where results go: every verb and format to a file, to standard output, into a
# folder of tables, and where that cannot be; and what the program finds around
# it.   usage: cli_output.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

foil=$source/assemblies/estuary-mineral-foil.xml
cp "$source/tests/data/gbxml-sample.xml" model.xml

# verb NAME: what follows the program for a result of that verb
verb() {
    case $1 in
    check) echo "check assemblies/estuary-fibre.xml --monthly-only" ;;
    compare) echo "compare assemblies/estuary-fibre.xml
        assemblies/estuary-mineral-foil.xml --monthly-only" ;;
    margin) echo "margin assemblies/estuary-fibre.xml --monthly-only" ;;
    audit) echo "audit assemblies/estuary-fibre.xml --monthly-only" ;;
    materials) echo "materials list" ;;
    import) echo "import model.xml --construction roof-ip --quiet" ;;
    esac
}

# is_format FORMAT FILE
is_format() {
    case $1 in
    text) head -c 2000 "$2" | grep -q 'Verdict\|verdict\|Hold point\|board' ;;
    csv) head -n 1 "$2" | grep -q '^[a-z_]*,[a-z_]*,' ;;
    html) head -n 1 "$2" | grep -q '^<!DOCTYPE html>' ;;
    esac || fail "$2 is no $1"
}

# a disk that is full, and no standard output at all; a sanitizer is shown the
# first format of each verb
nowhere_to_go() {
    case $format in
    text | -) ;;
    *) again "no place for $name --format $format" || return 0 ;;
    esac
    if [ -w /dev/full ]; then
        # shellcheck disable=SC2086
        run 3 $given --output /dev/full
        says err '/dev/full: cannot write this'
        says err 'No space left'
    fi
    # shellcheck disable=SC2086
    "$program" $given >&- 2>err
    [ $? -eq 3 ] || fail "$name --format $format: no standard output"
    says err 'standard output: cannot write this file: Bad file'
}

# --- a file gets what standard output gets, and nothing else is said
for name in check compare margin audit materials import; do
    formats='text csv html'
    [ $name != materials ] || formats='text csv'
    [ $name != import ] || formats=-
    for format in $formats; do
        given=$(verb $name)
        [ "$format" = - ] || given="$given --format $format"
        # shellcheck disable=SC2086
        "$program" $given >shown 2>err
        status=$?
        empty err
        case $name in
        check | compare | margin | audit) is_format "$format" shown ;;
        esac
        # every report on a wall ends with the cautions
        case $name$format in
        checkcsv | comparecsv | margincsv | auditcsv | materials* | import*) ;;
        checktext | comparetext | margintext) says shown 'Local codes and licensed professionals' ;;
        *) says shown 'Local building codes and licensed professionals' ;;
        esac
        # shellcheck disable=SC2086
        run $status $given -o saved
        empty out
        empty err
        nowhere_to_go
        case $name-$format in # the sheet names its command line
        audit-csv) sed -i '/,command-line,/d' saved shown ;;
        audit-*)
            says saved 'saved'
            is_format "$format" saved
            continue
            ;;
        esac
        cmp saved shown || fail "$name --format $format: another file"
    done
done
"$program" --version >&- 2>err
[ $? -eq 3 ] || fail 'no standard output for the version'
says err 'standard output could not be written'
if [ -w /dev/full ]; then
    "$program" check --profile list >/dev/full 2>err
    [ $? -eq 3 ] || fail 'a full disk was not noticed by --profile list'
    run 3 materials validate "$source/materials" --output /dev/full
    says err 'No space left'
fi

# --- tables of every verb
run_any margin "$wall" --monthly-only --tables margin-tables --format csv
for table in verdict layers monthly surface period hourly margin; do
    [ -s "margin-tables/$table.csv" ] || fail "no $table.csv of margin"
done
cmp out margin-tables/margin.csv || fail 'margin.csv is not --format csv'
run_any compare "$wall" "$foil" --monthly-only --tables compare-tables
[ "$(sed '1d;s/,.*//' compare-tables/verdict.csv | uniq | tr '\n' ' ')" = \
    'estuary-fibre estuary-mineral-foil ' ] ||
    fail 'verdict.csv of compare: not both walls in their order'
[ "$(grep -c '^assembly,' compare-tables/monthly.csv)" -eq 1 ] ||
    fail 'several header rows'
run_any check "$wall" --monthly-only --tables again --quiet
echo old >again/verdict.csv
run_any check "$wall" --monthly-only --tables again//// --format csv
cmp out again/verdict.csv || fail 'an old table stayed'

# --- tables that cannot be written: refused before anything is computed
ln -s nowhere/at/all dangling
ln -s loop loop
echo text >file
# refused FOLDER WORDS: nothing is left behind
refused() {
    run 2 check "$wall" --monthly-only --tables "$1"
    empty out
    says err "$2"
}
refused file 'file: this is no folder; --tables needs one'
refused file/under 'a part of its path is no folder'
refused a/b/c 'make its folder first'
refused dangling 'dangling: this is no folder; --tables needs one'
refused loop 'symbolic links lead in a circle'
[ "$(cat file)" = text ] || fail 'a file in the place of a folder was replaced'
[ ! -e a ] && [ ! -e nowhere ] || fail 'folders were made on the way'
ln -s again to-folder
run_any check "$wall" --monthly-only --tables to-folder --quiet
[ -L to-folder ] || fail 'a link to a folder was replaced'
mkdir -p blocked/monthly.csv
run 2 check "$wall" --monthly-only --tables blocked
says err 'blocked/monthly.csv'
says err 'Is a directory; name a file to write'
[ "$(ls -A blocked)" = monthly.csv ] || fail 'some tables were written'

mkdir -p blocked/margin.csv
rmdir blocked/monthly.csv
run 2 margin "$wall" --monthly-only --tables blocked --output blocked.txt
says err 'blocked/margin.csv'
[ "$(ls -A blocked)" = margin.csv ] && [ ! -e blocked.txt ] ||
    fail 'some tables of margin were written'

# another user, as whom a sealed folder is one
as_user=
if [ "$(id -u)" -eq 0 ] && command -v setpriv >/dev/null 2>&1; then
    as_user='setpriv --reuid=65534 --regid=65534 --clear-groups'
    chmod a+rx "$work"
    $as_user test -x "$program" 2>/dev/null || as_user=
fi
mkdir sealed
chmod 555 sealed
if [ "$(id -u)" -ne 0 ] || [ -n "$as_user" ]; then
    # shellcheck disable=SC2086
    $as_user "$program" check "$wall" --monthly-only --tables sealed >out 2>err
    [ $? -eq 2 ] || fail 'tables into a sealed folder'
    empty out
    says err 'sealed: cannot write into this folder: Permission denied'
    # shellcheck disable=SC2086
    $as_user "$program" check "$wall" --monthly-only --tables sealed/new \
        >out 2>err
    [ $? -eq 2 ] || fail 'a new folder in a sealed one'
    says err 'you may not write there'
else
    echo 'skipped: a sealed folder (root, and no setpriv)'
fi

# --- what is read is never replaced
cp "$wall" kept.xml
cp assemblies/climates/estuary.csv monthly.csv
sed 's,climates/estuary.csv,monthly.csv,' "$wall" >beside.xml
ln -s kept.xml link.xml
cp beside.xml beside.was
mkdir own
cp monthly.csv own/hourly.csv
spared() { # FILE ARGUMENTS...
    file=$1
    shift
    run 2 "$@"
    empty out
    says err "$file: this file is read and would be replaced; write elsewhere"
}
spared kept.xml check kept.xml --climate monthly.csv --output kept.xml
spared kept.xml check kept.xml --climate monthly.csv -o "$work/./kept.xml"
spared link.xml check link.xml --climate monthly.csv -o kept.xml
spared kept.xml check kept.xml --climate monthly.csv -o link.xml
spared monthly.csv audit kept.xml --climate monthly.csv -f csv -o monthly.csv
spared monthly.csv check beside.xml --format csv --output monthly.csv
spared monthly.csv check beside.xml --tables .
spared own/hourly.csv margin kept.xml --monthly-only --climate own/hourly.csv --tables own
spared kept.xml compare beside.xml kept.xml --output kept.xml
cp monthly.csv own/compare.csv
spared own/compare.csv check kept.xml --climate own/compare.csv --tables own
mkdir own-materials
cp "$source/tests/data/library/insulation.xml" own-materials/mine.xml
spared own-materials/mine.xml check kept.xml --climate monthly.csv \
    --materials own-materials -o own-materials/mine.xml
spared model.xml import model.xml --construction roof-ip --output model.xml
run 2 materials validate own-materials -o own-materials/mine.xml
says err 'mine.xml: this file is read and would be replaced'
# a table that is a link to a material, of the shipped ones or the user's
mkdir linked
ln -s ../own-materials/mine.xml linked/verdict.csv
run 2 check kept.xml --climate monthly.csv --materials own-materials \
    --tables linked
says err 'mine.xml: this file is read and would be replaced'
# no output replaces another of the same run, be it there yet or not
run 2 check kept.xml --climate monthly.csv -f html -o linked/../own/verdict.csv \
    --tables own
says err 'verdict.csv: this would be one of the tables, too'
# nor a link that leads nowhere
ln -s nowhere.txt lost
run 2 check kept.xml --climate monthly.csv --monthly-only --output lost
says err 'lost: cannot write this file: No such file or directory'
[ -h lost ] || fail 'a link that leads nowhere was replaced'
# nor the list that names the walls
echo kept.xml >list
run_from() { # FILE ARGUMENTS...
    from=$1
    shift
    "$program" "$@" <"$from" >out 2>err
    [ $? -eq 2 ] || fail "a list was replaced: $*"
}
run_from list check - --climate monthly.csv -o list
says err '/dev/stdin: this file is read and would be replaced'
[ "$(cat list)" = kept.xml ] || fail 'the list is another'
echo kept.xml | "$program" check - --climate monthly.csv -o kept.xml 2>err
[ $? -eq 2 ] || fail 'a wall of a list was replaced'
cmp kept.xml "$wall" && cmp beside.xml beside.was &&
    cmp monthly.csv assemblies/climates/estuary.csv &&
    cmp own/hourly.csv monthly.csv && cmp own/compare.csv monthly.csv &&
    cmp own-materials/mine.xml "$source/tests/data/library/insulation.xml" &&
    cmp model.xml "$source/tests/data/gbxml-sample.xml" ||
    fail 'a file that was read is another'
run_any check kept.xml --climate monthly.csv --monthly-only --output copy.txt
run 2 check missing.xml --output copy.txt
says err 'missing.xml: cannot open this assembly file'
run 2 check /dev/null --output /dev/null
says err '/dev/null: this is not a regular file'
run_any check beside.xml --monthly-only --tables own --quiet
[ ! -e verdict.csv ] || fail 'tables of a refused run'

# --- where the program stands does not matter
mkdir far tools
ln -s "$program" tools/link
ln -s link tools/other
"$program" materials --format csv >shipped.csv
for start in tools/link tools/other; do
    "$start" materials --format csv >out 2>err || fail "$start"
    cmp out shipped.csv || fail "started by $start: other materials"
done
(cd far && ../tools/link materials --format csv) >out 2>err
cmp out shipped.csv || fail 'started from another folder'
(PATH=$work/tools:$PATH && cd far && other materials --format csv) >out 2>err
cmp out shipped.csv || fail 'started by its name alone'
cp "$program" far/copy
far/copy materials >out 2>err
[ $? -eq 2 ] || fail 'a program without materials beside it'
empty out
says err 'set BOTHWAYS_DATA to the folder that holds'
far/copy --version >out 2>err || fail 'the version needs materials'
far/copy materials validate "$source/materials" >out 2>err ||
    fail 'validate needs the shipped materials'
ln -s "$source/materials" far/materials
BOTHWAYS_DATA=far far/copy materials --format csv >out 2>err ||
    fail 'BOTHWAYS_DATA was not taken'
cmp out shipped.csv || fail 'BOTHWAYS_DATA: other materials'
BOTHWAYS_DATA='' "$program" materials --format csv >out 2>err ||
    fail 'an empty BOTHWAYS_DATA is none'
cmp out shipped.csv || fail 'an empty BOTHWAYS_DATA: other materials'
long=$(printf '%09000d' 0)
mkdir odd
: >odd/materials
for data in far/nowhere "$wall" far/materials odd "$long"; do
    BOTHWAYS_DATA=$data "$program" materials >out 2>err
    [ $? -eq 2 ] || fail "BOTHWAYS_DATA=$data was taken"
    empty out
    says err "bothways: BOTHWAYS_DATA is '$(printf %.40s "$data")"
done
mkdir -p bare/materials
BOTHWAYS_DATA=bare "$program" materials >out 2>err
[ $? -eq 2 ] || fail 'a folder without material files was taken'
says err 'bare/materials'

# --- the command line in the report is one that a shell takes
names=$(printf '%s\n' 'a wall.xml' "it's.xml" "'.xml" 'a"b$HOME`c`\.xml' '*.xml' \
    '~.xml' '-dash.xml' '#no.xml' 'é.xml')
again 'seven of nine names that a shell takes otherwise' ||
    names=$(printf '%s\n' 'a"b$HOME`c`\.xml' 'é.xml')
printf '%s\n' "$names" >names
while IFS= read -r name <&4; do
    cp beside.xml "./$name"
    "$program" audit --monthly-only --format csv -- "$name" >out 2>err
    case $? in
    0 | 1 | 4) ;;
    *) fail "audit of $name" ;;
    esac
    # the field of the CSV row, its doubled quotes single again
    line=$(sed -n 's/^[^,]*,identity,command-line,//p' out |
        sed 's/,,,$//; s/^"\(.*\)"$/\1/; s/""/"/g')
    cp out first
    eval "$line" >second 2>err
    cmp first second || fail "not to be repeated: $line"
    rm -f "./$name"
done 4<names
name=$(printf 'line\nfeed\033.xml')
cp beside.xml "$name"
run_any audit --monthly-only "$name"
if grep -q "^feed\|$(printf '\033')" out; then
    fail 'a line feed of a name makes a line of the sheet'
fi

# --- what is not like with like stands beside the answer, on every page of it
sed '/<air-leakage/,/>/d; s/ id="estuary-fibre"/ id="noair"/' "$wall" >assemblies/noair.xml
sed '/<outdoors/,/>/s/driving-rain="sheltered"/driving-rain="severe"/' "$wall" \
    >assemblies/rain.xml
cmp -s "$wall" assemblies/rain.xml && fail 'the rain is the same'
for extent in --quiet --full --monthly-only; do
    run_any compare assemblies/noair.xml "$wall" --monthly-only $extent
    says out 'Not like with like: No leaking air is counted in noair.'
    run_any compare assemblies/rain.xml "$wall" --monthly-only $extent
    says out 'Not like with like: driving rain.'
    run_any compare "$wall" "$wall" --monthly-only $extent
    silent_about out 'Not like with like'
done


# --- at the foot of a page, written in the codes of CSS: wall, day, digest
for verb in check margin audit; do
    run_any $verb "$wall" --monthly-only --format html --date 2024-05-10
    says out '2024\2d 05\2d 10'
    says out "SHA\\2d 256\\20 $(sha256sum "$wall" | cut -c 1-16)"
done
run_any compare "$wall" assemblies/noair.xml --monthly-only --format html
says out "$(date -u +'%Y\2d %m\2d %d')"
says out "\\20 $(sha256sum "$wall" | cut -c 1-8)\\2e "
says out "\\20 $(sha256sum assemblies/noair.xml | cut -c 1-8)\\2e "
run 2 check "$wall" --monthly-only --date 2024-5-10
says err "--date '2024-5-10' is no day"
run 2 compare "$wall" "$wall" --monthly-only --date 2999-01-01
says err 'is after today'

finish
