#!/bin/sh
# What the harnesses reach: of each folder of src the share of lines [%], by
# harness and by all together, then the functions that none reaches.
#   sh tests/fuzz_coverage.sh               all harnesses
#   sh tests/fuzz_coverage.sh wall verdict  these
# Each replays its seeds, what was found, the pseudo-random inputs of its test
# (tests/fuzz/CMakeLists.txt) and, where it is, the corpus that `sh tests/fuzz.sh
# same` left of its fixed sequence. CORPORA=1: that of the long runs, too, in
# build-fuzz/corpus or where BOTHWAYS_CORPUS says.
set -eu

root=$(cd "$(dirname "$0")/.." && pwd)
build=$root/build-fuzz-coverage
work=$build/reached
harnesses=${*:-units material profile assembly edit monthly hourly tmy hours log
gbxml junction sheet command wall verdict}

BOTHWAYS_PACKAGES='clang llvm' BOTHWAYS_TARGET=replays sh "$root/src/setup.sh" \
    build-fuzz-coverage -DCMAKE_C_COMPILER=clang -DBOTHWAYS_HARDEN=OFF \
    "-DCMAKE_C_FLAGS=-fprofile-instr-generate -fcoverage-mapping"
rm -rf "$work"
mkdir -p "$work"
# it has every object, also those that no harness asks for
cmake --build "$build" --target bothways_shared >"$work/shared.log"

reached() { # NAME
    llvm-cov export -format=lcov -instr-profile="$work/$1.profdata" \
        "$build/src/libbothways.so" -object "$build/tests/fuzz/replay_command" \
        >"$work/$1.lcov" 2>"$work/$1.log"
}

for name in $harnesses; do
    random=$(sed -n "s/^ *bw_harness($name \([0-9]*\) .*/\1/p" \
        "$root/tests/fuzz/CMakeLists.txt")
    set -- "$build/tests/fuzz/seeds/$name" "$root/tests/fuzz/found/$name" \
        "$root/build-fuzz/same/$name"
    [ -z "${CORPORA:-}" ] ||
        set -- "$@" "${BOTHWAYS_CORPUS:-$root/build-fuzz/corpus}/$name"
    LLVM_PROFILE_FILE=$work/$name.profraw \
        "$build/tests/fuzz/replay_$name" "-$random" "$@" >"$work/$name.inputs"
    llvm-profdata merge -o "$work/$name.profdata" "$work/$name.profraw"
    reached "$name"
done
llvm-profdata merge -o "$work/all.profdata" "$work"/*.profraw
reached all

for name in $harnesses all; do
    awk -v name="$name" '
        /^SF:/ { file = match($0, "/src/[a-z]+/") ? substr($0, RSTART + 5) : ""
                 folder = file; sub("/.*", "", folder) }
        /^DA:/ && file != "" { split(substr($0, 4), part, ",")
                               of[folder]++; of["src"]++
                               if (part[2] > 0) { in_it[folder]++; in_it["src"]++ } }
        END { for (f in of) print f, name, of[f], in_it[f] + 0 }' \
        "$work/$name.lcov"
done | awk '
    !($1 in lines) { folder[++folders] = $1 }
    !($2 in seen) { seen[$2] = 1; column[++columns] = $2 }
    { lines[$1] = $3; share[$1, $2] = 100 * $4 / $3 }
    END {
        printf "%-11s %6s", "folder", "lines"
        for (c = 1; c <= columns; c++) printf " %4s", substr(column[c], 1, 4)
        print ""
        for (pass = 0; pass < 2; pass++)
            for (i = 1; i <= folders; i++) {
                f = folder[i]
                if ((f == "src") != pass) continue
                row = sprintf("%-11s %6d", f, lines[f])
                for (c = 1; c <= columns; c++)
                    row = row (share[f, column[c]] == 0 ? "    ." : \
                        sprintf(" %4.0f", int(share[f, column[c]])))
                print row | (pass ? "cat" : "sort")
                if (pass == 0 && i == folders) close("sort")
            }
        close("sort")
    }'

# one in a header counts once, met where any file has met it
awk '
    /^SF:/ { file = match($0, "/src/[a-z]+/") ? substr($0, RSTART + 5) : "" }
    /^FNDA:/ && file != "" {
        split(substr($0, 6), part, ",")
        name = part[2]
        sub(".*[.][ch]:", "", name)
        of[file, name] += part[1]
    }
    END {
        for (key in of) {
            all++
            split(key, part, SUBSEP)
            if (of[key] > 0) continue
            n++
            not_met[part[1]] = not_met[part[1]] " " part[2]
        }
        printf "\nFunctions that none reaches, %d of %d:\n", n, all
        fflush()
        for (f in not_met) print f ":" not_met[f] | "sort"
    }' "$work/all.lcov"
