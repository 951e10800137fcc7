#!/bin/sh
# The manual page says what the command's help says: verbs, the options of each
# and their values, no more and no less; its examples run; mandoc has nothing
# to say against it. With "update" as third argument its lists are written anew.
#   usage: manual.sh PROGRAM SOURCE-FOLDER [update]
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
page=$source/docs/bothways.1
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
failures=0

fail() {
    echo "FAILED: $*"
    failures=$((failures + 1))
}

# Synopsis, verbs and options.
sh "$source/src/completion/generate.sh" "$program" man >"$work/page" ||
    fail 'the lists of the page: not made'
if [ -n "${3:-}" ]; then
    cp "$work/page" "$page"
elif ! diff "$page" "$work/page"; then
    fail 'the page (<) is not what the help says (>);' \
        'tests/manual.sh PROGRAM . update writes it anew'
fi

# The statuses the help names.
"$program" --help | tr '\n,' '  ' | sed 's/.*Exit status://' |
    tr ' ' '\n' | grep '^[0-9]$' >"$work/help"
awk '
    /^\.Sh / { inside = $2 " " $3 == "EXIT STATUS" }
    inside && $1 == ".It" { print $2 }' "$page" | diff - "$work/help" ||
    fail 'exit statuses: the page (<) is not what the help says (>)'

# Examples: ".\" exit N" before each says what is due; "any" is a verdict.
mkdir "$work/bin" "$work/copy"
ln -s "$program" "$work/bin/bothways"
cp -r "$source/assemblies" "$source/materials" "$work/copy"
cp "$source/tests/data/gbxml-sample.xml" "$work/copy/model.xml"
PATH=$work/bin:$PATH
export PATH
count=0
want=none
while IFS= read -r line; do
    case $line in
    '.\" exit '*) want=${line##* } ;;
    '.Dl $ '*)
        count=$((count + 1))
        (cd "$work/copy" && sh -c "${line#.Dl $ }") >"$work/out" 2>"$work/err"
        got=$?
        case $want:$got in
        "$got:$got" | any:0 | any:1 | any:4) ;;
        *)
            fail "exit $got instead of $want: ${line#.Dl $ }"
            cat "$work/err"
            ;;
        esac
        [ -s "$work/out" ] || [ -s "$work/copy/wall.xml" ] ||
            [ -s "$work/copy/wall.html" ] || fail "nothing came: $line"
        want=none
        ;;
    esac
done <"$page"
[ "$count" -ge 6 ] || fail "$count examples run: that cannot be right"

if command -v mandoc >/dev/null; then
    mandoc -T lint -W warning "$page" || fail 'mandoc finds faults'
else
    echo 'SKIPPED: no mandoc here, the page is not linted'
fi

[ "$failures" -eq 0 ] && echo "manual: as the help says, $count examples run"
[ "$failures" -eq 0 ]
