#!/bin/sh
# Mutation check: swaps one operator or constant at a time in the physics and
# criteria, rebuilds that object and runs the suites that should notice.
#   usage: sh tests/mutate.sh [COUNT [SEED [FOLDER...]]]
# BOTHWAYS_SECONDS, if set, ends the run after so many seconds.
# BOTHWAYS_QUICK, if set: the suites alone, without sanitizers and golden
# outputs. What lives is more, what is killed is killed by a test. With "golden"
# the golden outputs are asked, too.
# BOTHWAYS_BUILD, if set with BOTHWAYS_QUICK: a build folder of these sources; what
# has changed is built there, and it is linked with, in place of one made for the
# run, which takes minutes.
# A mutant that the suites of its folder let pass meets them again with the
# sanitizers and assertions of CI, which see a read past an array; then the
# golden outputs. What those alone notice is counted apart, for they are
# regression values.
# COUNT mutants (40) are drawn from all there are, by SEED (1), from the
# folders air thermal glaser mould criteria; a FOLDER may be one file of it,
# as assembly/geography.c. Prints each survivor with its line, and the kill
# rate, of several folders that of each. Survivors that change nothing are
# explained in docs/mutation.md.
# The suite named after the file comes first, then what killed most for its time;
# the first that fails ends it. A suite has five times its own time and 10 s, of
# the processor: what takes longer goes round and round, and counts as killed.
# BOTHWAYS_SUITES, if set: these, in place of those of the folder.
set -eu

count=${1:-40}
seed=${2:-1}
[ $# -lt 1 ] || shift
[ $# -lt 1 ] || shift
folders=${*:-air thermal glaser mould criteria}
root=$(cd "$(dirname "$0")/.." && pwd)
work=$(mktemp -d)
mkdir "$work/tree"
export CK_FORK=no CCACHE_BASEDIR="$work" CCACHE_NOHASHDIR=1
trap 'rm -rf "$work"' EXIT

# a copy, so that a mutant can never be left in the sources
(cd "$root" && tar -c --exclude='./build*' --exclude=./.git .) |
    tar -x -C "$work/tree"
cd "$work/tree"
command -v ccache >/dev/null && export CMAKE_C_COMPILER_LAUNCHER=ccache
built=${BOTHWAYS_BUILD:-}
if [ -n "$built" ]; then
    # the copy links with it; nothing of it is written but what has changed
    ln -s "$(cd "$root" && cd "$built" && pwd)" build
else
    cmake -S . -B build -DCMAKE_BUILD_TYPE=Release >/dev/null
fi
trees=build
if [ -z "${BOTHWAYS_QUICK:-}" ]; then
    trees='build build-sanitize'
    cmake -S . -B build-sanitize -DCMAKE_BUILD_TYPE=RelWithDebInfo \
        -DBOTHWAYS_SANITIZE=address,undefined >/dev/null
fi
suites_of() { # FOLDER or FOLDER/FILE
    [ -z "${BOTHWAYS_SUITES:-}" ] || { echo "$BOTHWAYS_SUITES"; return; }
    case ${1%%/*} in
    air) echo 'cases air surface monthly period properties' ;;
    thermal) echo 'cases thermal surface criteria assess' ;;
    glaser) echo 'cases monthly monthly_limits monthly_rounding period_faces drying relaxation period surface properties' ;;
    mould) echo 'mould mould_years verdict' ;;
    decay) echo 'decay' ;;
    assembly) echo 'geography_rules geography assembly change readings room kind exposure scope propose cavity judging run_damage runs judge' ;;
    climate) echo 'weather_rain sunny generator_rain sun climate exposure transient_input generator' ;;
    chart) echo 'chart marks marks_water marks_hours picture marks_studies html' ;;
    report)
        echo 'chart page html html_cases html_studies picture parts report' \
            'tables report_findings report_layers report_words mind' \
            'margin_words audit_words marks marks_water marks_hours' \
            'marks_studies columns said audit_facts'
        ;;
    input)
        echo 'input edit property_rows refusals forms readings warnings' \
            'climate_forms hours gaps tmy climate hourly forms_of_hours record' \
            'material material_files material_folders material_pick' \
            'material_values material_hours profile_files every_fault limits_read'
        ;;
    margin)
        echo 'margin margin_study margin_ways margin_words margin_cases'
        ;;
    audit) echo 'audit hold_point as_built forecast audit_words cheats' ;;
    exchange) echo 'exchange skeleton' ;;
    base) echo 'base pool output units' ;;
    material)
        echo 'material material_files material_folders material_values called' \
            'property_rows'
        ;;
    criterion) echo 'criterion criteria words profile profile_files judging' ;;
    compare) echo 'compare compare_cases compare_hours compare_rank' \
        'compare_sentences compare_words' ;;
    profile) echo 'profile profile_files' ;;
    criteria)
        echo 'verdict scope score criteria rows judge_hours judge_faces' \
            'judge_wood judge_wetting judge_alone run_damage judging words' \
            'propose advice profile judge runs assess compare'
        case $1 in # the long one takes as long as all of them
        */junction.c | criteria) echo junction_judge junction_columns ;;
        esac
        case $1 in
        */advice.c | */propose.c | */trial.c | */score.c | criteria)
            echo counsel
            ;;
        esac
        ;;
    transient)
        echo 'cases transient_parts transient_material transient_input' \
            'transient_cells transient_solver transient_watch transient_flows' \
            'transient_short transient transient_years transient_run'
        ;;
    *) echo 'criteria assess' ;;
    esac
}
targets=bothways
for folder in $folders; do
    for suite in $(suites_of "$folder"); do
        [ ! -f "tests/test_$suite.c" ] || targets="$targets test_$suite"
    done
done
targets=$(echo "$targets" | tr ' ' '\n' | sort -u | tr '\n' ' ')
for tree in $trees; do
    # shellcheck disable=SC2086
    cmake --build "$tree/" -j "$(nproc)" --target $targets >"$work/log" 2>&1 || {
        tail -n 20 "$work/log"
        exit 1
    }
    for target in $targets; do
        [ "$target" != bothways ] || continue
        began=$(date +%s%3N)
        "$tree/tests/$target" >"$work/log" 2>&1 || {
            echo "$target fails in $tree without any mutant"
            exit 1
        }
        echo "$(($(date +%s%3N) - began)) ${target#test_}"
    done | sort -n >"$work/times.$tree"
    # what fails by itself notices nothing
    ! grep 'without any mutant' "$work/times.$tree" || exit 1
done

# every mutant: file, line, column, old, new
for folder in $folders; do
    case $folder in
    *.c) files=src/$folder ;;
    *) files=$(echo src/"$folder"/*.c) ;;
    esac
    for file in $files; do
        awk -v file="$file" '
            BEGIN {
                n = split("+|-;-|+;*|/;/|*;<|<=;>|>=;<=|<;>=|>;==|!=;!=|==;" \
                          "&&|\\|\\|;\\|\\||&&;0.0|1.0;1.0|0.0;fmin|fmax;" \
                          "fmax|fmin;0.5|0.6;2.0|2.1;100.0|101.0;true|false;" \
                          "false|true", pair, ";")
                for (i = 1; i <= n; i++) {
                    gsub(/\\\|/, "\001", pair[i])
                    split(pair[i], part, "|")
                    old[i] = part[1]; new[i] = part[2]
                    gsub("\001", "|", old[i]); gsub("\001", "|", new[i])
                    swapped[old[i]] = 1
                }
                number = "[0-9]+[.][0-9]+(e[-+]?[0-9]+)?|[0-9]+e[-+]?[0-9]+"
            }
            /^ *\/\*/ { comment = 1 }
            comment { if (/\*\//) comment = 0; next }
            /^#|^ *\*|assert\(/ { next }
            {
                # what stands between quotes is words
                rest = $0
                while (match(rest, /"([^"\\]|\\.)*"/)) {
                    blank = substr(rest, RSTART, RLENGTH)
                    gsub(/./, "_", blank)
                    rest = substr(rest, 1, RSTART - 1) blank \
                           substr(rest, RSTART + RLENGTH)
                }
                $0 = rest
                for (i = 1; i <= n; i++) {
                    word = old[i] ~ /^[a-z0-9]/
                    want = word ? old[i] : " " old[i] " "
                    from = 1
                    while ((at = index(substr($0, from), want)) > 0) {
                        at += from - 1
                        before = at > 1 ? substr($0, at - 1, 1) : " "
                        after = substr($0, at + length(want), 1)
                        if (!word || (before !~ /[A-Za-z0-9_.]/ &&
                                      after !~ /[A-Za-z0-9_.]/))
                            printf "%s\t%d\t%d\t%s\t%s\n", file, NR,
                                   word ? at : at + 1, old[i], new[i]
                        from = at + length(want) - (word ? 0 : 1)
                    }
                }
                # every other constant is made a tenth larger
                code = $0
                sub(/\/\*.*/, "", code)
                from = 1
                while (match(substr(code, from), number)) {
                    at = from + RSTART - 1
                    from = at + RLENGTH
                    value = substr(code, at, RLENGTH)
                    if (value + 0 != 0 && !(value in swapped) &&
                        (at == 1 ||
                         substr(code, at - 1, 1) !~ /[A-Za-z0-9_.]/))
                        printf "%s\t%d\t%d\t%s\t(%s * 1.1)\n", file, NR, at,
                               value, value
                }
            }' "$file"
    done
done >"$work/all"
awk -v seed="$seed" 'BEGIN { srand(seed) } { printf "%.9f\t%s\n", rand(), $0 }' \
    "$work/all" | sort -n | cut -f2- | head -n "$count" >"$work/chosen"
echo "$(wc -l <"$work/all") mutants in: $folders;" \
    "$(wc -l <"$work/chosen") tried (seed $seed)"

libraries="$(pkg-config --libs check libxml-2.0) -lm -lpthread"
includes=-Iinclude
for folder in src/*/; do
    [ "$folder" = src/command/ ] || includes="$includes -I$folder"
done
xml=$(pkg-config --cflags libxml-2.0)

# the quickest there is
linker=
! command -v ld.lld >/dev/null || linker=-fuse-ld=lld

compile() { # FILE [FLAG...]: the one object that changed, warnings let pass
    file_of=$1
    shift
    # shellcheck disable=SC2086
    gcc -std=c17 -O2 -ffp-contract=off -D_POSIX_C_SOURCE=200809L -w "$@" \
        -I"$(dirname "$file_of")" $includes $xml -c "$file_of" \
        -o "$work/mutant.o" 2>"$work/log"
}

noticed() { # FILE BUILD [FLAG...]: one of the suites of its folder fails
    tree=$2
    near=$(basename "$1" .c)
    wanted=" $(suites_of "${1#src/}" | tr '\n' ' ') "
    shift 2
    awk -v wanted="$wanted" -v near="$near" '
        FILENAME == ARGV[1] { kills[$1]++; next }
        index(wanted, " " $2 " ") {
            print ($2 == near ? 0 : ($1 + 100) / (kills[$2] + 0.2)), $1, $2
        }' "$work/killers" "$work/times.$tree" | sort -s -g -k1,1 \
        >"$work/suites"
    while read -r _ time suite; do
        # the object stands before the library, and so replaces its own
        # shellcheck disable=SC2086
        gcc "$@" $linker -o "$work/test" \
            "$tree/tests/CMakeFiles/test_$suite.dir/"*.o \
            "$work/mutant.o" "$tree/src/libbothways.a" $libraries || exit 1
        # shellcheck disable=SC3045
        {
            (ulimit -t $((10 + time / 200)) && exec timeout 900 "$work/test") \
                >"$work/log" 2>&1 </dev/null && continue
            case $? in 124 | 137 | 152) late=$((late + 1)) ;; esac
        } 2>/dev/null # what the shell says of a test that crashed
        echo "$suite" >>"$work/killers"
        return 0
    done <"$work/suites"
    return 1
}

golden() { # the command with the mutant gives what it gave
    # shellcheck disable=SC2086
    gcc -o "$work/mutant" build/src/CMakeFiles/bothways.dir/command/*.o \
        "$work/mutant.o" build/src/libbothways.a $libraries
    timeout 60 sh tests/golden.sh "$work/mutant" . >"$work/log" 2>&1
}

: >"$work/killers"
sanitizers='-fsanitize=address,undefined -fno-sanitize-recover=all'
killed=0 late=0 sanitized=0 golden=0 survived=0 broken=0
end=$(($(date +%s) + ${BOTHWAYS_SECONDS:-1000000}))
while IFS="$(printf '\t')" read -r file line column old new; do
    [ "$(date +%s)" -lt "$end" ] || { echo 'out of time'; break; }
    cp "$file" "$work/original"
    awk -v line="$line" -v column="$column" -v old="$old" -v new="$new" '
        NR == line { $0 = substr($0, 1, column - 1) new \
                          substr($0, column + length(old)) }
        { print }' "$work/original" >"$file"
    result=survived
    # shellcheck disable=SC2086
    if ! compile "$file"; then
        result=broken # does not compile: says nothing
    elif noticed "$file" build; then
        result=killed
    elif [ "${BOTHWAYS_QUICK:-}" = golden ]; then
        golden || result=golden
    elif [ -n "${BOTHWAYS_QUICK:-}" ]; then
        :
    elif compile "$file" $sanitizers -DBW_ARENA_DEBUG &&
        noticed "$file" build-sanitize $sanitizers; then
        result=sanitized
    elif compile "$file" && ! golden; then
        result=golden
    fi
    case $result in
    killed) killed=$((killed + 1)) ;;
    sanitized) sanitized=$((sanitized + 1)) ;;
    golden) golden=$((golden + 1)) ;;
    broken) broken=$((broken + 1)) ;;
    survived)
        survived=$((survived + 1))
        echo "survived: $file:$line: '$old' -> '$new':" \
            "$(sed -n "${line}p" "$work/original" | sed 's/^ *//')"
        ;;
    esac
    echo "$file $result" >>"$work/results"
    cp "$work/original" "$file"
done <"$work/chosen"
if [ "${folders#* }" != "$folders" ]; then
    for folder in $folders; do
        sed -n "s;^src/${folder}[^ ]* ;;p" "$work/results" | sort | uniq -c |
            awk -v folder="$folder" '{ line = line ", " $2 " " $1 }
                END { print folder ": " substr(line, 3) }'
    done
fi
tried=$((killed + sanitized + golden + survived))
[ "$tried" -gt 0 ] || exit 1
echo "tried $tried: killed by a suite $killed ($((100 * killed / tried)) %," \
    "$late by its time)," \
    "by a suite under sanitizers $sanitized ($((100 * sanitized / tried)) %)," \
    "by golden outputs alone $golden ($((100 * golden / tried)) %)," \
    "survived $survived; $broken did not compile"
