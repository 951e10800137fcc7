#!/bin/sh
# The binary interface is the one recorded, include/bothways.abi, whose number is
# the library's SOVERSION. What is only added leaves the number; whatever else
# differs (a size, an offset, a type, a value, a declaration) raises it, and
# `update` does so by itself: a number cannot be forgotten.
#   usage: abi.sh SOURCE CC BUILD [update]
set -eu

source=$1 cc=$2 build=$3
update=${4:-}
record=$source/include/bothways.abi
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# The interface of the headers in a folder, as a record without its number.
interface() { # INCLUDE-FOLDER
    "$cc" -std=c11 -E -I"$1" "$1/bothways/bothways.h" |
        awk -f "$source/tests/abi.awk" >"$work/print.c"
    "$cc" -std=c11 -w -I"$1" -o "$work/print" "$work/print.c"
    "$work/print"
}

number_of() { sed -n '1s/^abi //p' "$1"; }

# The number that an interface must have after a record.
number_after() { # RECORD INTERFACE
    sed 1d "$1" | sort >"$work/old"
    sort "$2" >"$work/new"
    comm -23 "$work/old" "$work/new" >"$work/gone"
    echo $(($(number_of "$1") + ($(wc -l <"$work/gone") > 0)))
}

# --- the rule bites: what a program would not notice, what it would

try() { # NUMBER-RAISED HEADER EXPRESSION
    rm -rf "$work/include"
    cp -R "$source/include" "$work/include"
    sed "$3" "$source/include/bothways/$2" >"$work/include/bothways/$2"
    if cmp -s "$source/include/bothways/$2" "$work/include/bothways/$2"; then
        echo "FAIL: nothing to try in $2: $3" && exit 1
    fi
    { echo 'abi 1' && cat "$work/now"; } >"$work/base"
    interface "$work/include" >"$work/tried"
    raised=$(number_after "$work/base" "$work/tried")
    [ "$raised" = "$1" ] ||
        { echo "FAIL: $2: $3: number $raised instead of $1" && exit 1; }
}

case $("$cc" -dM -E -x c /dev/null) in *__LP64__*) ;; *)
    echo 'skipped: the record is of machines with 64-bit pointers'
    exit 0 ;;
esac
interface "$source/include" >"$work/now"
try 1 air.h 's/^BW_END_C/typedef struct bw_added { int a; } bw_added;\n&/'
try 1 assembly.h 's/^    BW_BELOW_SPACE,/& BW_BELOW_ADDED,/'
try 2 assembly.h 's/^    BW_BELOW_NOT_STATED,/& BW_BELOW_ADDED,/'
try 2 error.h 's/^    long line;.*/    long added; long line;/'
try 2 glaser.h 's/char reason\[160\]/char reason[161]/'
try 2 error.h 's/^    long line;.*/    unsigned long line;/'
try 2 assembly.h 's/bw_assembly_free(bw_assembly \*/bw_assembly_free(const bw_assembly */'

# --- as recorded

number=$(number_after "$record" "$work/now")
{ echo "abi $number" && cat "$work/now"; } >"$work/record"
if [ "$update" = update ]; then
    cp "$work/record" "$record"
    echo "abi: number $number"
    exit 0
fi
if ! diff -u "$record" "$work/record" >"$work/diff"; then
    head -20 "$work/diff"
    echo "FAIL: the interface is not the one recorded; sh tests/abi.sh . $cc build update"
    exit 1
fi
if [ -e "$build/src/libbothways.so" ] &&
    [ ! -e "$build/src/libbothways.so.$number" ]; then
    echo "FAIL: libbothways.so is not of the number $number"
    exit 1
fi
echo "abi: number $number, $(wc -l <"$work/now") facts as recorded"
