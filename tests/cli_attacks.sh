#!/bin/sh
# Twenty-two inputs and faults that once were answered wrongly, by name. Time and
# memory have wide bounds here; linear.sh counts the work.
#   usage: cli_attacks.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

cases=0
quietly="--monthly-only --no-advice"
memory=500000
if [ -n "${BOTHWAYS_SANITIZED:-}" ]; then
    echo 'memory is not bounded: a sanitizer maps more'
    memory=unlimited
fi

# a_case NUMBER TITLE STATUS WORDS ARGUMENTS...: exit status, and words on either
a_case() {
    cases=$((cases + 1))
    title="$1 $2"
    status=$3
    words=$4
    shift 4
    (ulimit -t 8 && ulimit -v "$memory" && exec "$program" "$@") >out 2>err <list
    got=$?
    [ $got -eq "$status" ] || fail "$title: exit $got instead of $status"
    cat out err >both
    grep -qF -e "$words" both || fail "$title: not said: $words"
}

many() { # TIMES TEXT
    awk -v n="$1" -v text="$2" 'BEGIN { for (i = 0; i < n; i++) printf "%s", text }'
}

cp -r assemblies/. .
w=estuary-fibre.xml
echo $w >list
cp -r "$source/tests/data/library" mine
before=$(cat $w mine/* list | cksum)
a_case 1 'the folder validated is written over' 2 'would be replaced' \
    materials validate mine -o mine/insulation.xml
a_case 2 'the list is written over' 2 'would be replaced' check - $quietly -o list
mkdir t
a_case 3 'the page and a table are one file' 2 'one of the tables' \
    check $w $quietly -f html -o t/verdict.csv --tables t
[ "$(cat $w mine/* list | cksum)" = "$before" ] || fail 'an input was replaced'
[ -z "$(ls t)" ] || fail "left in t: $(ls t)"

{ many 34000 '# remark: a number
' && cat climates/estuary.csv; } >remarks.csv
a_case 4 '480 kB of remarks' 2 'more than 65536 bytes in all' \
    check $w --climate remarks.csv $quietly
attributes=$(awk 'BEGIN { for (i = 0; i < 40000; i++) printf "a%d=\"1\" ", i }')
echo "<assembly xmlns=\"urn:bothways:assembly:1\" $attributes/>" >attributes.xml
a_case 5 '40,000 attributes' 2 'more than 128 attributes' check attributes.xml
for size in 2 9; do
    { printf '<assembly xmlns="urn:bothways:assembly:1" id="a" title="' &&
        many $((size * 200000)) 'word ' && echo '"/>'; } >title.xml
    a_case $((size == 2 ? 6 : 7)) "a title of $size MB" 2 \
        'an attribute is longer than 65536 bytes' check title.xml
done
n=8
for moisture in '900 %' '9 kg/kg'; do
    sed "s,material=\"brick-facing\",& initial-moisture=\"$moisture\"," $w >wet.xml
    a_case $n "brick with $moisture of water" 2 'initial-moisture="'"$moisture" check wet.xml
    n=$((n + 1))
done
a_case 10 'the same on the command line' 2 'takes at most' check $w $quietly \
    --set brick.initial-moisture='900 %'

for way in '-o big.json' ''; do
    cases=$((cases + 1))
    # shellcheck disable=SC2086
    (ulimit -f 1 && exec "$program" check $w $quietly -f json $way) >grown 2>err
    got=$?
    [ $got -eq 3 ] || fail "11, 12 a file that may not grow, '$way': exit $got"
    says err 'File too large'
    [ ! -e big.json ] || fail 'half a file'
done

strange=$(printf 'wand-\344.xml')
if cp $w "$strange" 2>/dev/null; then # not every file system takes such a name
    a_case 13 'a name that is not UTF-8, as text' 4 'wand-\xe4.xml' check "$strange" $quietly
    a_case 14 'in CSV' 4 'wand-\xe4.xml' audit "$strange" --monthly-only -f csv
    a_case 15 'in JSON' 4 'wand-\\xe4.xml' audit "$strange" --monthly-only -f json
    a_case 16 'on a page' 4 'wand-\xe4.xml' audit "$strange" --monthly-only -f html
    a_case 17 'in an error' 2 'wand-\xe4.xmlx: cannot open' check "${strange}x"
    for form in text csv json html; do
        run_any audit "$strange" --monthly-only -f $form
        iconv -f UTF-8 -t UTF-8 out >utf8 2>err || fail "$form is not UTF-8"
    done
    run_any audit "$strange" --monthly-only -o sheet
    run 0 audit --verify sheet
    run 0 audit --verify sheet.sha256
else
    cases=$((cases + 5))
fi

{ sed '/<outdoors/q' $w | sed '$d' && many 70000 '
' && sed -n '/<outdoors/,$p' $w | sed 's/<indoors/<indours/'; } >long.xml
a_case 18 'line 70,008' 2 "long.xml:$(grep -n '<indours' long.xml | cut -d: -f1): " \
    check long.xml

n=19
for text in '=1+1' '+1-555' '-2 m' '@SUM(A1)'; do
    sed "s,member=\"stud\",member=\"$text\"," $w >formula.xml
    a_case $n "a member $text in CSV" 4 ",'$text" audit formula.xml --monthly-only -f csv
    grep -E '(^|,)"?[=+@]' out >bare && fail "$text: a field that is computed"
    n=$((n + 1))
done
[ $cases -eq 22 ] || fail "$cases cases"
finish
