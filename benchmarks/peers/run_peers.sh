#!/bin/sh
# Runs every peer once, one after the other, and leaves one JSON file each in a folder: run_peers.sh OUT
# PYTHON and CXX choose the interpreter and the compiler.
set -eu
out=${1:?usage: run_peers.sh OUT}
here=$(cd "$(dirname "$0")" && pwd)
python=${PYTHON:-python3}
mkdir -p "$out"
"${CXX:-g++}" -std=c++17 -O3 -march=native -ffast-math "$here/cone.cpp" -o "$out/cone"
"$out/cone" "$here/cone_poses.csv" >"$out/cone.cpp.json"
for variant in plain blocked folded rows; do
    "$python" "$here/cone_numpy.py" --variant "$variant" >"$out/cone_numpy.$variant.json"
done
"$python" "$here/cone_numpy.py" --cold >"$out/cone_numpy.plain-cold.json"
"$python" "$here/ball_numpy.py" >"$out/ball_numpy.json"
"$python" "$here/well_scipy.py" >"$out/well_scipy.json"
for form in plain folded batched; do
    "$python" "$here/jacobian_numpy.py" --form "$form" >"$out/jacobian_numpy.$form.json"
done
for form in plain folded; do
    "$python" "$here/ride_scipy.py" --form "$form" >"$out/ride_scipy.$form.json"
done
grep -HE '"(ns_per_node_m|map_s|wall_s)' "$out"/*.json | sed "s|^$out/||"
