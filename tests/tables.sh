#!/bin/sh
# docs/tables.md and docs/results.schema.json are what the library says of its
# tables. With "update" as third argument they are written anew.
#   usage: tables.sh DESCRIBE-TABLES SOURCE-FOLDER [update]
set -u

describe=$1
source=$2
update=${3:-}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
failures=0

same() { # DOCUMENT [WORD]
    "$describe" ${2:+"$2"} >"$work/new" || failures=$((failures + 1))
    if [ -n "$update" ]; then
        cp "$work/new" "$source/docs/$1"
    elif ! diff "$source/docs/$1" "$work/new"; then
        echo "docs/$1 (<) is not what the library says (>);" \
            'tests/tables.sh build/tests/describe_tables . update writes it' \
            'anew'
        failures=$((failures + 1))
    fi
}

same tables.md
same results.schema.json schema
[ "$failures" -eq 0 ] && echo 'tables: as the library says'
[ "$failures" -eq 0 ]
