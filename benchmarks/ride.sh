#!/bin/sh
# One run, one machine, one after the other: rides by SciPy on NumPy forces and by the library, compared at equal error.
# Usage: benchmarks/ride.sh [OUT] [SECONDS of flight]. Needs Python with NumPy and SciPy and the .NET SDK. Compare ratios, not times.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
out=${1:-$(mktemp -d)}
seconds=${2:-3}
python=${PYTHON:-python3}
export OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1
mkdir -p "$out"
dotnet build -c Release "$here/Lightkeel.Benchmarks" >"$out/build.log"
for round in 1 2; do
    "$python" "$here/peers/ride_error.py" --seconds "$seconds" --form plain --rounds 1 >"$out/scipy.plain.$round.jsonl"
    "$python" "$here/peers/ride_error.py" --seconds "$seconds" --form rows --rounds 1 >"$out/scipy.rows.$round.jsonl"
    dotnet run -c Release --no-build --project "$here/Lightkeel.Benchmarks" -- ride "$seconds" >"$out/library.$round.jsonl"
done
"$python" "$here/ride_ratio.py" "$out"/scipy.*.jsonl -- "$out"/library.*.jsonl | tee "$out/table.txt"
