#!/bin/sh
# The completions are what the command's help gives, and the shells take them.
# With "update" as third argument they are written anew.
# usage: completion.sh PROGRAM SOURCE-FOLDER [update]
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
update=${3:-}
folder=$source/src/completion
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
failures=0

fail() {
    echo "FAILED: $*"
    failures=$((failures + 1))
}

up_to_date() { # SHELL FILE
    sh "$folder/generate.sh" "$program" "$1" >"$work/$2" || fail "$1: not made"
    if [ -n "$update" ]; then
        cp "$work/$2" "$folder/$2"
    elif ! diff "$folder/$2" "$work/$2"; then
        fail "$2 (<) is not what the command's help gives (>);" \
            "tests/completion.sh PROGRAM . update writes it anew"
    fi
}

up_to_date bash bothways.bash
up_to_date zsh _bothways
up_to_date fish bothways.fish

# A name with a space, a folder, a file that is no XML.
mkdir "$work/bin" "$work/here" "$work/here/walls"
ln -s "$program" "$work/bin/bothways"
cd "$work/here" || exit 1
: >north.xml
: >"the south.xml"
: >log.txt
PATH=$work/bin:$PATH
export PATH
formats='csv html json text'

# expect SHELL "WORDS OFFERED, SORTED" WORD-OF-THE-LINE...
expect() {
    shell=$1 want=$2
    shift 2
    got=$("offered_$shell" "$@" 2>"$work/err" | sort -u | tr '\n' ' ')
    [ "$got" = "$want${want:+ }" ] && [ ! -s "$work/err" ] && return
    fail "$shell, after '$*': '$got' instead of '$want'"
    cat "$work/err"
}

# The same of every shell: what is offered for the last word.
walk() { # SHELL
    expect "$1" 'materials' bothways mat
    expect "$1" "$formats" bothways check --format ''
    expect "$1" 'csv json text' bothways materials --format ''
    expect "$1" 'csv json text' bothways materials -f ''
    expect "$1" 'drawn thickness u' bothways compare --equal ''
    expect "$1" 'fr-2011 fr-2019' bothways check --quiet --profile fr
    expect "$1" '--monthly-only' bothways check --mon
    expect "$1" '--monthly-only' bothways margin --mon
    expect "$1" '--threads' bothways margin --th
    expect "$1" 'north.xml' bothways check n
    expect "$1" 'search' bothways materials sea
    expect "$1" 'hemp-batt' bothways materials show hemp-b
    expect "$1" '' bothways materials search hemp-b
}

offered_bash() {
    # shellcheck disable=SC2016
    BASH_ENV='' bash --norc -c '
        file=$1
        shift
        . "$file"
        COMP_WORDS=("$@")
        COMP_CWORD=$(($# - 1))
        _bothways bothways "${COMP_WORDS[COMP_CWORD]}"
        [ ${#COMPREPLY[@]} -eq 0 ] || printf "%s\n" "${COMPREPLY[@]}"
    ' bash "$folder/bothways.bash" "$@"
}

offered_fish() {
    # shellcheck disable=SC2016
    HOME=$work XDG_CONFIG_HOME=$work fish --no-config -c '
        source $argv[1]
        complete -C(string join " " -- $argv[2..-1])
    ' "$folder/bothways.fish" "$@" | cut -f1
}

if command -v bash >/dev/null; then
    walk bash
    expect bash "$formats" bothways check --format = ''
    expect bash 'html' bothways check --format = h
    expect bash 'walls' bothways check --tables ''
    expect bash 'log.txt north.xml the south.xml walls' \
        bothways check --output ''
    expect bash 'north.xml the south.xml walls' bothways check --format csv ''
    expect bash 'walls' bothways materials validate ''
    # shellcheck disable=SC2088
    HOME=$work expect bash '~/here' bothways check --tables '~/he'
    expect bash '--help --version' bothways --
else
    echo 'SKIPPED: no bash here, its completion is not tried'
fi
if command -v fish >/dev/null; then
    walk fish
    expect fish 'walls/' bothways materials validate w
else
    echo 'SKIPPED: no fish here, its completion is not tried'
fi
if command -v zsh >/dev/null; then
    zsh -f -n "$folder/_bothways" || fail 'zsh does not read _bothways'
else
    echo 'SKIPPED: no zsh here, its completion is not read'
fi

[ "$failures" -eq 0 ] && echo 'completions: as the help says'
[ "$failures" -eq 0 ]
