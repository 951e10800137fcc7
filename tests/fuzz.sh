#!/bin/sh
# Fuzzes every reader, the program and the way from a wall to every output, then
# prints executions, executions a second and edges.
#   sh tests/fuzz.sh            about four minutes in all (CI)
#   sh tests/fuzz.sh 3600       an hour each: the long run
#   sh tests/fuzz.sh 600 wall   one harness
#   sh tests/fuzz.sh same       a fixed number of fixed inputs each (CI): a find
#                               is of the change, not of the day
# Corpora stay in build-fuzz/corpus, or in the folder BOTHWAYS_CORPUS names, and
# grow from run to run. An input that fails is made small and kept in
# build-fuzz/failed/NAME; every later run begins with it and fails as long as it
# does. Mend the fault, and move it to tests/fuzz/found/NAME, which every test
# run replays, and this; so it does the seeds, whole. FUZZ_SHOW=1
# build/tests/fuzz/replay_NAME FILE shows what a file is.
set -eu

seconds=${1:-15}
root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build-fuzz
corpora=${BOTHWAYS_CORPUS:-$build/corpus}
harnesses=${2:-'units material profile assembly edit monthly hourly tmy hours log
gbxml junction sheet command wall verdict'}

# A harness that does not build ends this here.
BOTHWAYS_PACKAGES=clang BOTHWAYS_TARGET=fuzzers sh "$root/src/setup.sh" \
    build-fuzz -DCMAKE_C_COMPILER=clang -DBOTHWAYS_FUZZ=ON
mkdir -p "$build/log"
failures=0
# fresh memory for every allocation costs a third of the time
export ASAN_OPTIONS="${ASAN_OPTIONS:-quarantine_size_mb=8}"

# Keeps what failed, as small as half a minute makes it.
keep() { # NAME
    for find in "$build/failed/$1"/crash-* "$build/failed/$1"/leak-* \
        "$build/failed/$1"/timeout-* "$build/failed/$1"/oom-*; do
        [ -f "$find" ] || continue
        "$build/tests/fuzz/fuzz_$1" -minimize_crash=1 -max_total_time=30 \
            -exact_artifact_path="$find.small" "$find" >/dev/null 2>&1 || :
        [ ! -s "$find.small" ] || mv "$find.small" "$build/failed/$1/small-$(
            basename "$find")"
        rm -f "$find.small"
        echo "kept: build-fuzz/failed/$1/*$(basename "$find")"
    done
}

# How long, or how many inputs of one fixed sequence: some ten seconds' worth.
effort() { # NAME
    if [ "$seconds" != same ]; then
        echo "-max_total_time=$seconds"
        return
    fi
    case $1 in
    verdict) inputs=24 ;;
    assembly) inputs=60 ;;
    command) inputs=100 ;;
    junction) inputs=60 ;;
    wall) inputs=1000 ;;
    hourly | tmy | log) inputs=1000 ;;
    hours) inputs=300 ;;
    edit) inputs=2000 ;;
    sheet) inputs=5000 ;;
    *) inputs=10000 ;;
    esac
    echo "-seed=1 -runs=$inputs"
}

printf '%-10s %12s %8s %8s %8s  %s\n' harness executions a_second edges corpus \
    result
for name in $harnesses; do
    log=$build/log/$name
    corpus=$corpora/$name
    if [ "$seconds" = same ]; then
        corpus=$build/same/$name
        rm -rf "$corpus"
    fi
    mkdir -p "$corpus" "$build/failed/$name"
    dictionary=xml
    case $name in
    wall | verdict) longest=600 ;;
    command) longest=16384 dictionary=command ;;
    sheet | edit) longest=4096 dictionary=command ;;
    assembly | material | profile | gbxml | junction) longest=8192 ;;
    *) longest=4096 ;;
    esac
    result=clean
    # and the seeds that the fuzzer itself would cut to its longest
    set --
    for file in $(find "$build/tests/fuzz/seeds/$name" -type f \
        -size "+${longest}c") \
        "$root/tests/fuzz/found/$name"/* "$build/failed/$name"/*; do
        [ ! -f "$file" ] || set -- "$@" "$file"
    done
    if [ $# -gt 0 ] &&
        ! "$build/tests/fuzz/fuzz_$name" -timeout=100 "$@" >"$log" 2>&1; then
        result="FAILS ON A KNOWN FILE, see build-fuzz/log/$name"
    elif ! "$build/tests/fuzz/fuzz_$name" $(effort "$name") \
        -timeout=100 -report_slow_units=100 -rss_limit_mb=2048 \
        -max_len=$longest -print_final_stats=1 \
        -dict="$build/tests/fuzz/seeds/$dictionary.dict" \
        -artifact_prefix="$build/failed/$name/" \
        "$corpus" "$build/tests/fuzz/seeds/$name" >"$log" 2>&1; then
        result="FAILED, see build-fuzz/log/$name"
        keep "$name"
    fi
    [ "$result" = clean ] || failures=$((failures + 1))
    awk -v name="$name" -v result="$result" '
        /cov: / { for (i = 1; i < NF; i++) {
                      if ($i == "cov:") edges = $(i + 1)
                      if ($i == "corp:") corpus = $(i + 1) } }
        /number_of_executed_units/ { runs = $2 }
        /average_exec_per_sec/ { speed = $2 }
        END { sub("/.*", "", corpus)
              printf "%-10s %12d %8d %8d %8d  %s\n", name, runs, speed, edges,
                     corpus, result }' "$log"
done
[ "$failures" -eq 0 ]
