#!/bin/sh
# docs/tables.md and docs/results.schema.json are what the library says of its
# tables, docs/criteria.md and the list of criteria in docs/profile.xsd what it
# says of its criteria. With "update" as third argument they are written anew.
#   usage: tables.sh DESCRIBE-TABLES SOURCE-FOLDER [update]
# describe_criteria stands beside DESCRIBE-TABLES.
set -u

describe=$1
criteria=$(dirname "$1")/describe_criteria
source=$2
update=${3:-}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
failures=0

same() { # DOCUMENT: $work/new is as it should be
    if [ -n "$update" ]; then
        cp "$work/new" "$source/docs/$1"
    elif ! diff "$source/docs/$1" "$work/new"; then
        echo "docs/$1 (<) is not what the library says (>);" \
            'tests/tables.sh build/tests/describe_tables . update writes it' \
            'anew'
        failures=$((failures + 1))
    fi
}

said() { # DOCUMENT PROGRAM [WORD]
    "$2" ${3:+"$3"} >"$work/new" || failures=$((failures + 1))
    same "$1"
}

said tables.md "$describe"
said results.schema.json "$describe" schema
said criteria.md "$criteria"

"$criteria" terms >"$work/terms" || failures=$((failures + 1))
awk -v terms="$work/terms" '
    /end of the criteria/ { inside = 0 }
    !inside
    /criteria: written by/ {
        inside = 1
        while ((getline line <terms) > 0)
            print line
    }' "$source/docs/profile.xsd" >"$work/new"
same profile.xsd

[ "$failures" -eq 0 ] && echo 'tables and criteria: as the library says'
[ "$failures" -eq 0 ]
