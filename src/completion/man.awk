# The table of generate.sh as the lists of the manual page: synopsis, verbs and
# options. What the page says below an item stays; below a new one stands what
# the help says.

function sentence(text)
{
    return toupper(substr(text, 1, 1)) substr(text, 2) ".\n"
}

# "[list | show NAME]" with its macros.
function operands(text,    out, part, count, i, macro, last)
{
    out = text ~ /^\[/ ? ".Op" : ""
    gsub(/[][]/, "", text)
    count = split(text, part, " ")
    for (i = 1; i <= count; i++) {
        macro = part[i] ~ /^[a-z]/ ? "Cm" : part[i] == "|" ? "" : "Ar"
        if (macro != "" && macro != last)
            out = out (out == "" ? "." : " ") macro
        out = out " " part[i]
        last = macro
    }
    return out "\n"
}

function item(list, line, help)
{
    if ((list, line) in says)
        return
    says[list, line] = sentence(help)
    items[list, ++count_of[list]] = line
}

$1 == "verb" { summary[$2] = $3 }

$1 == "usage" {
    synopsis = synopsis ".Nm\n.Cm " $2 "\n" options[$2] operands($3)
    line = operands($3)
    sub(/\n/, "", line)
    item("DESCRIPTION", ".It Cm " $2 (line ~ /^\.Op/ ? "" : " " substr(line, 2)), \
        summary[$2])
}

$1 == "option" {
    name = "Fl " substr($4, 2) ($5 == "-" ? "" : " Ar " $5)
    options[$2] = options[$2] ".Op " name "\n"
    line = ".It " ($3 == "-" ? "" : "Fl " substr($3, 2) " , ") name
    if ($4 == "--help" || $4 == "--version")
        at_last[$4] = line SUBSEP $6 # every verb has them: behind all others
    else
        item("OPTIONS", line, $6)
}

END {
    for (i = 1; i <= 2; i++) {
        split(at_last[i == 1 ? "--help" : "--version"], part, SUBSEP)
        item("OPTIONS", part[1], part[2])
    }
    page = ENVIRON["BW_HERE"] "/../../docs/bothways.1"
    while ((getline line < page) > 0) {
        if (line ~ /^\.Sh /)
            section = substr(line, 5)
        if (section == "SYNOPSIS" && line !~ /^\.Sh /)
            continue
        if (line == ".El" && section in count_of)
            for (i = 1; i <= count_of[section]; i++)
                printf "%s\n%s", items[section, i], says[section, items[section, i]]
        if (line ~ /^\.(Sh|El|Bl)/)
            kept = ""
        else if (line ~ /^\.It / && section in count_of) {
            kept = line
            if ((section, line) in says)
                says[section, line] = ""
        }
        if (kept != "") {
            if (kept != line && (section, kept) in says)
                says[section, kept] = says[section, kept] line "\n"
            continue
        }
        print line
        if (line == ".Sh SYNOPSIS")
            printf "%s", synopsis
    }
}
