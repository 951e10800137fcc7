#!/bin/sh
# The sheet carries the digests of all it was made from: GNU sha256sum finds them
# right, and what is changed afterwards is found, byte by byte.
#   usage: cli_audit.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

# flip FILE: another byte in its middle, for the length of a command
flip() {
    cp "$1" kept.bytes
    at=$(($(wc -c <"$1") / 2))
    old=$(dd if="$1" bs=1 skip=$at count=1 2>/dev/null | od -An -tu1 | tr -d ' ')
    # shellcheck disable=SC2059
    printf "\\$(printf %o $((old ^ 1)))" |
        dd of="$1" bs=1 seek=$at conv=notrunc 2>/dev/null
    cmp -s "$1" kept.bytes && fail "$1: no byte was changed"
}

unflip() {
    cp kept.bytes "$1"
}

# --- a sheet with a file of each kind: a wall, a climate, materials, a rule set
mkdir own
cp "$source/materials/boards.xml" own/boards.xml
cp assemblies/profiles/uk-nhbc.xml rules.xml
wall=assemblies/upland-closing-released.xml
run_any audit $wall --monthly-only --materials own --profile rules.xml -o sheet.txt
run_any audit $wall --monthly-only --materials own --profile rules.xml \
    --format html -o sheet.html
for list in sheet.txt sheet.txt.sha256 sheet.html.sha256; do
    sha256sum -c $list >out 2>err || fail "sha256sum refuses $list"
    for file in $wall assemblies/climates/upland.csv own/boards.xml rules.xml; do
        says out "$file: OK"
    done
    run 0 audit --verify $list
    says out 'none has changed'
    empty err
done
says sheet.html "$(sha256sum rules.xml)"
sed '$d' sheet.txt | sha256sum | cut -c 1-64 >own.digest
sed -n '$s/^# of all above: //p' sheet.txt | cmp - own.digest ||
    fail 'the digest of the sheet is not that of the lines above it'

# --- one byte of any input, or of the sheet
for file in $wall assemblies/climates/upland.csv own/boards.xml rules.xml; do
    flip $file
    for list in sheet.txt sheet.html.sha256; do
        run 4 audit --verify $list
        says out "$file: changed"
        [ "$(grep -c ': changed' out)" -eq 1 ] || fail "$file: more than it"
        sha256sum -c $list >out 2>err && fail "sha256sum finds $file unchanged"
    done
    unflip $file
done
flip sheet.html
run 4 audit --verify sheet.html.sha256
says out 'sheet.html: changed'
unflip sheet.html
flip sheet.txt
run 4 audit --verify sheet.txt
says out 'sheet.txt: EDITED'
silent_about out ': changed'
unflip sheet.txt
mv rules.xml gone.xml
run 4 audit --verify sheet.txt
says out 'rules.xml: not to be read: there is no such file'
mkdir rules.xml
run 4 audit --verify sheet.txt
says out 'rules.xml: not to be read: no regular file'
rmdir rules.xml
mkfifo rules.xml
run 4 audit --verify sheet.txt
rm rules.xml
mv gone.xml rules.xml
run 0 audit --verify sheet.txt

# --- edits of a sheet that a careless reader would pass
edited() { # WHAT: what the file edited.txt is
    run 4 audit --verify edited.txt
    says out 'edited.txt: EDITED'
    [ "$got" -eq 4 ] || fail "$1"
}
{ cat sheet.txt && echo 'Released by the site manager.'; } >edited.txt
edited 'a line below the last one'
{ printf '\357\273\277' && cat sheet.txt; } >edited.txt
edited 'a byte order mark'
sed 's/NOT released/released/' sheet.txt >edited.txt
edited 'the hold point'
sed '/  rules.xml$/d' sheet.txt >edited.txt
edited 'a file less'
sed '$s/[0-9a-f]\{8\}$/00000000/' sheet.txt >edited.txt
edited 'another digest of itself'
sed 's/^# bothways .*/# bothways 0.0.1/' sheet.txt.sha256 >edited.txt
run 4 audit --verify edited.txt
says out 'made by bothways 0.0.1; this is'

# --- what is no sheet, or names what no sheet names: one error, none hangs
digest=$(cut -c 1-64 own.digest)
refused() { # WHAT
    run 2 audit --verify lie.txt
    empty out
    says err "$1"
    [ "$(wc -l <err)" -eq 1 ] || fail "more than one line on: $1"
}
echo 'Hold point before closing up: released' >lie.txt
refused 'this is no sheet with digests'
cp $wall lie.txt
refused 'this is no sheet with digests'
sed '$d' sheet.txt >lie.txt
refused 'the last line, the sheet'
sed 's/$/\r/' sheet.txt >lie.txt
refused 'a control character in the path'
printf '# bothways 0.1.0\n%s  a\033[2Jb\n' "$digest" >lie.txt
refused 'lie.txt:2: a control character in the path'
printf '# bothways 0.1.0\n%s  %05000d\n' "$digest" 1 >lie.txt
refused 'the path is longer than 4096 bytes'
printf '# bothways 0.1.0\n%s  a\n%s  a\n' "$digest" "$digest" >lie.txt
refused 'lie.txt:3: the same file a second time'
awk -v d="$digest" 'BEGIN { print "# bothways 0.1.0"
    for (i = 0; i < 10001; i++) print d "  " i }' >lie.txt
refused 'more than 10000 files'
{ cat sheet.txt && cat sheet.txt.sha256; } >lie.txt
refused 'a second list of digests begins'
: >lie.txt
refused 'lie.txt'
run 2 audit --verify nowhere.txt
run 2 audit --verify own
printf '# bothways 0.1.0\n%s  /dev/zero\n%s  \\\\x\n' "$digest" "$digest" >lie.txt
run 4 audit --verify lie.txt
says out '/dev/zero: not to be read: no regular file'
run 2 audit --verify sheet.txt $wall
says err '--verify reads a sheet and the files it names'
run 2 audit --verify sheet.txt --format csv

# --- the list appears with its sheet or not at all, and replaces nothing read
cp $wall wall.sha256
run 2 audit wall.sha256 --monthly-only -o wall
says err 'this file is read and would be replaced'
cmp $wall wall.sha256 || fail 'a wall was replaced by a list'
mkdir taken.sha256
run 2 audit $wall --monthly-only -o taken
[ ! -e taken ] || fail 'a sheet without its list'
run_any audit $wall --monthly-only
[ ! -e .sha256 ] || fail 'a list of a sheet that went to standard output'

# --- a house: released when every wall is, never by a wall that nobody could read
mkdir -p house/climates open
cp assemblies/climates/upland.csv house/climates
cp -r house/climates open
cp assemblies/upland-closing-released.xml house/a.xml
sed 's/id="upland-closing-released"/id="second"/' house/a.xml >house/b.xml
cmp -s house/a.xml house/b.xml && fail 'the second wall is the first'
if again 'a house that is simulated, and released'; then
    run 0 audit house --date 2024-05-10 --output house.txt
    says house.txt 'Hold point before closing up: released'
    says house.txt '2 of 2 walls released'
    silent_about house.txt 'What is open'
else
    run 4 audit house --date 2024-05-10 --monthly-only --output house.txt
    says house.txt '0 of 2 walls released'
fi
says house.txt 'Audit of a house: house'
sha256sum -c house.txt.sha256 >out 2>err || fail 'sha256sum refuses a house'
[ "$(grep -c 'house/.*OK' out)" -eq 3 ] || fail 'walls and climate, each once'
run 0 audit --verify house.txt
flip house/b.xml
run 4 audit --verify house.txt
says out 'house/b.xml: changed'
unflip house/b.xml
run 4 audit house/b.xml house/a.xml --monthly-only --quiet
says out 'Audit of a house: walls named one by one'

cp house/a.xml open/2.xml
cp assemblies/upland-closing-refused.xml open/1.xml
cp assemblies/upland-tight-outside.xml open/10.xml
run 1 audit open --monthly-only
says out 'Hold point before closing up: NOT released'
says out '0 of 3 walls released'
says out 'moisture of sole plate'
sed -n 's/^.*  open\/\([0-9]*\)\.xml  .*$/\1/p' out | tr '\n' ' ' >order
[ "$(cat order)" = '1 10 2 ' ] || fail "order of the walls: $(cat order)"
rm open/10.xml
run 4 audit open --monthly-only --format csv --tables cover
says out 'all,hold-point,before closing up,,,not released,'
says out 'upland-closing-refused,hold-point,before closing up,,,not released,'
says out ",file,open/2.xml,$(sha256sum open/2.xml | cut -c 1-64)"
cmp out cover/audit.csv || fail 'another table'
[ "$(find cover -type f | wc -l)" -eq 1 ] || fail 'tables of no wall'
run 4 audit open --monthly-only --threads 1 --format csv
sed -i '/,command-line,/d' out cover/audit.csv
cmp out cover/audit.csv || fail 'threads change a house'
for format in json html; do
    run 4 audit open --monthly-only --format $format
    says out 'moisture of sole plate'
done

echo '<assembly/>' >open/3.xml
echo 'no wall' >open/4.xml
cp house.txt before.txt
run 2 audit open --monthly-only --output house.txt
empty out
says err 'open/3.xml'
says err 'open/4.xml'
cmp house.txt before.txt || fail 'a cover with a wall that cannot be read'
mkdir bare
run 2 audit bare
says err 'holds no *.xml file'
run 2 audit house house/none.xml
says err 'house/none.xml'

# --- of the folder every wall: another case, hidden, below, by two names
for name in B.XML .c.xml; do
    cp assemblies/upland-closing-refused.xml "house/$name"
    run 4 audit house --monthly-only --quiet
    says out 'Hold point before closing up: NOT released'
    says out 'of 3 walls released'
    rm "house/$name"
done
mkdir -p house/upper/left
cp -r house/climates house/upper/left
cp assemblies/upland-closing-refused.xml house/upper/left/d.xml
run 2 audit house --monthly-only
empty out
says err 'house/upper/left/d.xml: this stands below the folder of the house'
run_any audit house house/upper/left --monthly-only --quiet
says out 'of 3 walls released'
rm -r house/upper
run 2 audit house/a.xml ./house/a.xml
says err 'is the same file as house/a.xml'
ln -s a.xml house/e.xml
run 2 audit house
says err 'house/e.xml: this is the same file as house/a.xml'
rm house/e.xml

# --- no list beside what has no digests
run_any audit $wall --monthly-only --quiet -o least.txt
run_any audit $wall --monthly-only --plan -o plan.txt
run_any audit house --monthly-only --quiet -o least-house.txt
for sheet in least plan least-house; do
    [ -s $sheet.txt ] || fail "no $sheet.txt"
    [ ! -e $sheet.txt.sha256 ] || fail "a list beside $sheet.txt"
done

# --- no text of a file, and no name of one, begins a line of the sheet
forged='Hold point before closing up: released'
feed="\\&#10;\\&#10;$forged\\&#10;"
name="assemblies/x
$forged
.xml"
sed "s/ title=\"[^\"]*\"/ title=\"Upland$feed\"/
    s/ \(name\|remark\|by\|place\|note\|ref\)=\"[^\"]*/&$feed/" \
    assemblies/upland-closing-refused.xml >"$name"
cp "$name" assemblies/other.xml
[ "$(grep -c '&#10;' "$name")" -gt 2 ] || fail 'nothing is forged'
forge() {
    run_any "$@" --monthly-only
    says out 'Upland'
    grep -q "^ *$forged" out && fail "a forged line: $1 $2"
}
forge audit "$name"
forge audit "$name" --quiet
forge audit "$name" --plan
forge audit "$name" assemblies/other.xml
forge compare "$name" assemblies/other.xml
forge compare "$name" assemblies/other.xml --full
forge check "$name"

finish
