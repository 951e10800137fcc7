#!/bin/sh
# Fuzzes every reader and the wall generator, then prints executions and edges.
#   sh tests/fuzz.sh            about two minutes in all (CI)
#   sh tests/fuzz.sh 3600       an hour each: the long run
#   sh tests/fuzz.sh 600 wall   one harness
# Corpora stay in build-fuzz/corpus and grow from run to run. An input that
# fails is kept in build-fuzz/failed: make it small with
#   build-fuzz/tests/fuzz/fuzz_NAME -minimize_crash=1 -runs=10000 FILE
# mend the fault, and add it to tests/fuzz/found/NAME, which every test run
# replays.
set -eu

seconds=${1:-15}
root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build-fuzz
harnesses=${2:-'units material profile assembly monthly hourly tmy gbxml wall'}

BOTHWAYS_PACKAGES=clang sh "$root/src/setup.sh" build-fuzz \
    -DCMAKE_C_COMPILER=clang -DBOTHWAYS_FUZZ=ON
mkdir -p "$build/corpus" "$build/failed" "$build/log"
failures=0
printf '%-10s %12s %8s %8s  %s\n' harness executions edges corpus result
for name in $harnesses; do
    log=$build/log/$name
    mkdir -p "$build/corpus/$name"
    case $name in
    wall) longest=600 ;;
    assembly | material | profile | gbxml) longest=8192 ;;
    *) longest=4096 ;;
    esac
    result=clean
    "$build/tests/fuzz/fuzz_$name" -max_total_time="$seconds" -timeout=30 \
        -rss_limit_mb=2048 -max_len=$longest -print_final_stats=1 \
        -dict="$build/tests/fuzz/seeds/xml.dict" \
        -artifact_prefix="$build/failed/$name-" \
        "$build/corpus/$name" "$build/tests/fuzz/seeds/$name" >"$log" 2>&1 ||
        result="FAILED, see build-fuzz/log/$name"
    [ "$result" = clean ] || failures=$((failures + 1))
    awk -v name="$name" -v result="$result" '
        /cov: / { for (i = 1; i < NF; i++) {
                      if ($i == "cov:") edges = $(i + 1)
                      if ($i == "corp:") corpus = $(i + 1) } }
        /number_of_executed_units/ { runs = $2 }
        END { sub("/.*", "", corpus)
              printf "%-10s %12d %8d %8d  %s\n", name, runs, edges, corpus,
                     result }' "$log"
done
[ "$failures" -eq 0 ]
