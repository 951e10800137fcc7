#!/bin/sh
# The set-up on machines that lack something: no sudo, a held lock, no network.
# id, sudo, apt-get, cmake and pkg-config are played by scripts; nothing is
# installed and nothing built.
#   usage: setup.sh SOURCE-FOLDER
set -u

source=$(cd "$1" && pwd)
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
failures=0
mkdir "$work/src" "$work/bin"
cp "$source/src/setup.sh" "$work/src"
for tool in sh env dirname mktemp rm grep sed cat sleep nproc cc make; do
    path=$(command -v "$tool") && ln -s "$path" "$work/bin/$tool"
done

play() { # NAME LINE...: a program of these lines
    name=$1
    shift
    rm -f "$work/bin/$name"
    { echo '#!/bin/sh' && printf '%s\n' "$@"; } >"$work/bin/$name"
    chmod +x "$work/bin/$name"
}

# expect STATUS WORDS: of a run of the set-up for the command alone
expect() {
    env -i PATH="$work/bin" HOME="$work" TMPDIR="$work" BOTHWAYS_TARGET=bothways \
        BOTHWAYS_LOCK_WAIT=0 BOTHWAYS_LOCK_TRIES=5 \
        sh "$work/src/setup.sh" build >"$work/out" 2>"$work/err"
    got=$?
    cat "$work/out" "$work/err" >"$work/all"
    if [ $got -ne "$1" ] || ! grep -qF -e "$2" "$work/all"; then
        failures=$((failures + 1))
        echo "FAILED: exit $got instead of $1, or not said: $2"
        sed 's/^/    /' "$work/all"
    fi
}

play id 'echo 1000'
play cmake 'echo "$@" >>"$0.said"; exit 0'
play pkg-config 'exit 1' # libxml2-dev is missing
expect 3 'bothways is not built: ask an administrator of this machine for the packages: libxml2-dev'
[ "$(wc -l <"$work/err")" -eq 1 ] || { failures=$((failures + 1)); echo 'FAILED: more than a sentence'; }

play sudo 'exec "$@"'
expect 3 'no apt-get here; install with what this system has: libxml2-dev'

play apt-get 'echo "E: Failed to fetch: Temporary failure resolving the host" >&2; exit 100'
expect 3 'bothways is not built: no network to install from: libxml2-dev'
[ "$(wc -l <"$work/err")" -eq 1 ] || { failures=$((failures + 1)); echo 'FAILED: more than a sentence'; }

# a lock that is held for a while, and for ever
play apt-get 'n=$(cat "$0.n" 2>/dev/null || echo 0)' 'echo $((n + 1)) >"$0.n"' \
    'if [ "$n" -lt 3 ]; then' \
    'echo "E: Could not get lock /var/lib/dpkg/lock-frontend" >&2; exit 100; fi'
expect 0 'Another program installs packages just now; waiting for it'
[ "$(grep -c waiting "$work/out")" -eq 1 ] || { failures=$((failures + 1)); echo 'FAILED: told more than once'; }
play apt-get 'echo "E: Unable to acquire the dpkg frontend lock" >&2; exit 100'
expect 3 'another program holds the lock of the packages'

play apt-get 'echo "E: Unable to locate package libxml2-dev" >&2; exit 100'
expect 3 'these packages could not be installed: libxml2-dev'

# nothing missing: nobody is asked for anything, and no test is prepared
play pkg-config 'exit 0'
play apt-get 'echo asked; exit 1'
rm -f "$work/bin/cmake.said"
expect 0 'Preparing the build'
grep -q 'BOTHWAYS_TESTS=OFF' "$work/bin/cmake.said" ||
    { failures=$((failures + 1)); echo 'FAILED: tests are prepared'; }
grep -q -- '--target bothways' "$work/bin/cmake.said" ||
    { failures=$((failures + 1)); echo 'FAILED: more than the command is built'; }
[ $failures -eq 0 ] || exit 1
echo 'all passed'
