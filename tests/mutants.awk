# Lists the mutants of one C source for mutate.sh: file, line, column, old, new.
#   usage: awk -v file=NAME -f mutants.awk NAME
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
    # and what stands behind the code is a comment, which may go on
    while ((from = index(rest, "/*")) > 0) {
        to = index(substr(rest, from), "*/")
        comment = to == 0
        blank = to == 0 ? substr(rest, from) : substr(rest, from, to + 1)
        gsub(/./, "_", blank)
        rest = substr(rest, 1, from - 1) blank \
               substr(rest, from + length(blank))
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
}
