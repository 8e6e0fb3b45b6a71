#!/usr/bin/env bash
# Kills ensembles at random moments (kill -9), copies their archives while they are written, starts them again, and compares
# the document of each with that of a run nobody disturbed: nothing lost, nothing counted twice, the same bits.
# Usage: tests/scripts/kill-campaigns.sh [KILLS=50]   (build the program first; about 4 s per kill)
# Large ensembles: RIDES=10000 RIDE_SECONDS=1 SPAN=0.2 tests/scripts/kill-campaigns.sh 8: killed within that share of the undisturbed time, so that
# several kills meet one ensemble; says the peak memory of every resumed run.
set -uo pipefail
kills=${1:-50}
rides=${RIDES:-60} seconds=${RIDE_SECONDS:-0.5} span=${SPAN:-1.1}
here=$(cd "$(dirname "$0")/../.." && pwd)
program=${LIGHTKEEL:-"dotnet exec $here/src/Lightkeel.Cli/bin/Release/net10.0/lightkeel.dll"}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
cp "$here/designs/tern.toml" tern.toml
ride() { # SEED, further options
  local seed=$1
  shift
  ${watch:-} $program ride tern.toml --set "ride.duration=$seconds s" --set "noise.jitter.corner=20 Hz" --scatter "start.offset.y~normal(5 cm)" \
    --rides $rides --threads 2 --seed "$seed" --json --quiet "$@"
}
killed=0 copies=0 seed=0 wrong=0
while [ "$killed" -lt "$kills" ]; do
  seed=$((seed + 1))
  begun=$(date +%s.%N)
  ride "$seed" --no-archive > expected.json || { echo "the undisturbed run failed"; exit 1; }
  took=$(awk -v a="$begun" -v b="$(date +%s.%N)" 'BEGIN { print b - a }')
  for attempt in 1 2 3 4 5 6 7 8; do
    [ "$killed" -lt "$kills" ] || break
    ride "$seed" > killed.json 2> killed.err &
    pid=$!
    # From before the archive is opened to about the last ride.
    sleep "$(awk -v r="$RANDOM" -v t="$took" -v s="$span" 'BEGIN { printf "%.3f", t * s * (2 + 9 * r / 32768) / 11 }')"
    if [ $((killed % 5)) -eq 0 ] && [ -f tern.archive.sqlite ]; then
      cp tern.archive.sqlite copy.sqlite
      cp tern.archive.sqlite-wal copy.sqlite-wal 2> /dev/null || rm -f copy.sqlite-wal
      copies=$((copies + 1))
      # A copy of a file that is being written may be useless, but must say so: in order (0) or refused (2), nothing else.
      $program archive verify copy.sqlite > copy.txt 2>&1
      code=$?
      [ "$code" -eq 0 ] || [ "$code" -eq 2 ] || { echo "copy: exit code $code"; cat copy.txt; wrong=$((wrong + 1)); }
      rm -f copy.sqlite*
    fi
    child=$(pgrep -P "$pid" | head -n 1)
    [ -n "$child" ] && kill -9 "$child" 2> /dev/null && killed=$((killed + 1))
    wait "$pid" 2> /dev/null
  done
  [ -x /usr/bin/time ] && watch="/usr/bin/time -o peak.txt -f %M"
  ride "$seed" > resumed.json 2> resumed.err || { echo "seed $seed: the resumed run failed"; cat resumed.err; wrong=$((wrong + 1)); }
  watch=
  cmp -s expected.json resumed.json || { echo "seed $seed: the resumed result differs"; wrong=$((wrong + 1)); }
  $program archive verify tern.archive.sqlite > verify.txt 2>&1 || { cat verify.txt; wrong=$((wrong + 1)); }
  echo "seed $seed: $killed kills so far, $wrong wrong, $([ -f peak.txt ] && echo "peak $(cat peak.txt) kB")"
done
$program archive list tern.archive.sqlite
echo "$killed kills, $copies copies while writing, $wrong wrong"
[ "$wrong" -eq 0 ]
