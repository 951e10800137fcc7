# The table of generate.sh as a bash completion.

function kind_of(name, value)
{
    if (name == "--profile")
        return "profile xml"
    if (value == "FILE" || value == "DIR")
        return tolower(value)
    if (value ~ /\|/) {
        gsub(/\|/, " ", value)
        return "words " value
    }
    return "text"
}

# One line of _bothways_value; the option stands between `before` and `behind`.
function value_case(before, behind)
{
    return "    " ($3 == "-" ? "" : before $3 behind " | ") \
        before $4 behind ") echo '" kind_of($4, $5) "' ;;\n"
}

$1 == "verb" { verbs = verbs " " $2; verb[++verb_count] = $2 }

$1 == "option" {
    options[$2] = options[$2] " " ($3 == "-" ? "" : $3 " ") $4
    if ($5 != "-" && !($4 in seen)) {
        seen[$4] = $5
        values = values value_case("*' ", "'")
    } else if ($5 != "-" && seen[$4] != $5)
        own = own value_case("'" $2 " ", "'")
}

$1 == "operand" {
    kind = $4 == "XML" ? "xml" : $4 == "DIR" ? "dir" : $4 == "NAME" ? "name" : \
        "text"
    if ($3 == "-")
        alone[$2] = alone[$2] " " kind
    else {
        words[$2] = words[$2] " " $3
        after = after "    '" $2 " " $3 "') echo '" kind "' ;;\n"
    }
}

$1 == "profile" { profiles = profiles " " $2 }

END {
    print "# bash completion of bothways. Written by src/completion/generate.sh"
    print "# from the command's own help; not to be edited."
    print ""
    print "_bothways_options() { # VERB"
    print "    case $1 in"
    for (i = 1; i <= verb_count; i++)
        print "    " verb[i] ") echo '" substr(options[verb[i]], 2) "' ;;"
    print "    esac\n}\n"
    print "_bothways_value() { # VERB OPTION: the kind of its value; none of a flag"
    print "    case $* in"
    printf "%s%s", own, values
    print "    esac\n}\n"
    print "_bothways_operand() { # VERB [WORD]: kinds of what may follow"
    print "    case $* in"
    for (i = 1; i <= verb_count; i++) {
        v = verb[i]
        if (words[v] == "")
            print "    " v " | '" v " '*) echo '" substr(alone[v], 2) "' ;;"
        else
            print "    " v ") echo '" substr(alone[v], 2) " words" words[v] "' ;;"
    }
    printf "%s", after
    print "    esac\n}\n"
    print "_bothways_profiles='" substr(profiles, 2) "'"
    print "_bothways_verbs='" substr(verbs, 2) "'"
    print ""
    while ((getline line < (ENVIRON["BW_HERE"] "/bash.tail")) > 0)
        print line
}
