#!/usr/bin/env bash
# Kills ensembles, maps, captures and searches at random moments (kill -9), copies their archives while they are written, starts them again, and
# compares the document of each with that of a run nobody disturbed: nothing lost, nothing counted twice, the same bits.
# Usage: tests/scripts/kill-campaigns.sh [KILLS=50] [KINDS="ride map capture search"]   (build the program first; about 5 s per kill)
# Large ensembles: RIDES=10000 RIDE_SECONDS=1 SPAN=0.2 tests/scripts/kill-campaigns.sh 8 ride: killed within that share of the undisturbed time, so
# that several kills meet one ensemble; says the peak memory of every resumed run.
set -uo pipefail
kills=${1:-50}
rides=${RIDES:-40} seconds=${RIDE_SECONDS:-0.3} span=${SPAN:-1.1}
here=$(cd "$(dirname "$0")/../.." && pwd)
known="ride map capture"
[ -f "$here/designs/search/ring.toml" ] && known="$known search"
read -r -a kinds <<< "${2:-$known}"
program=${LIGHTKEEL:-"dotnet exec $here/src/Lightkeel.Cli/bin/Release/net10.0/lightkeel.dll"}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 1
cp -r "$here"/designs/* .
run() { # KIND, CASE, further options; another case is another question
  local kind=$1 case=$2
  shift 2
  case $kind in
    ride)
      ${watch:-} $program ride tern.toml --set "ride.duration=$seconds s" --set "noise.jitter.corner=20 Hz" --scatter "start.offset.y~normal(5 cm)" \
        --rides "$rides" --seed "$case" --threads 2 --json --quiet "$@"
      ;;
    map)
      ${watch:-} $program map tern-c.toml --set "beam.power=$((200 + case)) MW" --x "sail.canopy.half_angle=60 deg..80 deg:30" \
        --y "mass.bus.at.z=-8 m..0 m:30" --z "beam.waist=1.2 m..1.8 m:3" --threads 2 --json --quiet "$@"
      ;;
    capture)
      ${watch:-} $program capture tern.toml --set "beam.power=$((300 + case)) MW" --x "start.offset.x=-1.1 m..1.1 m:11" \
        --y "start.velocity.x=-9 m/s..9 m/s:11" --time "4 s" --threads 2 --json --quiet "$@"
      ;;
    search) ${watch:-} $program search search/ring.toml --seed "$case" --threads 2 --json --quiet "$@" ;;
    *) echo "ride, map, capture or search, not $kind" && exit 1 ;;
  esac
}
# A search names its archive in its document; all else must be the same bytes.
same() {
  local where='s/"archive(_reason)?": *(null|"[^"]*"),?//g'
  cmp -s <(sed -E "$where" expected.json) <(sed -E "$where" resumed.json)
}
killed=0 copies=0 case=0 wrong=0
declare -A of
while [ "$killed" -lt "$kills" ]; do
  kind=${kinds[$((case % ${#kinds[@]}))]}
  case=$((case + 1))
  archive=$kind.archive.sqlite
  begun=$(date +%s.%N)
  run "$kind" "$case" --no-archive > expected.json || { echo "the undisturbed run failed"; exit 1; }
  took=$(awk -v a="$begun" -v b="$(date +%s.%N)" 'BEGIN { print b - a }')
  for attempt in 1 2 3 4 5 6; do
    [ "$killed" -lt "$kills" ] || break
    run "$kind" "$case" --archive "$archive" > killed.json 2> killed.err &
    pid=$!
    # From before the archive is opened to about the last item.
    sleep "$(awk -v r="$RANDOM" -v t="$took" -v s="$span" 'BEGIN { printf "%.3f", t * s * (2 + 9 * r / 32768) / 11 }')"
    if [ $((killed % 5)) -eq 0 ] && [ -f "$archive" ]; then
      cp "$archive" copy.sqlite
      cp "$archive-wal" copy.sqlite-wal 2> /dev/null || rm -f copy.sqlite-wal
      copies=$((copies + 1))
      # A copy of a file that is being written may be useless, but must say so: in order (0) or refused (2), nothing else.
      $program archive verify copy.sqlite > copy.txt 2>&1
      code=$?
      [ "$code" -eq 0 ] || [ "$code" -eq 2 ] || { echo "copy: exit code $code"; cat copy.txt; wrong=$((wrong + 1)); }
      rm -f copy.sqlite*
    fi
    child=$(pgrep -P "$pid" | head -n 1)
    if [ -n "$child" ] && kill -9 "$child" 2> /dev/null; then
      killed=$((killed + 1))
      of[$kind]=$((${of[$kind]:-0} + 1))
    fi
    wait "$pid" 2> /dev/null
  done
  [ -x /usr/bin/time ] && watch="/usr/bin/time -o peak.txt -f %M"
  run "$kind" "$case" --archive "$archive" > resumed.json 2> resumed.err \
    || { echo "$kind $case: the resumed run failed"; cat resumed.err; wrong=$((wrong + 1)); }
  watch=
  same || { echo "$kind $case: the resumed result differs"; wrong=$((wrong + 1)); }
  $program archive verify "$archive" > verify.txt 2>&1 || { cat verify.txt; wrong=$((wrong + 1)); }
  echo "$kind $case (undisturbed $took s): $killed kills so far, $wrong wrong, $([ -f peak.txt ] && echo "peak $(cat peak.txt) kB")"
done
for kind in "${!of[@]}"; do
  echo "$kind: ${of[$kind]} kills"
  # Every campaign whole, no item stored twice: the sum of its pieces is its number of items.
  $program archive list "$kind.archive.sqlite" --json > list.json
  /usr/bin/env python3 - list.json << 'PY' || wrong=$((wrong + 1))
import json, sys
bad = 0
for c in json.load(open(sys.argv[1]))["results"]["campaigns"]:
    # A search may end before it has used up what it was allowed.
    whole = c["present"] == c["items"] or c["study"] == "search"
    if not whole or c["stored"] != c["present"]:
        print("  not once each:", c)
        bad = 1
sys.exit(bad)
PY
done
echo "$killed kills, $copies copies while writing, $wrong wrong"
[ "$wrong" -eq 0 ]
