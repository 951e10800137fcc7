# From the public headers, preprocessed with line marks, the C program that prints
# their binary interface: of every struct its size, of every field type, offset
# and size; of every constant its value; every other declaration as it stands.
# A line of the interface is complete in itself, so that lines can be compared.

function trim(s) {
    gsub(/[ \t]+/, " ", s)
    sub(/^ /, "", s)
    sub(/ $/, "", s)
    return s
}

function say(text) {
    gsub(/"/, "\\\"", text)
    print "    puts(\"" text "\");"
}

# One declaration of fields, "double low, high[3]".
function fields(of, text,    part, count, i, type, name) {
    count = split(text, part, ",")
    if (text ~ /\(/) {
        count = 1
        part[1] = text
    }
    for (i = 1; i <= count; i++) {
        name = part[i]
        if (text ~ /\(/) { # a pointer to a function
            sub(/^[^(]*\([ ]*\*[ ]*/, "", name)
            sub(/[^A-Za-z0-9_].*/, "", name)
            type = text
        } else {
            sub(/\[.*/, "", name)
            name = trim(name)
            if (i == 1) {
                type = name
                sub(/[A-Za-z0-9_]+$/, "", type)
            }
            sub(/.*[^A-Za-z0-9_]/, "", name)
        }
        printf "    FIELD(%s, %s, \"%s\");\n", of, name, trim(type)
    }
}

function record(text,    body, name, list, count, i) {
    body = name = text
    sub(/[^{]*\{/, "", body)
    sub(/\}[^}]*$/, "", body)
    sub(/.*\}/, "", name)
    name = trim(name)
    if (text ~ /^(typedef )?enum/) {
        count = split(body, list, ",")
        for (i = 1; i <= count; i++) {
            sub(/=.*/, "", list[i])
            if (trim(list[i]) != "")
                print "    CONSTANT(" trim(list[i]) ");"
        }
        return
    }
    if (name == "" || body ~ /[{]/) {
        print "#error a struct that abi.awk cannot read: " name
        return
    }
    print "    SIZE(" name ");"
    count = split(body, list, ";")
    for (i = 1; i <= count; i++)
        if (trim(list[i]) != "")
            fields(name, trim(list[i]))
}

function declaration(text) {
    gsub(/__attribute__ *\(\([^()]*(\([^()]*\))?[^()]*\)\)/, "", text)
    text = trim(text)
    if (text == "" || text == ";")
        return
    if (text ~ /\{/)
        record(substr(text, 1, length(text) - 1))
    else
        say(text)
}

BEGIN {
    print "#include <stddef.h>\n#include <stdio.h>\n"
    print "#include \"bothways/bothways.h\"\n"
    print "#define SIZE(t) printf(\"%s: %zu bytes\\n\", #t, sizeof(t))"
    print "#define FIELD(t, f, type) printf(\"%s.%s: %s, %zu bytes at %zu\\n\", \\"
    print "    #t, #f, type, sizeof(((t *)0)->f), offsetof(t, f))"
    print "#define CONSTANT(c) printf(\"%s = %d\\n\", #c, (int)(c))"
    print "int main(void)\n{"
}

/^#/ {
    ours = $0 ~ /"[^"]*bothways\/[a-z]*\.h"/
    next
}

ours {
    statement = statement " " $0
    line = $0
    depth += gsub(/\{/, "{", line) - gsub(/\}/, "}", line)
    if (depth == 0 && $0 ~ /;[ ]*$/) {
        declaration(statement)
        statement = ""
    }
}

END {
    print "    return 0;\n}"
}
