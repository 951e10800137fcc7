#!/bin/sh
# The array job of docs/scaling.md on a cluster of one node that this script
# makes and takes down again: joined the same bytes as one run; a task that is
# killed loses its shard alone; run again, only what is missing is done. By
# hand, as root, in a container or a machine of one's own: it starts munged,
# slurmctld and slurmd (packages slurm-wlm and munge) with settings of its own.
#   usage: slurm.sh PROGRAM SOURCE-FOLDER
set -u

for need in munged slurmctld slurmd sbatch scontrol; do
    command -v $need >/dev/null || {
        echo "skipped: no $need here (packages slurm-wlm and munge)"
        exit 0
    }
done
[ "$(id -u)" -eq 0 ] || { echo 'skipped: not root'; exit 0; }

program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
source=$(cd "$2" && pwd)
work=$(mktemp -d) || exit 1
started=
failures=0
fail() {
    failures=$((failures + 1))
    echo "FAILED: $*"
}
clean() {
    for pid in $started; do
        kill "$pid" 2>/dev/null
    done
    sleep 1
    rm -rf "$work"
}
trap clean EXIT

# ---- the cluster -------------------------------------------------------------

mkdir -p "$work/state" "$work/spool" "$work/munge"
chmod 755 "$work"
chown munge "$work/munge"
(umask 077 && head -c 1024 /dev/urandom >"$work/munge/key")
chown munge "$work/munge/key"
node=$(hostname -s)
cat >"$work/slurm.conf" <<END
ClusterName=one
SlurmctldHost=$node(127.0.0.1)
SlurmctldPort=26817
SlurmdPort=26818
AuthType=auth/munge
AuthInfo=socket=$work/munge/socket
SlurmUser=root
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool
SlurmctldPidFile=$work/ctld.pid
SlurmdPidFile=$work/slurmd.pid
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
JobAcctGatherType=jobacct_gather/none
AccountingStorageType=accounting_storage/none
SchedulerType=sched/backfill
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU_Memory
ReturnToService=2
MpiDefault=none
NodeName=$node NodeAddr=127.0.0.1 CPUs=$(nproc) RealMemory=2000 State=UNKNOWN
PartitionName=all Nodes=$node Default=YES MaxTime=INFINITE State=UP
END
export SLURM_CONF="$work/slurm.conf"
setpriv --reuid=munge --regid=munge --clear-groups munged --foreground \
    --socket="$work/munge/socket" --key-file="$work/munge/key" \
    --pid-file="$work/munge/pid" --log-file="$work/munge/log" \
    --seed-file="$work/munge/seed" >"$work/munged.out" 2>&1 &
started="$started $!"
sleep 2
slurmctld -D >"$work/ctld.out" 2>&1 &
started="$started $!"
slurmd -D -N "$node" >"$work/slurmd.out" 2>&1 &
started="$started $!"
tries=0
until sinfo --noheader --format=%T 2>/dev/null | grep -q idle; do
    tries=$((tries + 1))
    if [ $tries -gt 60 ]; then
        echo 'the cluster did not come up:'
        tail -n 5 "$work/munged.out" "$work/munge/log" "$work/ctld.out" \
            "$work/slurmd.out"
        sinfo
        exit 1
    fi
    sleep 1
done
sinfo --version
sinfo --noheader --format='%P %D node, %c processors, %T'

# ---- what docs/scaling.md has --------------------------------------------------

mkdir "$work/run" && cd "$work/run" || exit 1
cp -r "$source/assemblies" .
mkdir bin
ln -s "$program" bin/bothways
PATH=$PWD/bin:$PATH
export PATH
document=$source/docs/scaling.md
# the worker and the shards, as they stand there
sed -n '/^# 1\. shards/,/^chmod +x/p' "$document" >prepare
sed -n '/^shards=/,/^```/p' "$document" | grep -v '```' >array
mkdir stock
ls assemblies/*.xml >stock/list
sh -e prepare || fail 'the steps before'
ls stock/shard.??? >stock/shards
count=$(wc -l <stock/shards)
[ "$count" -gt 2 ] && [ -s array ] || fail 'the document has no such steps'

joined() {
    first=$(ls stock/shard.???.csv | head -n 1)
    head -n 1 "$first"
    for result in stock/shard.???.csv; do
        tail -n +2 "$result"
    done
}
submit() { # until all tasks have ended
    cat array >job
    sed -i 's/^sbatch /sbatch --parsable --wait /' job
    sh job >"$1" 2>&1
}
bothways check - --monthly-only --format csv --output at-once.csv <stock/list

echo "== $count tasks"
submit id || fail "a task failed: $(cat id)"
joined >joined.csv
cmp joined.csv at-once.csv && echo 'joined: the same bytes as one run'

echo '== one of them killed'
rm -f stock/*.csv
cp stock/one-shard worker
# the second waits, so that there is time to kill it
sed -i '2a case $1 in *001) sleep 300 ;; esac' stock/one-shard
submit id &
waiting=$!
tries=0
while [ "$(ls stock/shard.???.csv 2>/dev/null | wc -l)" -lt $((count - 1)) ] &&
    [ $tries -lt 300 ]; do
    tries=$((tries + 1))
    sleep 1
done
job=$(squeue --noheader --format=%A --states=RUNNING | head -n 1)
scancel --signal=KILL --full "$job"
wait $waiting && fail 'a killed task went unnoticed'
[ ! -e stock/shard.001.csv ] || fail 'the killed task left a result'
[ "$(ls stock/shard.???.csv | wc -l)" -eq $((count - 1)) ] ||
    fail 'other shards were lost'
echo "$(ls stock/shard.???.csv | wc -l) of $count results, the killed one without"

echo '== run again'
cp worker stock/one-shard
touch before
sleep 1
submit id || fail "a task failed: $(cat id)"
again=$(find stock -name 'shard.???.csv' -newer before | wc -l)
[ "$again" -eq 1 ] || fail "$again shards were computed again"
joined >joined.csv
cmp joined.csv at-once.csv && echo 'resumed: the same bytes as one run' ||
    fail 'not the same bytes'
echo "$failures failed"
[ $failures -eq 0 ]
