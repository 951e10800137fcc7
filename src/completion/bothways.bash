# bash completion of bothways. Written by src/completion/generate.sh
# from the command's own help; not to be edited.

_bothways_options() { # VERB
    case $1 in
    check) echo '--climate -f --format -o --output --tables --step --profile --materials --set --monthly-only --no-synthetic-hours --from-readings --no-advice --cells --tolerance --years --start-month --converge --date --threads --full -q --quiet --no-colour -h --help --version' ;;
    compare) echo '--climate -f --format -o --output --tables --step --profile --materials --set --monthly-only --no-synthetic-hours --cells --tolerance --years --start-month --equal --scale-layer --scale-studs --as-drawn --date --threads --full -q --quiet --no-colour -h --help --version' ;;
    margin) echo '--climate -f --format -o --output --tables --profile --materials --set --monthly-only --no-synthetic-hours --cells --tolerance --years --start-month --date --ensemble --threads --transient --full -q --quiet --no-colour -h --help --version' ;;
    choose) echo '--climate -f --format -o --output --tables --profile --materials --set --monthly-only --no-synthetic-hours --cells --tolerance --years --start-month --date --race --drawn --seed --wide --settled --resume --part --threads --full -q --quiet --no-colour -h --help --version' ;;
    audit) echo '--climate -f --format -o --output --tables --verify --step --profile --materials --set --monthly-only --no-synthetic-hours --date --plan --threads -q --quiet --no-colour -h --help --version' ;;
    junction) echo '--climate -f --format -o --output --tables --profile --materials --simulate --no-synthetic-hours --date --full -q --quiet --no-colour -h --help --version' ;;
    replay) echo '--climate -f --format -o --output --tables --materials --set --run-in --no-inputs --cells --tolerance --date --utc-offset --threads --full -q --quiet --no-colour -h --help --version' ;;
    import) echo '-o --output --materials --construction --permeance-unit -q --quiet -h --help --version' ;;
    climate) echo '-o --output --year --position --utc-offset -q --quiet -h --help --version' ;;
    materials) echo '-f --format -o --output --materials -q --quiet --no-colour -h --help --version' ;;
    esac
}

_bothways_value() { # VERB OPTION: the kind of its value; none of a flag
    case $* in
    'materials -f' | 'materials --format') echo 'words text csv json' ;;
    *' --climate') echo 'file' ;;
    *' -f' | *' --format') echo 'words text csv json html' ;;
    *' -o' | *' --output') echo 'file' ;;
    *' --tables') echo 'dir' ;;
    *' --step') echo 'text' ;;
    *' --profile') echo 'profile xml' ;;
    *' --materials') echo 'dir' ;;
    *' --set') echo 'text' ;;
    *' --cells') echo 'text' ;;
    *' --tolerance') echo 'text' ;;
    *' --years') echo 'text' ;;
    *' --start-month') echo 'text' ;;
    *' --date') echo 'text' ;;
    *' --threads') echo 'text' ;;
    *' --equal') echo 'words u thickness drawn' ;;
    *' --scale-layer') echo 'text' ;;
    *' --ensemble') echo 'text' ;;
    *' --race') echo 'text' ;;
    *' --drawn') echo 'text' ;;
    *' --seed') echo 'text' ;;
    *' --settled') echo 'text' ;;
    *' --resume') echo 'file' ;;
    *' --part') echo 'text' ;;
    *' --verify') echo 'text' ;;
    *' --run-in') echo 'text' ;;
    *' --utc-offset') echo 'text' ;;
    *' --construction') echo 'text' ;;
    *' --permeance-unit') echo 'text' ;;
    *' --year') echo 'text' ;;
    *' --position') echo 'text' ;;
    esac
}

_bothways_operand() { # VERB [WORD]: kinds of what may follow
    case $* in
    check | 'check '*) echo 'xml' ;;
    compare | 'compare '*) echo 'xml' ;;
    margin | 'margin '*) echo 'xml' ;;
    choose | 'choose '*) echo 'xml' ;;
    audit | 'audit '*) echo 'xml text' ;;
    junction | 'junction '*) echo 'xml' ;;
    replay | 'replay '*) echo 'xml' ;;
    import | 'import '*) echo 'xml' ;;
    climate | 'climate '*) echo 'text' ;;
    materials) echo 'name words list show search validate' ;;
    'materials list') echo 'text' ;;
    'materials show') echo 'name' ;;
    'materials search') echo 'text' ;;
    'materials validate') echo 'dir' ;;
    esac
}

_bothways_profiles='list default au-ncc ca-obc de-din4108 dk fr-2011 fr-2019 no se uk-nhbc us-irc'
_bothways_verbs='check compare margin choose audit junction replay import climate materials'

_bothways_offer() { # COMMAND WORD KIND...: adds what fits to COMPREPLY
    local command=$1 word=$2 list= line
    shift 2
    while [ $# -gt 0 ]; do
        case $1 in
        words)
            shift
            list="$list $*"
            break
            ;;
        profile) list="$list $_bothways_profiles" ;;
        name)
            list="$list $("$command" materials --format csv 2>/dev/null |
                sed -n 's/^\([a-z0-9-]*\),.*/\1/p' | sed 1d)"
            ;;
        file | xml | dir)
            compopt -o filenames 2>/dev/null
            while IFS= read -r line; do
                case $1:$line in
                file:* | xml:*.xml) ;;
                *) [ -d "${line/#\~/$HOME}" ] || continue ;;
                esac
                COMPREPLY+=("$line")
            done < <(compgen -f -- "$word")
            ;;
        esac
        shift
    done
    while IFS= read -r line; do
        COMPREPLY+=("$line")
    done < <(compgen -W "$list" -- "$word")
}

_bothways() {
    local command=${1/#\~/$HOME} word=${COMP_WORDS[COMP_CWORD]}
    local verb=${COMP_WORDS[1]} first= option= at text
    COMPREPLY=()
    if [ "$COMP_CWORD" -eq 1 ]; then
        _bothways_offer "$command" "$word" words \
            "$_bothways_verbs" --help -h --version
        return
    fi
    # What stands before the word: an option waiting for its value, or the
    # first operand. "--name=value" comes in three words.
    for ((at = 2; at < COMP_CWORD; at++)); do
        text=${COMP_WORDS[at]}
        if [ "$text" = = ]; then
            continue
        elif [ -n "$option" ]; then
            option=
        elif [[ $text == -* ]]; then
            [ -z "$(_bothways_value "$verb" "$text")" ] || option=$text
        elif [ -z "$first" ]; then
            first=$text
        fi
    done
    [ "$word" != = ] || word=
    # shellcheck disable=SC2046
    if [ -n "$option" ]; then
        _bothways_offer "$command" "$word" $(_bothways_value "$verb" "$option")
    elif [[ $word == -* ]]; then
        _bothways_offer "$command" "$word" words $(_bothways_options "$verb")
    else
        _bothways_offer "$command" "$word" \
            $(_bothways_operand "$verb" ${first:+"$first"})
    fi
}

complete -F _bothways bothways
