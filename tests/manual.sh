#!/bin/sh
# The manual page says what the command's help says: verbs, the options of each
# and their values, no more and no less; its examples run; mandoc has nothing
# to say against it.   usage: manual.sh PROGRAM SOURCE-FOLDER
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

same() { # WHAT: page and help, one fact a line
    sort -u "$work/page" >"$work/page.sorted"
    sort -u "$work/help" >"$work/help.sorted"
    [ -s "$work/help" ] || fail "$1: nothing found in the help"
    diff "$work/page.sorted" "$work/help.sorted" ||
        fail "$1: the page (<) is not what the help says (>)"
}

# "VERB --name VALUE" of every option of every verb, and "-l --name VALUE".
# A flag has two spaces or more before its help.
verbs=$("$program" --help | sed -n 's/^  \([a-z]*\)  .*/\1/p')
: >"$work/help"
: >"$work/options"
for verb in $verbs; do
    "$program" "$verb" --help | sed -n '
        /^  [ -][^ ]*,* *--/ {
            s/^  *//
            s/  .*//
            s/^\(\(-., \)*--[^ ]* [^ ]*\) .*/\1/
            p
        }' >"$work/verb"
    sed "s/^-., //; s/^/$verb /" "$work/verb" >>"$work/help"
    cat "$work/verb" >>"$work/options"
done
awk '
    /^\.Sh / { inside = $2 == "SYNOPSIS" }
    inside && $1 == ".Cm" { verb = $2 }
    inside && $1 == ".Op" && $2 == "Fl" {
        print verb " -" $3 ($4 == "Ar" ? " " $5 : "")
    }' "$page" >"$work/page"
same 'synopsis'

cp "$work/options" "$work/help"
awk '
    /^\.Sh / { inside = $2 == "OPTIONS" }
    inside && /^\.It Fl/ {
        sub(/^\.It /, "")
        sub(/ , /, ", ")
        gsub(/Fl /, "-")
        sub(/ Ar/, "")
        print
    }' "$page" >"$work/page"
same 'options'

printf '%s\n' "$verbs" >"$work/help"
awk '
    /^\.Sh / { inside = $2 == "DESCRIPTION" }
    inside && /^\.It Cm/ { print $3 }' "$page" >"$work/page"
same 'verbs'

# The statuses the help names.
"$program" --help | tr '\n,' '  ' | sed 's/.*Exit status://' |
    tr ' ' '\n' | grep '^[0-9]$' >"$work/help"
awk '
    /^\.Sh / { inside = $2 " " $3 == "EXIT STATUS" }
    inside && $1 == ".It" { print $2 }' "$page" >"$work/page"
same 'exit statuses'

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
