#!/bin/sh
# Runs every command the documents show. A block fenced as
#     ```sh run            must exit with 0
#     ```sh run exit=1     must exit with 1
# runs in a copy of the project, with bothways on the path; a block fenced as
#     ```text output
# holds the first lines of what the block before it printed. With "update" as
# third argument those blocks are written anew.
# usage: documents.sh PROGRAM SOURCE-FOLDER [update]
set -u

program=$1
source=$2
update=${3:-}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin" "$work/copy"
ln -s "$program" "$work/bin/bothways"
for entry in README.md docs assemblies materials; do
    cp -r "$source/$entry" "$work/copy"
done
PATH=$work/bin:$PATH
export PATH
unset BOTHWAYS_DATA COLUMNS
failures=0
blocks=0

# scripts a document names are there
for script in $(cd "$source" && grep -ohE '(tests|src)/[a-z_]+\.sh' README.md \
    DEVELOPERS.md docs/*.md | sort -u); do
    [ -f "$source/$script" ] || {
        echo "a document names $script, which is not there"
        failures=$((failures + 1))
    }
done

run_block() {
    want=0
    case $1 in *exit=*) want=${1##*exit=} ;; esac
    (cd "$work/copy" && sh -e "$work/block") >"$work/out" 2>"$work/err"
    got=$?
    blocks=$((blocks + 1))
    if [ "$got" -ne "$want" ]; then
        echo "$document: exit $got instead of $want:"
        cat "$work/block" "$work/err"
        failures=$((failures + 1))
    fi
}

compare_block() {
    head -n "$(wc -l <"$work/block")" "$work/out" >"$work/shown"
    if [ -n "$update" ]; then
        cat "$work/shown" >>"$work/new"
    elif ! diff "$work/block" "$work/shown"; then
        echo "$document: the output shown (<) is not what is printed (>);" \
            "tests/documents.sh PROGRAM . update writes it anew"
        failures=$((failures + 1))
    fi
}

end_block() {
    case $1 in
    '```sh run'*) run_block "$1" ;;
    '```text output') compare_block ;;
    esac
}

read_document() {
    fence=
    while IFS= read -r line || [ -n "$line" ]; do
        case $line in
        '```')
            end_block "$fence"
            fence=
            ;;
        '```'*)
            fence=$line
            : >"$work/block"
            ;;
        *)
            if [ -n "$fence" ]; then
                printf '%s\n' "$line" >>"$work/block"
            fi
            ;;
        esac
        if [ "$fence" != '```text output' ] || [ "$line" = "$fence" ]; then
            printf '%s\n' "$line" >>"$work/new"
        elif [ -z "$update" ]; then
            printf '%s\n' "$line" >>"$work/new"
        fi
    done <"$1"
}

for document in "$source/README.md" "$source"/docs/*.md; do
    : >"$work/new"
    read_document "$document"
    if [ -n "$update" ] && ! cmp -s "$work/new" "$document"; then
        cat "$work/new" >"$document"
        echo "$document: written anew"
    fi
done

# The input reference names everything the schemas know.
for schema in assembly junction material profile; do
    # shellcheck disable=SC2013
    for word in $(sed -n 's/.*<xs:\(attribute\|element\) name="\([^"]*\)".*/\2/p' \
        "$source/docs/$schema.xsd" | sort -u); do
        grep -q "\`$word\`" "$source/docs/input.md" || {
            echo "docs/input.md does not mention \`$word\` of $schema.xsd"
            failures=$((failures + 1))
        }
    done
done

# Every link leads somewhere: to a file, or to a heading by its anchor (lower
# case, blanks to hyphens, other signs left out).
anchors() {
    sed -n 's/^##* *//p' "$1" | tr '[:upper:]' '[:lower:]' |
        sed 's/[^a-z0-9 _-]//g; s/ /-/g'
}

links=0
for document in "$source"/*.md "$source"/docs/*.md; do
    # shellcheck disable=SC2013
    for link in $(grep -o '](\([^) ]*\))' "$document" | sed 's/^](//; s/)$//'); do
        case $link in *://*) continue ;; esac
        links=$((links + 1))
        target=$(dirname "$document")/${link%%#*}
        [ -n "${link%%#*}" ] || target=$document
        if [ ! -e "$target" ]; then
            echo "$document: no file for the link $link"
            failures=$((failures + 1))
            continue
        fi
        case $link in *'#'*) ;; *) continue ;; esac
        anchors "$target" | grep -qxF -e "${link#*#}" || {
            echo "$document: no heading for the link $link"
            failures=$((failures + 1))
        }
    done
done
[ "$links" -gt 0 ] || {
    echo 'no link found in the documents: that cannot be right'
    failures=$((failures + 1))
}

# The list at the head of the methods names every section.
grep '^## ' "$source/docs/methods.md" | sed 's/^## //' >"$work/sections"
sed -n 's/^- \[\([^]]*\)\](#.*/\1/p' "$source/docs/methods.md" >"$work/listed"
diff "$work/listed" "$work/sections" || {
    echo 'docs/methods.md: the list (<) is not its sections (>)'
    failures=$((failures + 1))
}

if [ "$blocks" -eq 0 ]; then
    echo 'no command found in the documents: that cannot be right'
    failures=1
fi
echo "$blocks blocks run, $links links followed, $failures failed"
[ "$failures" -eq 0 ]
