#!/bin/sh
# One run, one machine, one after the other: the light-pressure kernel and the peers on the same cone.
# Usage: benchmarks/paired.sh [OUT]. Needs g++, Python with NumPy, the .NET SDK. Compare ratios, not times.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
out=${1:-$(mktemp -d)}
python=${PYTHON:-python3}
mkdir -p "$out"
"${CXX:-g++}" -std=c++17 -O3 -march=native -ffast-math "$here/peers/cone.cpp" -o "$out/cone"
dotnet build -c Release "$here/Lightkeel.Benchmarks" >"$out/build.log"
for round in 1 2; do
    "$out/cone" "$here/peers/cone_poses.csv" >"$out/cone.cpp.$round.json"
    for variant in plain blocked folded rows; do
        "$python" "$here/peers/cone_numpy.py" --variant "$variant" >"$out/cone_numpy.$variant.$round.json"
    done
    dotnet run -c Release --no-build --project "$here/Lightkeel.Benchmarks" -- paired >"$out/library.$round.txt"
done
grep -H '"ns_per_node_m' "$out"/*.json | sed "s|^$out/||"
cat "$out"/library.1.txt "$out"/library.2.txt
