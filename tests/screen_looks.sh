# Read by screen.sh and field_walls.sh: what the screen of a check must be. They
# bring `fail SENTENCE`.

widest() {
    awk '{ if (length($0) > n) n = length($0) } END { print n + 0 }' "$1"
}

# The figure that decides, as printed, is that of a row with the same verdict.
has_row() { # TEXT TABLE
    awk -F, '
        NR == FNR {
            if ($0 ~ /^Verdict: / && verdict == "")
                verdict = substr($0, 10)
            text = text " " $0
            next
        }
        FNR == 1 {
            gsub(/ +/, " ", text)
            if (match(text, /: (not in )?[-0-9.e]+[^:]*, limit: at (most|least) [-0-9.e]+/)) {
                figure = substr(text, RSTART + 2, RLENGTH - 2)
                # "not in 10 years": the column is in months
                value = sub(/^not in /, "", figure) ? 12 * figure : figure + 0
                sub(/.* at (most|least) /, "", figure)
                limit = figure + 0
            }
        }
        # three digits are printed
        function near(a, b) { return (a - b) ^ 2 <= (0.006 * b) ^ 2 }
        $9 == verdict && $5 != "" && $7 != "" && near($5, value) &&
            near($7, limit) { found = 1 }
        END { exit !(figure == "" ? verdict == "not assessed" : found) }' "$1" "$2"
}

# one_screen NAME TEXT TABLE: of a check whose verdict.csv is TABLE
one_screen() {
    lines=$(wc -l <"$2")
    [ "$lines" -le 45 ] || fail "$1: $lines lines"
    [ "$(widest "$2")" -le 100 ] || fail "$1: a line too wide"
    first=$(grep -m 1 '^Verdict: ' "$2")
    case $(tail -n 1 "$2") in
    "$first ("*')') ;;
    *) fail "$1: the last line is not the verdict, '$first'" ;;
    esac
    has_row "$2" "$3" ||
        fail "$1: the figure that decides is in no row with its verdict"
}
