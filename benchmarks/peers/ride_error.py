#!/usr/bin/env python3
"""Rides in SciPy: time against error, to be compared with the library's at equal error.

Cone: solve_ivp(DOP853), forces summed afresh at every stage on 64 x 128 nodes (cone_numpy.py). Ball: the same integrator through
a spline table of the central force (ride_scipy.py). The error is the lateral distance of the end point from that of a ride at
rtol 1e-13, over the largest offset; the relative tolerance goes from 1e-4 to 1e-11, the absolute one is a hundredth of it.

    ride_error.py [--seconds 1] [--form plain|blocked|folded|rows] [--rounds 2] [--skip-cone]

One JSON document per line, one line per ride. `cpu_s` is processor time, the least of the rounds: a busy machine
interrupts long runs more than short ones.
"""

import argparse
import json
import os
import time

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core, as the other peers
os.environ.setdefault("OMP_NUM_THREADS", "1")

import numpy as np  # noqa: E402
from scipy.integrate import solve_ivp  # noqa: E402

from cone_numpy import VARIANTS, cone_nodes  # noqa: E402
from peer_timing import warm_allocator  # noqa: E402
from ride_scipy import BALL_START, ball_rates, ball_table, cone_rates, cone_start  # noqa: E402

TOLERANCES = [1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11]


def fly(rates, start, seconds, relative):
    """Processor time and solution of one ride."""
    begin = time.process_time()
    ride = solve_ivp(rates, (0.0, seconds), start, method="DOP853", rtol=relative, atol=relative / 100)
    used = time.process_time() - begin
    if not ride.success:
        raise SystemExit("the ride did not finish: " + ride.message)
    return used, ride


def sweep(name, rates, reference_rates, start, seconds, rounds):
    """Prints a line for every tolerance."""
    _, reference = fly(reference_rates, start, seconds, 1e-13)
    end = reference.y[:2, -1]
    largest = np.hypot(reference.y[0], reference.y[1]).max()
    for tolerance in TOLERANCES:
        times = []
        for _ in range(rounds):
            used, ride = fly(rates, start, seconds, tolerance)
            times.append(used)
        x = ride.y[0]
        line = {
            "case": name,
            "tolerance": tolerance,
            "cpu_s": min(times),
            "relative_error": float(np.hypot(*(ride.y[:2, -1] - end)) / largest),
            "evaluations": ride.nfev,
            "steps": len(ride.t) - 1,
            "oscillations": int(np.count_nonzero((x[:-1] < 0) & (x[1:] >= 0))),
        }
        print(json.dumps(line), flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=1.0)
    parser.add_argument("--form", choices=sorted(VARIANTS), default="plain")
    parser.add_argument("--rounds", type=int, default=2)
    parser.add_argument("--skip-cone", action="store_true")
    options = parser.parse_args()
    warm_allocator()
    table, _ = ball_table()
    start = np.array(BALL_START["offset_m"] + BALL_START["velocity_m_s"])
    rates = ball_rates(table)
    sweep("ball, SciPy spline", rates, rates, start, options.seconds, options.rounds + 3)
    if not options.skip_cone:
        cone = VARIANTS[options.form](cone_nodes(64, 128))
        # The reference needs no 64 x 128 nodes: 24 x 32 sum to 2e-13 of the force.
        fine = VARIANTS["folded"](cone_nodes(24, 32))
        name = "cone, NumPy " + options.form
        sweep(name, cone_rates(cone), cone_rates(fine), cone_start(), options.seconds, options.rounds)


if __name__ == "__main__":
    main()
