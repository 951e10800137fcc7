#!/bin/sh
# The commands of README.md, word for word, in a fresh root of this machine's
# distribution, where nothing but the least of it is installed, on a fresh clone
# of what is committed. Before it: what is said without sudo, without a network
# and while another holds the lock of the packages. Prints the seconds of the
# processor. Needs root, debootstrap, git, unshare and a network; skipped aloud
# where one is not there (exit status 77).
#   usage: fresh_root.sh [all]   (all: the command that runs every test, too)
# BOTHWAYS_BARE_ROOT: a folder that debootstrap made before, copied instead.
set -eu

project=$(cd "$(dirname "$0")/.." && pwd)
skip() {
    echo "skipped: $*"
    exit 77
}
[ "$(id -u)" -eq 0 ] || skip 'this is not root'
for tool in debootstrap git unshare perl; do
    command -v $tool >/dev/null || skip "no $tool"
done
# what is mounted is seen by this alone and goes with it
[ "${BOTHWAYS_APART:-}" ] ||
    exec unshare --mount --propagation private env BOTHWAYS_APART=1 sh "$0" "$@"

work=$(mktemp -d)
fresh=$work/root
holder=
clean() {
    [ -z "$holder" ] || kill "$holder" 2>/dev/null || true
    for folder in proc dev/pts dev/shm; do
        umount "$fresh/$folder" 2>/dev/null || true
    done
    rm -rf --one-file-system "$work"
}
trap clean EXIT
trap 'exit 1' HUP INT TERM

suite=$(. /etc/os-release && echo "${VERSION_CODENAME:-stable}")
if [ -n "${BOTHWAYS_BARE_ROOT:-}" ]; then
    cp -a "$BOTHWAYS_BARE_ROOT" "$fresh"
else
    debootstrap --variant=minbase "$suite" "$fresh" >"$work/log" 2>&1 || {
        tail -n 2 "$work/log"
        skip 'no fresh root was to be had'
    }
fi
# where this machine has its packages from serves the fresh root as well
cp -r /etc/apt/sources.list* /etc/apt/apt.conf.d "$fresh/etc/apt/" 2>/dev/null || true
cp /etc/resolv.conf "$fresh/etc/" 2>/dev/null || true
mount -t proc proc "$fresh/proc"
mount -t devpts -o newinstance,ptmxmode=0666 devpts "$fresh/dev/pts"
mount -t tmpfs tmpfs "$fresh/dev/shm"
ln -sf pts/ptmx "$fresh/dev/ptmx"
git clone -q "$project" "$fresh/srv/first"
cp -a "$fresh/srv/first" "$fresh/srv/again"
cp -a "$fresh/srv/first" "$fresh/srv/nobody"
chown -R 65534:65534 "$fresh/srv/nobody"
echo "a fresh root of $suite: $(chroot "$fresh" dpkg -l | grep -c '^ii') packages, no compiler"
for tool in cc cmake sudo; do
    ! chroot "$fresh" sh -c "command -v $tool" || { echo "not fresh: has $tool"; exit 1; }
done

# Those commands of README.md that are the whole of a fence of shell lines.
commands() {
    awk '$0 == "```sh" { on = 1; next } /^```/ { on = 0 } on && /^sh /' "$project/README.md"
}
first=$(commands | sed -n 1p)
every=$(commands | sed -n 2p)
case $first$every in
'sh src/run.sh '*'sh tests/run.sh') ;;
*) echo "README.md begins with other commands: $first; $every"; exit 1 ;;
esac

failures=0
fail() {
    failures=$((failures + 1))
    echo "FAILED: $*"
    tail -n 20 "$work/out" | sed 's/^/    /'
}

# within FOLDER COMMAND-LINE: in the fresh root, as in a new terminal; sets status
# and leaves the seconds in the file `times`
within() {
    status=0
    # shellcheck disable=SC2086
    sh -c 'times=$1; shift; "$@"; status=$?; times >"$times"; exit $status' sh \
        "$work/times" ${apart:-} chroot ${user:+--userspec="$user"} "$fresh" \
        env -i HOME=/tmp TERM=dumb LC_ALL=C.UTF-8 \
        PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin \
        sh -c "cd /srv/$1 && $2" >"$work/out" 2>&1 || status=$?
}
# refused LINES WORDS: the last run said so in one sentence, and ended with 3
refused() {
    [ $status -eq 3 ] && grep -qF "bothways is not built: $2" "$work/out" ||
        fail "exit $status instead of 3, or not said: $2"
    [ "$(wc -l <"$work/out")" -eq "$1" ] || fail "not $1 lines"
}
# timed LABEL FOLDER COMMAND-LINE
timed() {
    began=$(date +%s)
    within "$2" "$3"
    awk -v what="$1" -v clock=$(($(date +%s) - began)) 'NR == 2 {
        for (i = 1; i <= 2; i++) { split($i, part, "m"); s[i] = 60 * part[1] + part[2] }
        printf "  %s: %.1f s of the processor (%.1f user, %.1f system), %d s by the clock",
            what, s[1] + s[2], s[1], s[2], clock }' "$work/times"
    echo ", load $(cut -d' ' -f1 /proc/loadavg)"
}

needed='build-essential cmake pkg-config libxml2-dev'
user=65534:65534
within nobody "$first"
user=
refused 1 "ask an administrator of this machine for the packages: $needed"
apart='unshare --net'
within first "$first"
apart=
refused 2 "no network to install from: $needed" # after what it is about to do
[ ! -e "$fresh/srv/first/build" ] || fail 'something is left behind'
[ $failures -gt 0 ] ||
    echo 'neither root nor sudo, and no network: one sentence each, exit 3'

echo "\$ $first"
told() {
    [ $status -eq 1 ] && grep -q '^Verdict: fails' "$work/out" ||
        fail "exit $status, or no verdict"
}
timed 'packages and all' first "$first"
told
timed 'of it the project: build and run' again "$first"
told
timed 'a second time' again "$first"
told

# One that is not installed, while another holds the lock of the packages.
perl -e 'use Fcntl; open(my $file, ">", $ARGV[0]) or die;
    my $all = pack("s s x4 q q i x4", F_WRLCK, 0, 0, 0, 0);
    fcntl($file, F_SETLK, $all) or die;
    print "held\n"; close(STDOUT); sleep(600)' \
    "$fresh/var/lib/dpkg/lock-frontend" >"$work/held" &
holder=$!
until [ -s "$work/held" ]; do
    kill -0 $holder || exit 1
    sleep 1
done
another='BOTHWAYS_PACKAGES=hello BOTHWAYS_LOCK_WAIT=1 sh src/run.sh --version'
within again "BOTHWAYS_LOCK_TRIES=2 $another"
[ $status -eq 3 ] && grep -q 'another program holds the lock' "$work/out" ||
    fail "exit $status though the lock stays held"
: >"$work/out"
within again "$another" &
waiting=$!
tries=0
until grep -q 'waiting for it' "$work/out" || [ $tries -ge 300 ]; do
    sleep 1
    tries=$((tries + 1))
done
kill "$holder"
holder=
wait $waiting || true
grep -q 'waiting for it' "$work/out" && grep -q '^bothways [0-9]' "$work/out" ||
    fail 'the held lock is not waited for'
[ $failures -gt 0 ] || echo 'a held lock is waited for, and not for ever'

if [ "${1:-}" = all ]; then
    echo "\$ $every"
    timed 'the check package and all' first "$every"
    sed -n '/tests passed/p; /The following tests/,$p' "$work/out" | sed 's/^/  /'
    # what was left out for want of a tool, as each suite says it
    grep -ihE '^ *skipped|not (to be had|installed)' \
        "$fresh/srv/first/build/Testing/Temporary/LastTest.log" |
        sort -u | sed 's/^ */  /'
    [ $status -eq 0 ] || fail "exit $status"
    [ -z "${BOTHWAYS_KEEP_LOG:-}" ] || cp "$work/out" "$BOTHWAYS_KEEP_LOG"
fi
[ $failures -eq 0 ] || exit 1
echo 'all as the README says'
