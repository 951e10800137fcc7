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
# BOTHWAYS_JOBS, if set: so many mutants at a time (1).
# A suite is asked about a mutant only if it reached its line: each has run once
# with counters in the folder. A line that has none (a table) is asked of all that
# reached its file.
set -eu

count=${1:-40}
seed=${2:-1}
[ $# -lt 1 ] || shift
[ $# -lt 1 ] || shift
folders=${*:-air thermal glaser mould criteria}
root=$(cd "$(dirname "$0")/.." && pwd)
jobs=${BOTHWAYS_JOBS:-1}
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
    glaser) echo 'cases monthly monthly_limits monthly_rounding monthly_choices period_faces drying relaxation period surface properties' ;;
    mould) echo 'mould mould_years verdict' ;;
    decay) echo 'decay frost' ;;
    assembly)
        echo 'geography_rules geography assembly change readings room kind exposure scope propose cavity judging run_damage runs runs_steady judge' \
            'transient_input side ground change_said geography_ends side_ends side_said ground_ends'
        ;;
    climate)
        case $1 in # each file by what reaches it soonest
        */record*.c) echo 'hours_joined hours_filled record hours_said forms_of_hours gaps' ;;
        *)
            echo 'weather_rain sunny generator_rain sun climate exposure' \
                'climate_ends transient_input generator generator_frost hours_said gaps hours'
            ;;
        esac
        [ "$1" != climate ] || echo 'hours_joined hours_filled record forms_of_hours'
        ;;
    chart)
        echo 'chart chart_places chart_scales chart_fields marks marks_water' \
            'marks_hours picture marks_studies html marks_replay drawings' \
            'drawings_wall'
        ;;
    report)
        echo 'chart page page_form html html_cases html_studies picture' \
            'parts report' \
            'tables report_findings report_layers report_words mind' \
            'margin_words audit_words marks marks_water marks_hours' \
            'marks_studies marks_junction columns said audit_facts' \
            'compare_answer compare_words compare_sentences compare_many' \
            'choose_words marks_replay marks_choose told told_junction' \
            'told_hours told_replay told_audit told_compare spot working' \
            'compare_buy screen_lists style drawings' \
            'drawings_wall told_apart' \
            'compare_hours junction_columns audit margin'
        ;;
    input)
        echo 'input edit property_rows refusals forms readings warnings' \
            'climate_forms hours gaps tmy climate hourly forms_of_hours' \
            'columns_of_hours hours_said record sides_read layers_said' \
            'climate_said junction_said choices_said' \
            'material material_files material_folders material_pick' \
            'material_values material_hours profile_files every_fault' \
            'limits_read limits input_edges choices_read log log_limits' \
            'junction_read junction_foot junction_details ground cases' \
            'called replay_inputs profile generator_rain kind sold mind' \
            'junction_judge'
        ;;
    margin)
        echo 'margin margin_study margin_ways margin_words margin_cases' \
            'margin_case margin_settings margin_found margin_first' \
            'margin_alone margin_together'
        ;;
    audit)
        echo 'audit audit_plan hold_point hold_limits verify house as_built forecast' \
            'audit_words audit_facts told_audit cheats'
        ;;
    replay)
        echo 'replay replay_doubts replay_limits replay_clocks replay_figures' \
            'replay_trials replay_inputs replay_measured told_replay'
        ;;
    exchange) echo 'exchange skeleton skeleton_edges skeleton_refused' ;;
    base) echo 'base pool output units' ;;
    material)
        echo 'material material_files material_folders material_values called' \
            'property_rows'
        ;;
    criterion) echo 'criterion criteria words profile profile_files judging' ;;
    compare)
        echo 'compare compare_cases compare_hours compare_rank compare_order' \
            'compare_table told_compare compare_sentences compare_words compare_answer compare_buy' \
            'compare_many compare_climates'
        ;;
    profile) echo 'profile profile_files' ;;
    criteria)
        echo 'verdict scope score criteria rows judge_hours judge_faces' \
            'judge_wood judge_wetting judge_alone judge_within judge_water judge_damage' \
            'run_damage judging words frost' \
            'propose advice best_two trial profile judge judge_air judge_excuses bounds junction_rooms run_wetting runs runs_steady assess compare'
        case $1 in # the long one takes as long as all of them
        */junction*.c | */judge_junctions.c | */judge_water.c | criteria)
            echo junction_judge junction_columns
            ;;
        esac
        case $1 in
        */advice.c | */propose.c | */trial.c | */score.c | criteria)
            echo counsel
            ;;
        esac
        ;;
    junction)
        echo 'junction junction_solve junction_any junction_read' \
            'junction_details' \
            'junction_vapour junction_vapour_exact junction_vapour_random' \
            'junction_foot junction_air junction_leaks junction_measured' \
            'junction_hours junction_hours_beam junction_hours_drawn' \
            'junction_watch junction_wood junction_moved junction_sides' \
            'junction_rain junction_run junction_water junction_wetting' \
            'junction_places junction_mu junction_shapes junction_grids' \
            'junction_raster junction_judge junction_within'
        ;;
    choose)
        echo 'choose choose_bound choose_race choose_front choose_designs choose_settings' \
            'choose_stages choose_telling choices_read choose_words'
        ;;
    transient)
        echo 'cases transient_parts transient_material transient_input' \
            'transient_cells transient_solver transient_watch transient_flows' \
            'transient_short transient transient_years transient_run' \
            'transient_keep transient_start transient_carry transient_rain' \
            'transient_wetting transient_reach transient_coat transient_follow transient_forward transient_damp' \
            'transient_told run_wetting frost'
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
    # apart from what may be built there meanwhile
    cp "$tree/src/libbothways.a" "$work/$tree.a"
    [ "$tree" != build ] || continue
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
        awk -v file="$file" -f tests/mutants.awk "$file"
    done
done >"$work/all"
awk -v seed="$seed" 'BEGIN { srand(seed) } { printf "%.9f\t%s\n", rand(), $0 }' \
    "$work/all" | sort -n | cut -f2- | head -n "$count" >"$work/chosen"
echo "$(wc -l <"$work/all") mutants in: $folders;" \
    "$(wc -l <"$work/chosen") tried (seed $seed)"

libraries="$(pkg-config --libs check libxml-2.0) -lm -lpthread"
includes="-Iinclude -DBW_VERSION=__FILE__" # any text
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
    # what only reads and prints is sooner compiled than run
    case $file_of in
    src/input/* | src/report/* | src/chart/* | src/exchange/*) speed=-O0 ;;
    *) speed=-O2 ;;
    esac
    # shellcheck disable=SC2086
    gcc -std=c17 $speed -ffp-contract=off -D_POSIX_C_SOURCE=200809L -w "$@" \
        -I"$(dirname "$file_of")" $includes $xml -c "$job/$(basename "$file_of")" \
        -o "$job/mutant.o" 2>"$job/log"
}

link_suite() { # PROGRAM BUILD SUITE OBJECT... [FLAG...]
    program=$1 from=$2 name=$3
    shift 3
    # the objects stand before the library, and so replace its own
    # shellcheck disable=SC2086
    gcc $linker -o "$program" "$from/tests/CMakeFiles/test_$name.dir/"*.o "$@" \
        "$work/$from.a" $libraries
}

reach() { # SUITE: which lines it reaches, and its time
    counts=$work/reach/$1
    mkdir "$counts"
    link_suite "$counts/test" build "$1" "$work/reach/"*.o --coverage || exit 1
    began=$(date +%s%3N)
    GCOV_PREFIX=$counts GCOV_PREFIX_STRIP=99 "$counts/test" \
        >"$counts/log" 2>&1 </dev/null || {
        echo "test_$1 fails in build without any mutant" >>"$work/times.build"
        return 0
    }
    echo "$(($(date +%s%3N) - began)) $1" >>"$work/times.build"
    for count in "$counts/"*.gcda; do
        [ -f "$count" ] || continue
        ln -s "../$(basename "$count" .gcda).gcno" "$counts"
    done
    gcov -t "$counts/"*.gcda 2>/dev/null | awk -v suite="$1" '
        { split($0, part, ":") }
        part[3] == "Source" { file = part[4]; next }
        file !~ /[.]c$/ { next }
        { count = part[1]; gsub(/[ *]/, "", count); line = part[2] + 0 }
        count == "-" || line == 0 { next }
        { print suite, file, line, (count + 0 > 0) }' >"$counts.reached"
    rm -rf "$counts"
}

reach_all() {
    mkdir "$work/reach"
    : >"$work/times.build"
    for folder in $(for of in $folders; do echo "${of%%/*}"; done | sort -u); do
        for source in src/"$folder"/*.c; do
            # shellcheck disable=SC2086
            gcc -std=c17 -O1 -fno-inline -ffp-contract=off \
                -D_POSIX_C_SOURCE=200809L -w --coverage \
                -fprofile-update=atomic $includes $xml -c "$source" -o \
                "$work/reach/${folder}_$(basename "$source" .c).o" || exit 1
        done
    done
    number=0
    while [ "$number" -lt "$jobs" ]; do
        echo "$targets" | tr ' ' '\n' | sed -n 's/^test_//p' |
            awk -v n="$number" -v jobs="$jobs" 'NR % jobs == n' |
            while read -r suite; do reach "$suite"; done &
        number=$((number + 1))
    done
    wait
    cat "$work/reach/"*.reached >"$work/reached"
    # what fails by itself notices nothing
    ! grep 'without any mutant' "$work/times.build" || exit 1
}

noticed() { # FILE LINE BUILD [FLAG...]: one of the suites of its folder fails
    tree=$3
    near=$(basename "$1" .c)
    wanted=" $(suites_of "${1#src/}" | tr '\n' ' ') "
    awk -v wanted="$wanted" -v near="$near" -v file="$1" -v line="$2" '
        FILENAME == ARGV[1] { kills[$1]++; next }
        FILENAME == ARGV[2] {
            if ($2 == file && $4) whole[$1] = 1
            if ($2 == file && $3 == line) { counted = 1; reached[$1] += $4 }
            next
        }
        index(wanted, " " $2 " ") && (counted ? reached[$2] : whole[$2]) {
            print ($2 == near ? 0 : ($1 + 100) / (kills[$2] + 0.2)), $1, $2
        }' "$work/killers" "$work/reached" "$work/times.$tree" |
        sort -s -g -k1,1 >"$job/suites"
    shift 3
    while read -r _ time suite; do
        link_suite "$job/test" "$tree" "$suite" "$job/mutant.o" "$@" || exit 1
        # shellcheck disable=SC3045
        {
            (ulimit -t $((10 + time / 200)) && exec timeout 900 "$job/test") \
                >"$job/log" 2>&1 </dev/null && continue
            case $? in 124 | 137 | 152) echo late >>"$work/late" ;; esac
        } 2>/dev/null # what the shell says of a test that crashed
        echo "$suite" >>"$work/killers"
        return 0
    done <"$job/suites"
    return 1
}

golden() { # the command with the mutant gives what it gave
    # shellcheck disable=SC2086
    gcc -o "$job/mutant" build/src/CMakeFiles/bothways.dir/command/*.o \
        "$job/mutant.o" "$work/build.a" $libraries
    timeout 60 sh tests/golden.sh "$job/mutant" . >"$job/log" 2>&1
}

reach_all

: >"$work/killers"
: >"$work/results"
: >"$work/late"
sanitizers='-fsanitize=address,undefined -fno-sanitize-recover=all'
end=$(($(date +%s) + ${BOTHWAYS_SECONDS:-1000000}))
tab=$(printf '\t')
try() { # NUMBER: every so-manieth of those chosen
    job=$work/job$1
    mkdir "$job"
    awk -v job="$1" -v jobs="$jobs" 'NR % jobs == job' "$work/chosen" \
        >"$job/chosen"
    while IFS=$tab read -r file line column old new; do
        [ "$(date +%s)" -lt "$end" ] || { echo 'out of time'; break; }
        # apart from the sources, which another mutant is made of
        awk -v line="$line" -v column="$column" -v old="$old" -v new="$new" '
            NR == line { $0 = substr($0, 1, column - 1) new \
                              substr($0, column + length(old)) }
            { print }' "$file" >"$job/$(basename "$file")"
        result=survived
        # shellcheck disable=SC2086
        if ! compile "$file"; then
            result=broken # does not compile: says nothing
        elif noticed "$file" "$line" build; then
            result=killed
        elif [ "${BOTHWAYS_QUICK:-}" = golden ]; then
            golden || result=golden
        elif [ -n "${BOTHWAYS_QUICK:-}" ]; then
            :
        elif compile "$file" $sanitizers -DBW_ARENA_DEBUG &&
            noticed "$file" "$line" build-sanitize $sanitizers; then
            result=sanitized
        elif compile "$file" && ! golden; then
            result=golden
        fi
        [ "$result" != survived ] ||
            echo "survived: $file:$line: '$old' -> '$new':" \
                "$(sed -n "${line}p" "$file" | sed 's/^ *//')" \
                "[$(wc -l <"$job/suites") suites reach it]"
        echo "$file $result" >>"$work/results"
    done <"$job/chosen"
}
number=0
while [ "$number" -lt "$jobs" ]; do
    try "$number" &
    number=$((number + 1))
done
wait
count_of() { # RESULT
    awk -v result="$1" '$2 == result { n++ } END { print n + 0 }' \
        "$work/results"
}
killed=$(count_of killed) sanitized=$(count_of sanitized)
golden=$(count_of golden) survived=$(count_of survived)
broken=$(count_of broken) late=$(wc -l <"$work/late")
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
