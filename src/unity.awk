# Sorts sources into groups that can be compiled as one file each: no two of a
# group define the same name, be it in a source or in a header that one of them
# sees. Prints "GROUP PATH", a line a source; a source that stands alone has its
# own group. Read by src/unity.cmake.
#   usage: awk -v most=LINES -f unity.awk SOURCE... HEADER...
# What defines a name is read off the text: an identifier outside of every brace
# and parenthesis that `(`, `[`, `=`, `;`, `,` or `{` follows, an enumerator, a
# macro. One too many costs a group more; one too few does not compile, which
# `.ci/run` would show.

FNR == 1 {
    file++
    path[file] = FILENAME
    name = FILENAME
    sub(/.*\//, "", name)
    is_header[file] = name ~ /\.h$/
    folder[file] = substr(FILENAME, 1, length(FILENAME) - length(name))
    if (is_header[file]) {
        header[name] = header[name] " " file
        at_path[FILENAME] = file
    }
    comment = continued = depth = parens = enumerators = 0
    before = ""
}

{ lines[file]++ }

/^#[ ]*define/ {
    match($0, /define[ ]+[A-Za-z_][A-Za-z_0-9]*/)
    split(substr($0, RSTART, RLENGTH), word, " ")
    add(word[2], file)
    # what shows more, or less, of the headers of the system
    if (word[2] ~ /^_/)
        alone[file] = 1
}

/^#[ ]*include "/ {
    split($0, word, "\"")
    sub(/.*\//, "", word[2])
    includes[file] = includes[file] " " word[2]
}

# promised, defined elsewhere
/^typedef (struct|union|enum) [A-Za-z_0-9]+ [A-Za-z_0-9]+;$/ { next }

/^#[ ]*undef/ { delete owner[file, $2] }

/^#/ || continued {
    continued = /\\$/
    next
}

# comments of whole lines, and behind the code; what stands between quotes
comment {
    if (!/\*\//)
        next
    sub(/^.*\*\//, "")
    comment = 0
}
{
    gsub(/\\./, "")
    gsub(/'[^']?'/, "0")
    gsub(/"[^"]*"/, "0")
    while (match($0, /\/\*/)) {
        from = RSTART
        rest = substr($0, from)
        if (match(rest, /\*\//))
            $0 = substr($0, 1, from - 1) " " substr(rest, RSTART + 2)
        else {
            $0 = substr($0, 1, from - 1)
            comment = 1
        }
    }
    # inside of a function or table nothing but its end matters
    if (depth > 0 && !enumerators && !/[{}]/)
        next
    rest = $0
    if (depth == 0 && parens == 0 && /^[A-Za-z]/)
        mine = 0
    while (match(rest, /[A-Za-z_][A-Za-z_0-9]*|[^A-Za-z_ \t0-9]|[0-9]+/)) {
        token = substr(rest, RSTART, RLENGTH)
        rest = substr(rest, RSTART + RLENGTH)
        if (token ~ /^[A-Za-z_]/) {
            if (depth == 0 && parens == 0) {
                if (token == "enum")
                    coming = 1
                if (token ~ /^(static|enum|typedef)$/)
                    mine = 1
            }
            before = token
            continue
        }
        if (before != "") {
            if (depth == 0 && parens == 0 && token ~ /^[(\[=;,{]$/) {
                # the call of a macro in capitals defines what it likes
                # and what all see may be declared as often as one likes
                if (before !~ /^(enum|struct|union|typedef|const)$|^__/ &&
                    (token != "(" || before !~ /^[A-Z_0-9]+$/))
                    add(before, mine || token == "{" ? file : "all")
            } else if (enumerators && depth == 1 && token ~ /^[=,}]$/)
                add(before, file)
        }
        before = ""
        if (token == "{") {
            if (depth == 0) {
                enumerators = coming
                # a tag; of a function, what it returns
                mine = 0
            }
            depth++
            coming = 0
        } else if (token == "}") {
            enumerators = --depth > 0 && enumerators
            mine = (depth == 0) # a type's name comes behind
        } else if (depth == 0 && token == "(")
            parens++
        else if (depth == 0 && token == ")")
            parens--
        else if (token == ";")
            coming = 0
    }
}

function add(what, whose)
{
    if (!((file, what) in owner)) {
        owner[file, what] = whose
        defines[file] = defines[file] " " what
    } else if (whose != "all")
        owner[file, what] = whose
}

# The source itself and every header of the project it sees.
function see(source, what,    list, i, k, n, found, m, beside)
{
    seen[source, what] = 1
    sees[source] = sees[source] " " what
    n = split(includes[what], list, " ")
    for (i = 1; i <= n; i++) {
        beside = folder[what] list[i]
        m = split(beside in at_path ? at_path[beside] : header[list[i]], found,
                  " ")
        for (k = 1; k <= m; k++)
            if (!((source, found[k]) in seen))
                see(source, found[k])
    }
}

# Whether the names of the source are free in the group, and there is room.
function fits(source, group,    list, word, i, k, n, m, at)
{
    if (full[group] || size[group] + lines[source] > most)
        return 0
    n = split(sees[source], list, " ")
    for (i = 1; i <= n; i++) {
        if ((group, list[i]) in within)
            continue
        m = split(defines[list[i]], word, " ")
        for (k = 1; k <= m; k++) {
            if (!((list[i], word[k]) in owner))
                continue
            at = group SUBSEP word[k]
            if (at in taken && taken[at] != owner[list[i], word[k]])
                return 0
        }
    }
    return 1
}

function put(source, group,    list, word, i, k, n, m)
{
    size[group] += lines[source]
    n = split(sees[source], list, " ")
    for (i = 1; i <= n; i++) {
        within[group, list[i]] = 1
        m = split(defines[list[i]], word, " ")
        for (k = 1; k <= m; k++)
            if ((list[i], word[k]) in owner)
                taken[group, word[k]] = owner[list[i], word[k]]
    }
    print "g" group, path[source]
}

END {
    for (s = 1; s <= file; s++) {
        if (is_header[s])
            continue
        see(s, s)
        for (group = 1; group <= groups; group++)
            if (!alone[s] && fits(s, group))
                break
        if (group > groups) {
            groups++
            full[groups] = alone[s]
        }
        put(s, group)
    }
}
