#!/usr/bin/env python3
"""Compares rides at equal error: reads the lines of ride_error.py and of the library's `ride`, prints a table.

    ride_ratio.py PEER_FILE... -- LIBRARY_FILE...

For each peer and error, time is read off a straight line between neighbouring points of log time against log error, of the
best points (no other one is both faster and more accurate).
"""

import json
import math
import sys

ERRORS = [1e-6, 1e-7, 1e-8, 1e-9]


def read(paths):
    """Least processor time and error for every case and tolerance."""
    found = {}
    for path in paths:
        with open(path, encoding="utf-8") as lines:
            for line in lines:
                if line.startswith("{"):
                    r = json.loads(line)
                    key = r["case"], r["tolerance"]
                    if key not in found or r["cpu_s"] < found[key][0]:
                        found[key] = r["cpu_s"], r["relative_error"]
    return found


def time_at(points, error):
    """Time for an error, from the fastest points that are not worse in both; None outside them."""
    best = [p for p in points if not any(q[0] <= p[0] and q[1] < p[1] for q in points)]
    best.sort()
    for (t0, e0), (t1, e1) in zip(best, best[1:]):
        if e1 <= error <= e0:
            share = math.log(e0 / error) / math.log(e0 / e1) if e0 > e1 else 0
            return math.exp(math.log(t0) + share * math.log(t1 / t0))
    return None


def group(found, word, exact=None):
    """Points of the cases that begin with a word; of one case alone where it is named."""
    return [v for (case, _), v in found.items() if case.startswith(word) and (exact is None or case == exact)]


def main():
    split = sys.argv.index("--")
    peers = read(sys.argv[1:split])
    library = read(sys.argv[split + 1 :])
    rows = [
        ("ball", "ball, peer's equations, atlas"),
        ("ball", "ball, atlas"),
        ("cone", "cone, peer's equations, quadrature"),
        ("cone", "cone, quadrature"),
        ("cone", "cone, peer's equations, atlas"),
        ("cone", "cone, atlas"),
    ]
    print("error | peer | peer, ms | library | library, ms | ratio")
    for error in ERRORS:
        for name, ours in rows:
            mine = time_at(group(library, ours), error)
            for peer in sorted({case for case, _ in peers if case.startswith(name)}):
                theirs = time_at(group(peers, peer, peer), error)
                if mine and theirs:
                    print(
                        f"{error:.0e} | {peer} | {1e3 * theirs:.2f} | {ours} | {1e3 * mine:.4f} | {theirs / mine:.0f}"
                    )


if __name__ == "__main__":
    main()
