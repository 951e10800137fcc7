#!/bin/sh
# Writes the completion of one shell, or the manual page anew, from the command's
# own help, so that the command's tables stay the only list of verbs and options.
# usage: generate.sh PROGRAM bash|zsh|fish|man
#
# In between stands a table, its fields parted by tabs; "-" is an empty field:
#     verb     VERB  SUMMARY
#     option   VERB  LETTER  NAME  VALUE  HELP
#     usage    VERB  OPERANDS         as the help has them
#     operand  VERB  WORD    KIND     WORD is typed first; KIND follows it
#     profile  NAME
# VALUE is a word in capitals (FILE, DIR, NAME ...) or the words to choose
# from, as in text|csv|html.
set -eu

program=$1
shell=$2
here=$(dirname "$0")

verbs() {
    "$program" --help | awk -v OFS='\t' '
        $1 ~ /^[a-z]+$/ && /^  [a-z]/ {
            verb = $1
            sub(/^ +[a-z]+ +/, "")
            print "verb", verb, $0
        }'
}

# Help of one verb on standard input.
verb_rows() {
    awk -v OFS='\t' -v verb="$1" '
        function operand(text,    word, kind) {
            gsub(/[][.]+$|^[][]/, "", text)
            word = text ~ /^[a-z]/ ? text : "-"
            sub(/ .*/, "", word)
            kind = text
            sub(/^[a-z]+ */, "", kind)
            if (kind ~ /\.xml/)
                kind = "XML"
            print "operand", verb, word, kind == "" ? "-" : kind
        }
        /^usage: / {
            sub(/^.*\[options\] /, "")
            usage = $0
            gsub(/[][]/, "")
            count = split($0, part, / *\| */)
            for (i = 1; i <= count; i++)
                operand(part[i])
        }
        /^Options:/ { listed = 1 }
        listed && $1 ~ /^-/ {
            letter = "-"
            if ($1 ~ /^-.,$/) {
                letter = substr($1, 1, 2)
                sub(/^ *-., /, "")
            }
            name = $1
            sub(/^ *[^ ]+/, "")
            value = "-"
            if ($0 ~ /^ [^ ]/) { # a flag has more room before its help
                value = $1
                sub(/^ *[^ ]+/, "")
            }
            sub(/^ +/, "")
            print "option", verb, letter, name, value, $0
        }
        END { print "usage", verb, usage }'
}

profiles() {
    "$program" "$1" --profile list |
        sed -n 's/^\([a-z0-9-]*\) - .*/profile	\1/p'
}

table() {
    verbs
    verbs | while read -r _ verb _; do
        "$program" "$verb" --help </dev/null | verb_rows "$verb"
    done
    printf 'profile\tlist\n'
    profiles check
}

BW_HERE=$here
export BW_HERE
table | awk -F '\t' -f "$here/$shell.awk"
