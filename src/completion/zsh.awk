# The table of generate.sh as a zsh completion.

function quoted(text)
{
    gsub(/'/, "'\\''", text)
    return text
}

function described(text)
{
    gsub(/\[/, "\\[", text)
    gsub(/\]/, "\\]", text)
    gsub(/:/, "\\:", text)
    return quoted(text)
}

function action(name, value)
{
    if (name == "--profile")
        return ":rule set:_bothways_rule_sets"
    if (value == "FILE")
        return ":file:_files"
    if (value == "DIR")
        return ":folder:_files -/"
    if (value ~ /\|/) {
        gsub(/\|/, " ", value)
        return ":" substr(name, 3) ":(" value ")"
    }
    return ":" value ": "
}

$1 == "verb" {
    verb[++verb_count] = $2
    summary[$2] = $3
    gsub(/:/, "\\:", summary[$2])
}

$1 == "option" {
    value = $5 == "-" ? "" : action($4, $5)
    often = $6 ~ /may be repeated/ ? "*" : ""
    equals = $5 == "-" ? "" : "="
    help = "'[" described($6) "]" value "'"
    if ($3 == "-")
        spec = "'" often "'" $4 equals help
    else
        spec = "'(" $3 " " $4 ")'{" $3 "," $4 equals "}" help
    sub(/^''/, "", spec)
    specs[$2] = specs[$2] "            " spec " \\\n"
}

$1 == "operand" {
    if ($4 == "XML")
        files[$2] = 1
    else if ($3 == "-")
        bare[$2] = 1
    else {
        words[$2] = words[$2] " " $3
        then[$2] = then[$2] "            " $3 ") " ( \
            $4 == "DIR" ? "_files -/" : \
            $4 == "NAME" ? "_bothways_materials" : \
            $4 == "-" ? "_message 'nothing more'" : "_message '" $4 "'") " ;;\n"
    }
}

$1 == "profile" { profiles = profiles " " $2 }

END {
    print "#compdef bothways"
    print "# zsh completion of bothways. Written by src/completion/generate.sh"
    print "# from the command's own help; not to be edited."
    print ""
    print "_bothways_materials() {"
    print "    local -a names"
    print "    names=(${${(f)\"$(_call_program materials " \
        "bothways materials --format csv)\"}%%,*})"
    print "    compadd -- ${names[2,-1]}"
    print "}\n"
    print "_bothways_rule_sets() {"
    print "    compadd --" profiles
    print "    _files -g \"*.xml\""
    print "}\n"
    for (i = 1; i <= verb_count; i++) {
        v = verb[i]
        if (words[v] == "")
            continue
        print "_bothways_" v "_operand() {"
        print "    if (( CURRENT == 1 )); then"
        print "        compadd --" words[v]
        if (v in bare)
            print "        _bothways_materials"
        print "    else"
        print "        case $words[1] in"
        printf "%s", then[v]
        print "        esac"
        print "    fi"
        print "}\n"
    }
    print "_bothways() {"
    print "    local curcontext=$curcontext verb"
    print "    local -a verbs"
    print "    verbs=("
    for (i = 1; i <= verb_count; i++)
        print "        '" verb[i] ":" quoted(summary[verb[i]]) "'"
    print "    )"
    print "    if (( CURRENT == 2 )); then"
    print "        _describe verb verbs"
    print "        compadd -- --help -h --version"
    print "        return"
    print "    fi"
    print "    verb=$words[2]"
    print "    shift words"
    print "    (( CURRENT-- ))"
    print "    case $verb in"
    for (i = 1; i <= verb_count; i++) {
        v = verb[i]
        print "    " v ")"
        print "        _arguments -S \\"
        printf "%s", specs[v]
        if (v in files)
            print "            '*:file:_files -g \"*.xml\"'"
        else
            print "            '*::operand:_bothways_" v "_operand'"
        print "        ;;"
    }
    print "    esac"
    print "}\n"
    print "_bothways \"$@\""
}
