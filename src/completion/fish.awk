# The table of generate.sh as a fish completion.

function quoted(text)
{
    gsub(/'/, "\\'", text)
    return "'" text "'"
}

function value_of(name, value)
{
    if (value == "-")
        return ""
    if (name == "--profile")
        return " -x -a \"$__bothways_profiles (__fish_complete_suffix .xml)\""
    if (value == "FILE")
        return " -r -F"
    if (value == "DIR")
        return " -x -a '(__fish_complete_directories)'"
    if (value ~ /\|/) {
        gsub(/\|/, " ", value)
        return " -x -a " quoted(value)
    }
    return " -x"
}

function of_kind(kind)
{
    if (kind == "XML")
        return "'(__fish_complete_suffix .xml)'"
    if (kind == "DIR")
        return "'(__fish_complete_directories)'"
    if (kind == "NAME")
        return "'(__bothways_materials)'"
    return ""
}

$1 == "verb" {
    line[++lines] = "complete -c bothways -n __bothways_first -a " $2 " -d " \
        quoted($3)
}

$1 == "option" {
    line[++lines] = "complete -c bothways -n '__bothways_verb " $2 "'" \
        ($3 == "-" ? "" : " -s " substr($3, 2)) " -l " substr($4, 3) \
        value_of($4, $5) " -d " quoted($6)
}

$1 == "operand" {
    if ($4 == "XML")
        when = "__bothways_verb " $2
    else if ($3 == "-")
        when = "__bothways_operand " $2
    else {
        line[++lines] = "complete -c bothways -n '__bothways_operand " $2 \
            "' -a " $3
        when = "__bothways_operand " $2 " " $3
    }
    if (of_kind($4) != "")
        line[++lines] = "complete -c bothways -n '" when "' -a " of_kind($4)
}

$1 == "profile" { profiles = profiles " " $2 }

END {
    print "# fish completion of bothways. Written by src/completion/generate.sh"
    print "# from the command's own help; not to be edited."
    print ""
    print "set -g __bothways_profiles '" substr(profiles, 2) "'"
    print ""
    print "function __bothways_first"
    print "    test (count (commandline -opc)) -eq 1"
    print "end\n"
    print "function __bothways_verb"
    print "    set -l words (commandline -opc)"
    print "    test (count $words) -gt 1; and test $words[2] = $argv[1]"
    print "end\n"
    print "# VERB [WORD]: these, and nothing else, stand before the cursor"
    print "function __bothways_operand"
    print "    set -l words (commandline -opc)[2..-1]"
    print "    test \"$words\" = \"$argv\""
    print "end\n"
    print "function __bothways_materials"
    print "    bothways materials --format csv 2>/dev/null |"
    print "        string match -r '^[^,]+' | tail -n +2"
    print "end\n"
    print "complete -c bothways -f"
    print "complete -c bothways -n __bothways_first -s h -l help" \
        " -d 'show the verbs'"
    print "complete -c bothways -n __bothways_first -l version" \
        " -d 'show the version'"
    for (i = 1; i <= lines; i++)
        print line[i]
}
