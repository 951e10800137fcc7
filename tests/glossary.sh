#!/bin/sh
# Every name of the code in docs/glossary.md is one.
#   usage: glossary.sh SOURCE-FOLDER
set -eu
cd "$1"
failures=0
# shellcheck disable=SC2016
for name in $(grep -o '`[A-Za-z_.]*`' docs/glossary.md | tr -d '`' | sort -u); do
    grep -rqw -- "${name##*.}" include src || [ -n "$(find src include -name "$name")" ] || {
        echo "docs/glossary.md: $name is no name of the code"
        failures=$((failures + 1))
    }
done
[ "$failures" -eq 0 ] && echo 'glossary: every name is one'
[ "$failures" -eq 0 ]
