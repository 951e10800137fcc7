#!/bin/sh
# What a terminal gets: its width, bold type, the progress bar, and nothing that
# steers it.   usage: cli_terminal.sh PROGRAM SOURCE-FOLDER
. "$(dirname "$0")/cli_helpers.sh"

if ! script -qec true /dev/null >/dev/null 2>&1 </dev/null; then
    echo 'skipped: no program "script", or no pseudo-terminals to be had'
    finish
    exit
fi
escape=$(printf '\033')

# on_terminal COLUMNS COMMAND: leaves out, what the terminal got, and code
on_terminal() {
    columns=$1
    shift
    rm -f code
    TERM=xterm script -qec "stty cols $columns; $*; echo \$? >code" /dev/null \
        >out 2>err </dev/null
}

# widest COLUMNS FILE: no line of a report is wider
widest() {
    sed "s/$escape\[[01]m//g" "$2" | tr -d '\r' | awk -v most="$1" '
        length($0) > most { print; exit 1 }' ||
        fail "wider than $1 columns: $2"
}

check="'$program' check '$wall' --monthly-only"

# --- width: that of the window, from 60 to 120 columns
"$program" check "$wall" --monthly-only >plain 2>err
verdict=$?
for columns in 20 60 80 120 300; do
    case $columns in
    20 | 60) least=50 most=60 quiet=--quiet ;; # tables need more
    80) least=75 most=80 quiet= ;;
    *) least=110 most=120 quiet= ;;
    esac
    on_terminal $columns "$check $quiet 2>err"
    [ "$(cat code)" -eq $verdict ] || fail "$columns columns change the verdict"
    widest $most out
    sed "s/$escape\[[01]m//g" out | tr -d '\r' | awk -v least=$least '
        length($0) >= least { wide = 1 } END { exit !wide }' ||
        fail "$columns columns are not used"
done
# a terminal that does not tell its width gets the width of a file
on_terminal 0 "$check --no-colour 2>err"
tr -d '\r' <out | cmp - plain || fail 'a terminal of unknown width'
# a file is the same whatever the window it was written from
for verb in check audit margin; do
    flags=--monthly-only
    # shellcheck disable=SC2086
    "$program" $verb "$wall" $flags --output out.txt >out 2>err
    on_terminal 70 "'$program' $verb '$wall' $flags --output out.txt"
    mv out.txt narrow.txt
    # shellcheck disable=SC2086
    "$program" $verb "$wall" $flags --output out.txt >out 2>err
    cmp narrow.txt out.txt || fail "the window shapes the file of $verb"
done
run 0 materials list --output wide.txt
on_terminal 70 "'$program' materials list --output narrow.txt"
cmp narrow.txt wide.txt || fail 'the window shapes the list of materials'

# --- bold type: on a terminal, unless told otherwise
bold=$(printf '\033[1m')
on_terminal 80 "$check"
says out "$bold"
for plainer in 'NO_COLOR=1 |' 'TERM=dumb |' 'env -u TERM |' '|--no-colour' \
    '|--no-color'; do
    on_terminal 80 "${plainer%%|*} $check ${plainer#*|}"
    says out Verdict
    silent_about out "$bold"
done
for bolder in 'NO_COLOR=' 'TERM=dumb-emacs-ansi' 'TERM=dtterm'; do
    on_terminal 80 "$bolder $check"
    says out "$bold"
done
on_terminal 80 "$check --output saved.txt"
silent_about saved.txt "$escape"
on_terminal 80 "'$program' materials hemp-batt"
says out "$bold"
run 0 materials hemp-batt
silent_about out "$escape"

# --- progress bar: on standard error alone, where that is a terminal
# bars: the states of the bar one a line, without the time that is left
bars() {
    tr '\r' '\n' <out | sed 's/ %, about [0-9]* [a-z]* left *$/ %/' |
        grep '%$' >bars
}
on_terminal 80 "'$program' check '$wall' --output report.txt"
bars
grep -q '^estuary-fibre \[=*\.*\] *[0-9]* %$' bars || fail 'no progress bar'
awk '{ if ($(NF - 1) + 0 < last) exit 1; last = $(NF - 1) + 0 }' bars ||
    fail 'the progress bar goes back'
awk '{ bar = $2; percent = $(NF - 1)
       gsub(/[^=]/, "", bar)
       d = length(bar) - percent * 30 / 100
       if (d < 0 || d >= 1) exit 1 }' bars || fail 'bar and figure differ'
# wiped at the end: blanks over all of it, and the line is free again
tr '\r' '\n' <out | tail -n 2 | grep -q '^ *$' || fail 'the bar stays'
[ "$(tr '\r' '\n' <out | grep -c '^  *$')" -eq 1 ] || fail 'the bar is not wiped'
for quieter in --quiet '2>err'; do
    on_terminal 80 "'$program' margin '$wall' --monthly-only --output report.txt $quieter"
    [ ! -s out ] || fail "a progress bar in spite of $quieter"
done
run_any margin --monthly-only "$wall"
empty err
for verb in 'margin --monthly-only' audit \
    'compare assemblies/upland-open-outside.xml --as-drawn --monthly-only' \
    'check assemblies/upland-open-outside.xml --monthly-only'; do
    [ "$verb" != audit ] || again 'the bar of a simulated audit' || continue
    on_terminal 80 "'$program' $verb '$wall' --output report.txt"
    bars
    label=${verb%% *}
    [ "$label" != check ] || label=walls
    grep -q "^$label \[" bars || fail "no progress bar of $verb"
done

# a junction by the hour, with the time that is left; Ctrl-C leaves nothing
if again 'a junction by the hour, interrupted'; then
    echo old >target.txt
    for patience in 6 20 120; do # the next where it had not come far enough
        on_terminal 80 "timeout -s INT $patience '$program' junction \
            assemblies/junctions/upland-joist-end.xml --simulate --output target.txt \
            --tables folder"
        left=$(tr '\r' '\n' <out | grep -c ' %, about [0-9]* [a-z]* left *$')
        [ "$left" -eq 0 ] || break
    done
    [ "$left" -gt 0 ] || fail 'no time left'
    bars
    grep -q '^upland-joist-end \[' bars || fail 'no progress bar of a junction'
    tr '\r' '\n' <out | awk 'length($0) > 79 { exit 1 }' || fail 'a bar wider than the window'
    [ "$(cat target.txt)" = old ] || fail 'an interruption changed a file'
    [ -z "$(ls folder 2>/dev/null)" ] || fail 'an interruption left tables'
    [ -z "$(find . -name '.bothways-*')" ] || fail 'an interruption left a file behind'
fi

# a bar never is wider than the window: else every step scrolls it
sed 's/ id="estuary-fibre"/ id="a-name-of-a-wall-that-is-far-too-long-to-stand-before-a-bar"/
    s,climates/,assemblies/climates/,' "$wall" >long.xml
windows='50 79 200'
again 'a bar in windows of 79 and 200 columns' || windows=50
for columns in $windows; do
    on_terminal $columns "'$program' check long.xml --no-advice --output report.txt"
    bars
    grep -q '^a-name-of' bars || fail "no bar in $columns columns"
    tr '\r' '\n' <out | awk -v most=$((columns - 1)) '
        length($0) > most { exit 1 }' || fail "a bar wider than $columns columns"
    awk 'length($0) > 79 { exit 1 }' bars || fail 'a bar wider than 79 columns'
    # on a busy machine, of a run of five seconds, with the time that is left
    wiped=$(tr '\r' '\n' <out | awk '/\[/ && length($0) > bar { bar = length($0) }
        /^ +$/ { print (length($0) >= bar && length($0) <= bar + 20) }')
    [ "$wiped" = 1 ] || fail 'not all of the bar was wiped'
done
on_terminal 40 "'$program' check long.xml --no-advice --output report.txt"
empty out
on_terminal 41 "'$program' check long.xml --no-advice --output report.txt"
bars
grep -q '^a \[' bars || fail 'no bar in 41 columns'

# --- nothing steers the terminal: control characters of files and names
csi=$(printf '\302\233')
sed "s/ id=\"estuary-fibre\"/ id=\"bel${csi}2J\&#x7f;ow\"/
    s,climates/,assemblies/climates/," "$wall" >steering.xml
on_terminal 80 "'$program' check steering.xml --no-advice --output report.txt"
bars
grep -q '^bel?2J?ow \[' bars || fail 'the label of the bar is not clean'
silent_about out "$csi"
says report.txt 'bel?2J?ow'
silent_about report.txt "$csi"
name=$(printf 'bad\033[2J\n%s3J\177.xml' "$csi")
run 2 check "$name"
says err 'bothways: bad?[2J??3J?.xml: cannot open'
silent_about err "$escape"
[ "$(wc -l <err)" -eq 1 ] || fail 'a line feed of a name'
run 2 check "$wall" --output "nowhere/$name"
says err 'nowhere/bad?[2J??3J?.xml'
run 2 "${csi}check"
says err "unknown verb '?check'; did you mean check?"
run 2 check "--${csi}x" "$wall"
says err "unknown option '--?x' for check"
sed "s/material=\"hemp-batt\"/material=\"hemp${csi}-bat\"/" "$wall" >odd.xml
run 2 check odd.xml
says err "hemp?-bat"
silent_about err "$csi"
# the first byte of a control character, and no second one
lone=$(printf '\302')
run 2 check "$lone"
says err 'bothways: \xc2: cannot open this assembly file'
run 2 check "a${lone}z"
says err 'bothways: a\xc2z: cannot open this assembly file'
# letters beyond ASCII stay as they are
run 2 check 'Wände/é.xml'
says err 'bothways: Wände/é.xml: cannot open'

finish
