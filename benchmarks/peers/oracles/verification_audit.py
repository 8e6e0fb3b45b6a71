"""Computes the expected values of `lightkeel verify` anew and compares them with what the program expects.

    lightkeel verify --json > verify.json
    python3 benchmarks/peers/oracles/verification_audit.py verify.json

Needs NumPy, SciPy and mpmath; uses no code of the library. A value counts as confirmed when the two agree to the check's own
tolerance or, where that is tighter, to the rounding of a double. Ends with 1 when one does not.
"""

import json
import sys

import verification_closed_forms
import verification_libraries

ROUNDING = 4e-16


def recomputed():
    values = dict(verification_closed_forms.all_closed_forms())
    for group in verification_libraries.GROUPS:
        for name, numbers in group().items():
            values.setdefault(name, numbers)
    return values


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        checks = json.load(file)["results"]["checks"]
    values = recomputed()
    confirmed, differing, other = 0, [], []
    for check in checks:
        name = check["id"]
        if name not in values:
            other.append(name)
            continue
        parts = check.get("values") or [check]
        expected = [part["expected"] for part in parts]
        numbers = [float(x) for x in values[name]]
        if len(numbers) != len(expected):
            differing.append(f"{name}: {len(expected)} values expected, {len(numbers)} computed here")
            continue
        for part, mine in zip(parts, numbers):
            size = check["size"] or abs(part["expected"])
            error = abs(mine - part["expected"]) / size
            if error > max(check["tolerance"], ROUNDING):
                differing.append(f"{name} {part.get('part', '')}: {part['expected']!r} expected, {mine!r} computed here")
        confirmed += 1
    print(f"{confirmed} checks confirmed, {len(differing)} values differ, {len(other)} are known otherwise:")
    print(" ".join(other))
    print("\n".join(differing))
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main())
