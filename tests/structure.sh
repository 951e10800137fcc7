#!/bin/sh
# The structure as it is: which folder of src/ uses which, read off the includes,
# is the table in DEVELOPERS.md; no two files of the library need each other.
#   usage: structure.sh BUILD-FOLDER SOURCE-FOLDER [update]
set -eu

build=$1
source=$2
update=${3:-}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failures=0

# bottom up, as src/CMakeLists.txt has them, and the program
folders=$(sed -n '/^foreach(folder base/,/)/p' "$source/src/CMakeLists.txt" |
    sed 's/^foreach(folder//; s/)//' | tr -s '\n ' ' ')
folders="$folders command"

# Of whom a header is: the folder of its name or of what it declares; a private
# one of the folder that includes it or of those that this may use.
owner() { # FOLDER HEADER, as included
    [ -z "$1" ] || [ ! -f "$source/src/$1/$2" ] || return 0
    from=$1 && shift
    case $1 in
    bothways/bothways.h) return ;;
    bothways/constants.h | bothways/error.h | bothways/export.h | bothways/sink.h) echo base ;;
    bothways/assessment.h) echo criteria ;;
    bothways/choices.h) echo assembly ;;
    bothways/edit.h) echo input ;;
    bothways/record.h | bothways/log.h) echo climate ;;
    bothways/geography.h) echo assembly ;;
    bothways/properties.h) echo material ;;
    bothways/*.h) name=${1#bothways/} && echo "${name%.h}" ;;
    *) for other in $(tr '\n' ' ' <"$source/src/$from/sources.cmake" |
        sed 's/.*USES\([^)]*\)).*/\1/; s/.*command\(.*\)/\1/' | tr ')}/' '   '); do
        [ ! -f "$source/src/$other/$1" ] || echo "$other"
    done ;;
    esac
}

# The public headers and their folders.
for header in "$source"/include/bothways/*.h; do
    echo "$(owner '' "bothways/${header##*/}") $header"
done >"$work/owners"

for folder in $folders; do
    sed -n "s/^$folder //p" "$work/owners" >"$work/public"
    # shellcheck disable=SC2046
    sed -n 's/^#include "\([^"]*\)".*/\1/p' "$source/src/$folder"/*.[ch] \
        $(cat "$work/public") | sort -u |
        while read -r header; do owner "$folder" "$header"; done | sort -u |
        grep -vx "$folder" >"$work/$folder" || true
done

table() {
    echo '```'
    for folder in $folders; do
        line=$(printf '%-11s' "$folder")
        for other in $folders; do
            [ "$other" != "$folder" ] || break
            mark=$(grep -qx "$other" "$work/$folder" && echo "$other" ||
                echo "$other" | tr '[:print:]' ' ')
            line="$line $mark"
        done
        echo "$line" | sed 's/ *$//'
    done
    echo '```'
}

# Upwards is what stands after it.
seen=
for folder in $folders; do
    seen="$seen $folder "
    while read -r other; do
        case $seen in
        *" $other "*) ;;
        *)
            echo "$folder uses $other, which stands above it"
            failures=$((failures + 1))
            ;;
        esac
    done <"$work/$folder"
done

guide=$source/DEVELOPERS.md
table >"$work/table"
awk '/^<!-- uses -->$/ { on = 1; next } /^<!-- end of uses -->$/ { on = 0 } on' \
    "$guide" >"$work/there"
if [ -n "$update" ]; then
    awk -v table="$work/table" '/^<!-- end of uses -->$/ { on = 0 }
        !on { print }
        /^<!-- uses -->$/ { on = 1; while ((getline line <table) > 0) print line }
        ' "$guide" >"$work/guide"
    cp "$work/guide" "$guide"
elif ! diff "$work/there" "$work/table"; then
    echo 'DEVELOPERS.md (<) does not say what the includes do (>):' \
        'tests/structure.sh build . update writes it anew'
    failures=$((failures + 1))
fi

# Nothing else stands at the top.
if git -C "$source" rev-parse >/dev/null 2>&1; then
    git -C "$source" ls-files | sed 's,/.*,,' | sort -u | grep -vxE \
        'README.md|DEVELOPERS.md|LICENSE|CMakeLists.txt|src|include|tests|materials|assemblies|docs|\..*' \
        >"$work/top" || true
    if [ -s "$work/top" ]; then
        echo 'does not belong at the top:'
        cat "$work/top"
        failures=$((failures + 1))
    fi
fi

# Every file begins with its equation or what always holds in it.
awk 'function tell() { if (file != "" && !said) print file }
    FNR == 1 { tell(); file = FILENAME; said = 0 }
    FNR <= 30 && index($0, "/*") { said = 1 }
    END { tell() }' "$source"/src/*/*.c >"$work/silent"
while read -r file; do
    echo "$file does not begin with what it is"
    failures=$((failures + 1))
done <"$work/silent"

# Files that need each other: a circle among the symbols of the object files.
# tsort names what is in one.
if command -v nm >/dev/null; then
    find "$build/src" -path '*.dir/*' -name '*.c.o' | sort -u >"$work/objects"
    while read -r object; do
        name=${object##*.dir/}
        [ ! -f "$source/src/${name%.o}" ] || echo "$object" # not of a file that was
    done <"$work/objects" | tr '\n' '\0' | xargs -0 nm -A | awk '
        { name = $0; sub(/\.c\.o:.*/, "", name); sub(/.*\.dir\//, "", name)
          sub(/.*\.c\.o:/, "") }
        NF == 2 && $1 == "U" { print "U", $2, name }
        NF == 3 && $2 ~ /[TDRBVWi]/ { print "T", $3, name }' >"$work/symbols"
    awk '$1 == "T" { at[$2] = $3 } $1 == "U" { use[++n] = $2; by[n] = $3 }
        END { for (i = 1; i <= n; i++)
            if (use[i] in at && at[use[i]] != by[i])
                print by[i], at[use[i]] }' "$work/symbols" |
        sort -u >"$work/edges"
    [ "$(wc -l <"$work/edges")" -gt 100 ] || {
        echo 'no symbols read'
        failures=$((failures + 1))
    }
    if ! tsort "$work/edges" >/dev/null 2>"$work/circles"; then
        echo 'files that need each other:'
        sed 's/^tsort: //' "$work/circles"
        failures=$((failures + 1))
    fi
else
    echo 'skipped: files that need each other (no nm)'
fi

[ "$failures" -eq 0 ] && echo "structure: $(wc -l <"$work/edges") arrows between files, none in a circle"
[ "$failures" -eq 0 ]
