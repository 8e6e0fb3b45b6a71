#!/bin/sh
# One run, one machine, one after the other: the 64 x 64 stability map of the peer cone by the library and by NumPy, and the
# atlas against quadrature. Usage: benchmarks/map.sh [OUT]. Needs Python with NumPy and the .NET SDK. Compare ratios, not times.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
out=${1:-$(mktemp -d)}
python=${PYTHON:-python3}
export OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1
mkdir -p "$out"
dotnet build -c Release "$here/Lightkeel.Benchmarks" >"$out/build.log"
for round in 1 2; do
    for form in plain folded batched; do
        "$python" "$here/peers/jacobian_numpy.py" --form "$form" >"$out/jacobian_numpy.$form.$round.json"
    done
    dotnet run -c Release --no-build --project "$here/Lightkeel.Benchmarks" -- map "$here/peers/cone.toml" >"$out/library.map.$round.txt"
done
grep -HE '"(map_s|stable_share)' "$out"/jacobian_numpy.*.json | sed "s|^$out/||"
cat "$out"/library.map.1.txt "$out"/library.map.2.txt
