#!/usr/bin/env bash
# A Slurm of three virtual nodes on this host, everything on loopback, for trying campaigns out. Needs root and the packages
# slurmctld, slurmd, slurm-client and munge of Debian 12 (Slurm 22.05). Not a cluster for work.
# Usage: slurm-cluster.sh start DIR   prints "ready", or the reason why Slurm cannot start (exit code 1)
#        slurm-cluster.sh stop DIR    ends the daemons that start began, and no others
# Then: SLURM_CONF=DIR/slurm.conf sbatch ...
set -uo pipefail
folder=$(mkdir -p "$2" && cd "$2" && pwd) || exit 1

fail() {
  echo "$1"
  "$0" stop "$folder"
  exit 1
}

configure() {
  local host port
  host=$(hostname -s)
  port=$((20000 + RANDOM % 20000))
  cat > "$folder/slurm.conf" << CONF
ClusterName=trial
SlurmctldHost=$host(127.0.0.1)
SlurmctldPort=$port
CommunicationParameters=NoInAddrAny,NoCtldInAddrAny
AuthInfo=socket=$folder/munge.socket,cred_expire=5
SlurmUser=root
SlurmdUser=root
StateSaveLocation=$folder/state
SlurmdSpoolDir=$folder/spool-%n
SlurmdPidFile=$folder/slurmd-%n.pid
SlurmctldPidFile=$folder/slurmctld.pid
SlurmdLogFile=$folder/slurmd-%n.log
SlurmctldLogFile=$folder/slurmctld.log
SlurmdParameters=config_overrides
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
AccountingStorageType=accounting_storage/none
JobAcctGatherType=jobacct_gather/none
MpiDefault=none
SwitchType=switch/none
JobRequeue=1
ReturnToService=2
SlurmdTimeout=30
MessageTimeout=20
KillWait=2
MinJobAge=600
SchedulerParameters=batch_sched_delay=0,sched_min_interval=0,sched_interval=1,bf_interval=5
NodeName=n[1-3] NodeHostname=$host NodeAddr=127.0.0.1 Port=[$((port + 1))-$((port + 3))] CPUs=1 State=UNKNOWN
PartitionName=trial Nodes=n[1-3] Default=YES MaxTime=INFINITE State=UP
CONF
}

start() {
  for program in munged slurmctld slurmd sbatch scontrol; do
    command -v "$program" > /dev/null || fail "Slurm cannot start: $program is not installed"
  done
  [ "$(id -u)" -eq 0 ] || fail "Slurm cannot start: its daemons need root here"
  chmod 755 "$folder"
  mkdir -p "$folder/state" "$folder/munge"
  chmod 711 "$folder/munge"
  dd if=/dev/urandom of="$folder/munge.key" bs=128 count=1 2> /dev/null && chmod 400 "$folder/munge.key"
  munged --socket="$folder/munge.socket" --key-file="$folder/munge.key" --pid-file="$folder/munge/munged.pid" \
    --log-file="$folder/munge/munged.log" --seed-file="$folder/munge/seed" --force > "$folder/munged.out" 2>&1 \
    || fail "Slurm cannot start: munged says $(tail -n 1 "$folder/munged.out")"
  configure
  export SLURM_CONF="$folder/slurm.conf"
  slurmctld -f "$SLURM_CONF" > "$folder/slurmctld.out" 2>&1 \
    || fail "Slurm cannot start: slurmctld says $(tail -n 1 "$folder/slurmctld.out")"
  for node in n1 n2 n3; do
    slurmd -f "$SLURM_CONF" -N "$node" > "$folder/$node.out" 2>&1 || fail "Slurm cannot start: slurmd says $(tail -n 1 "$folder/$node.out")"
  done
  for _ in $(seq 120); do
    [ "$(sinfo -h -t idle -o %D 2> /dev/null)" = 3 ] && echo "ready" && exit 0
    sleep 0.5
  done
  fail "Slurm cannot start: its nodes did not come up within a minute"
}

# A daemon that ended may stay a zombie for a while: its state tells.
lives() {
  [ -r "/proc/$1/stat" ] && [ "$(sed 's/.*) //; s/ .*//' "/proc/$1/stat" 2> /dev/null)" != Z ]
}

stop() {
  local pids=() pid
  for file in "$folder"/slurmd-*.pid "$folder/slurmctld.pid" "$folder/munge/munged.pid"; do
    [ -s "$file" ] && pids+=("$(cat "$file")")
  done
  for pid in "${pids[@]}"; do kill "$pid" 2> /dev/null; done
  for pid in "${pids[@]}"; do
    for _ in $(seq 100); do
      lives "$pid" || break
      sleep 0.1
    done
  done
  exit 0
}

case $1 in
  start) start ;;
  stop) stop ;;
  *) echo "start or stop?" && exit 1 ;;
esac
