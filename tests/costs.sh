#!/bin/sh
# What each verb costs: processor seconds of the least of RUNS runs, on one
# thread, per wall; margin and compare also per case simulated. A table for
# docs/quality.md.
#   usage: costs.sh PROGRAM SOURCE-FOLDER [RUNS [WALL ...]]
# Processor seconds do not count what other work takes, but its pressing on the
# caches.
set -eu

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
cd "$2"
runs=${3:-1}
[ $# -le 3 ] || shift 3
[ $# -gt 0 ] && [ -f "${1%.xml}.xml" ] || set -- assemblies/estuary-fibre.xml \
    assemblies/upland-closing-refused.xml assemblies/upland-tight-outside.xml
beside=assemblies/estuary-mineral-variable.xml
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# processor seconds of a command, its children's as the shell counts them
seconds() {
    least=
    for _ in $(seq "$runs"); do
        sh -c '"$@" >"$0" 2>&1 || :; times' "$work/out" "$@" |
            tail -n 1 | awk '{
                for (i = 1; i <= 2; i++) {
                    split($i, part, /[ms]/)
                    sum += 60 * part[1] + part[2]
                }
                printf "%.2f\n", sum }' >"$work/time"
        now=$(cat "$work/time")
        least=$(printf '%s\n%s\n' "${least:-$now}" "$now" | sort -n | head -n 1)
    done
}

printf '%-26s' 'processor s'
for wall in "$@"; do
    name=$(basename "$wall" .xml)
    printf ' %22s' "$name"
done
echo
while read -r verb; do
    printf '%-26s' "$verb"
    for wall in "$@"; do
        other=
        [ "${verb#compare}" = "$verb" ] || other="$beside --as-drawn"
        # shellcheck disable=SC2086
        seconds "$program" $verb "$wall" $other --threads 1
        cases=$(sed -n 's/^ *\([0-9]*\) walls were simulated.*/\1/p' "$work/out")
        if [ -n "$cases" ]; then
            printf ' %22s' "$least ($cases cases)"
        else
            printf ' %22s' "$least"
        fi
    done
    echo
done <<'END'
check --monthly-only
check --no-advice
check
check --format html
compare --monthly-only
compare
margin --monthly-only
margin
audit --monthly-only
audit
END
