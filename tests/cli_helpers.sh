# Helpers of the cli*.sh scripts, read by them with PROGRAM and SOURCE-FOLDER as
# their arguments: a folder of its own to work in, with the shipped walls.
set -u

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
unset BOTHWAYS_DATA
failures=0
wall=$source/assemblies/estuary-fibre.xml
cp -r "$source/assemblies" "$work" 2>/dev/null
cd "$work" || exit 1

fail() {
    failures=$((failures + 1))
    printf 'FAILED: %s\n' "$*"
    [ -s err ] && sed 's/^/    stderr: /' err
}

# run STATUS ARGUMENTS...: leaves out and err
run() {
    want=$1
    shift
    "$program" "$@" >out 2>err
    got=$?
    [ "$got" -eq "$want" ] || fail "exit $got instead of $want: bothways $*"
}

# run_any ARGUMENTS...: a verdict of any kind
run_any() {
    "$program" "$@" >out 2>err
    got=$?
    case $got in
    0 | 1 | 4) ;;
    *) fail "exit $got, a verdict's status was due: bothways $*" ;;
    esac
}

says() {
    grep -qF -e "$2" "$1" || fail "no '$2' in $1"
}

empty() {
    [ ! -s "$1" ] || fail "$1 is not empty"
}

silent_about() {
    if grep -qF -e "$2" "$1"; then
        fail "'$2' in $1"
    fi
}

# again WHAT: true, but for a build with sanitizers, to which it only shows the
# same simulation a further time, ten times as slow; there it says so
again() {
    [ -n "${BOTHWAYS_SANITIZED:-}" ] || return 0
    echo "left to the usual build: $*"
    return 1
}

# finish: the last command of a script
finish() {
    if [ "$failures" -gt 0 ]; then
        echo "$failures failed"
        exit 1
    fi
    echo 'all passed'
}
