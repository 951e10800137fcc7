#!/bin/sh
# --format json: one document of the tables that --tables writes, by the schema
# in docs/, read by a general-purpose parser.
#   usage: json.sh PROGRAM SOURCE-FOLDER
here=$(cd "$(dirname "$0")" && pwd)
# shellcheck source=tests/cli_helpers.sh
. "$here/cli_helpers.sh"

if command -v python3 >/dev/null; then
    parser=python3
elif command -v node >/dev/null; then
    parser=node
    echo 'SKIPPED: no python3 here; the documents are parsed and not compared'
else
    parser=none
    echo 'SKIPPED: neither python3 nor node here, no document is parsed'
fi

parses() { # TITLE
    case $parser in
    python3)
        python3 "$source/tests/results.py" "$source/docs/results.schema.json" \
            out tables >told 2>&1 || fail "$1: $(cat told)"
        ;;
    node)
        node -e 'JSON.parse(require("fs").readFileSync("out", "utf8"))' \
            2>err || fail "$1: not parsed"
        ;;
    esac
}

# good ARGUMENTS...: the document says what the tables of the same run say.
good() {
    rm -rf tables
    run_any "$@" --format json --tables tables --quiet
    empty err
    parses "$*"
}

# Names that JSON and CSV have to quote, and beyond ASCII.
sed 's/id="estuary-as-found"/id="quoted"/
     s/<layer id="sheathing"/& name="\&quot;board\&quot;, \\n \&#x9;\&#x202e;é"/' \
    assemblies/estuary-as-found.xml >assemblies/quoted.xml

# Hours by --step; without it they are in the tables alone.
good check assemblies/upland-tight-outside.xml --step 730 --no-advice
good check assemblies/quoted.xml --monthly-only --step 730
says out '\"board\", \\n  \u202eé'
rm -rf tables
run_any check assemblies/upland-masonry-inside.xml --format json --no-advice
silent_about out '"hourly"'
good check assemblies/*.xml --monthly-only --step 24
good compare --as-drawn assemblies/estuary-*.xml --monthly-only --step 24
good audit assemblies/upland-closing-refused.xml --monthly-only --step 24
good audit assemblies/upland-closing-released.xml --monthly-only --step 24
silent_about out '"changes": 1'
good check "$wall" --monthly-only --step 24 --set outdoors.driving-rain=severe
says out '"changes": 1}'

# margin has no --step, so its document has no hours.
rm -rf tables
run_any margin "$wall" --monthly-only --ensemble 8 --format json \
    --tables tables --quiet
silent_about out '"hourly"'
rm -f tables/hourly.csv
parses margin

rm -rf tables
mkdir tables
run 0 materials search fibre --format csv --output tables/materials.csv
run 0 materials search fibre --format json
says out '"materials": ['
silent_about out '"verdict"'
parses materials
run 2 materials show hemp-batt --format json
says err '--format json is for lists'

# The same document whatever the number of threads, into a file or not.
run_any check assemblies/*.xml --monthly-only --format json --threads 2
mv out two
run_any check assemblies/*.xml --monthly-only --format json --threads 1 \
    --output one
cmp one two || fail 'another document with other threads'
run_any check "$wall" --monthly-only -f json
says out '"walls": ['
says out '{"wall": "estuary-fibre", "verdict": "not assessed"}'
run 2 check "$wall" --format jsno
says err 'did you mean json?'

finish
