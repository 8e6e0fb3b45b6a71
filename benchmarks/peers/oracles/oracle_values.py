#!/usr/bin/env python3
"""Writes oracle_values.csv: light-pressure force and torque of 66 cases, computed independently.

Nothing here shares code with the library that the values test: the equations are written anew (shapes.py, beams.py),
the integrals are done adaptively over the lit surface in extended precision (surface_quadrature.py) and checked by
another route over the craft's shadow (shadow_quadrature.py), a few by 30-digit arithmetic too (high_precision.py).

    oracle_values.py [--out oracle_values.csv] [--no-check] [--only TEXT]

Wants x86 (extended doubles of 64-bit mantissa), NumPy, SciPy and mpmath. Two or three minutes on two cores with the
check, ten seconds without (the last column is then empty).
"""

import argparse
import csv
import math
import multiprocessing
import os
import pathlib
import sys

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import mpmath  # noqa: E402
import numpy as np  # noqa: E402

from bounces import least_exit_slack  # noqa: E402
from cases import all_cases  # noqa: E402
from high_precision import high_precision_values  # noqa: E402
from shadow_quadrature import shadow_values  # noqa: E402
from surface_quadrature import surface_values  # noqa: E402

HEADER = """\
Independent reference values of light-pressure force and torque. Written by benchmarks/peers/oracles/oracle_values.py
(Python: NumPy, SciPy, mpmath; no code of the library): do not edit, run the script again. All craft are invented.
Frames: light along beam +z; the centre of mass is at (x_m, y_m, 0) from the beam axis; (tilt_x_rad, tilt_y_rad, 0) is
one rotation vector body -> beam; body origin: cone and paraboloid vertex, cap pole, sphere and annulus centre; vertex
first lies in z >= 0, mouth first in z <= 0; cm_*_m is the centre of mass in body axes from the body origin. Force and
torque are on the craft, beam axes, torque about the centre of mass. Light meets the craft once.
Force law: dF = (I mu dA / c) [(1 - passed) b - specular (b + 2 mu n) - (2/3) diffuse n - (2/3) absorbed e n],
e = (emissivity_lit - emissivity_back) / (emissivity_lit + emissivity_back). Power is normalised over the whole plane.
radius_m: rim radius of cone, paraboloid, annulus; radius of curvature of sphere and cap. half_angle_rad: cone, axis to
generator; cap, pole to rim at the centre of curvature. intercepted_W: power that meets the lit side.
regime: exact = single bounce in geometric optics; local = scattered or thermal light that the shell's own hollow side
would catch again is not followed (each element recoils as if alone).
error_estimate: of every force over |F| and of every torque over |F| radius_m, before rounding to the nearest double.
check_difference: largest difference, in the same measure, from the second route (quadrature over the shadow).
"""

SHAPE = ("shape", "toward_laser", "radius_m", "inner_radius_m", "half_angle_rad", "focal_length_m")
OPTICS = ("specular", "diffuse", "absorbed", "passed", "emissivity_lit", "emissivity_back")
BEAM = ("profile", "power_W", "waist_m", "order", "ring_radius_m", "ring_width_m", "lg_p", "lg_l")
POSE = ("cm_x_m", "cm_y_m", "cm_z_m", "x_m", "y_m", "tilt_x_rad", "tilt_y_rad")
RESULT = ("force_x_N", "force_y_N", "force_z_N", "torque_x_Nm", "torque_y_Nm", "torque_z_Nm", "intercepted_W")
LAST = ("error_estimate", "regime", "check_difference")
HIGH_PRECISION_CASES = (
    "cone-v45-gauss-far",
    "cone-m65-lg11-far",
    "cone-m65-gauss-film",
    "paraboloid-v-gauss",
    "annulus-lg11-offset",
)


def measure(case, values):
    """What errors of the seven numbers are divided by: |F|, |F| times radius, intercepted power."""
    force = math.sqrt(sum(float(v) ** 2 for v in values[:3]))
    return np.array([force] * 3 + [force * case.shape.radius_m] * 3 + [float(values[6])])


def run_case(task):
    """One row: case, seven doubles, error estimate, check difference or nothing, difference at 30 digits or nothing."""
    case, check = task
    slack = least_exit_slack(case)
    if slack < 0:
        raise ValueError(f"{case.id}: reflected light meets the sail again (slack {slack:.3g})")
    values, errors = surface_values(case)
    size = measure(case, values)
    # Sums of extended doubles carry about 1e-19 per term of the whole; a few of them are allowed for.
    estimate = float((errors / size).max()) + 1e-17
    difference = digits = None
    if check:
        difference = float((np.abs(shadow_values(case) - values.astype(float)) / size).max())
        if case.id in HIGH_PRECISION_CASES:
            digits = difference_at_high_precision(values, high_precision_values(case), size)
    return case, values.astype(float), estimate, difference, digits


def difference_at_high_precision(values, exact, size):
    """Largest difference of extended doubles from mpmath numbers, over `size`, without rounding either to doubles."""
    with mpmath.workdps(40):
        high = [float(v) for v in values]
        low = [float(v - np.longdouble(h)) for v, h in zip(values, high)]
        return max(float(abs(e - h - l)) / s for e, h, l, s in zip(exact, high, low, size))


def row(case, values, estimate, difference):
    """The cells of one line of the file."""
    shape = [case.shape.kind, case.shape.toward_laser] + [getattr(case.shape, name) for name in SHAPE[2:]]
    optics = [getattr(case.optics, name) for name in OPTICS]
    beam = [getattr(case.beam, name) for name in BEAM]
    pose = [*case.center_of_mass_m, case.x_m, case.y_m, case.tilt_x_rad, case.tilt_y_rad]
    # What symmetry makes nought comes out as rounding far below the error estimate.
    size = measure(case, values)
    numbers = [float(v) if abs(v) > 1e-18 * s else 0.0 for v, s in zip(values, size)]
    last = [f"{estimate:.1e}", case.regime, "" if difference is None else f"{difference:.1e}"]
    return [case.id, *shape, *optics, *beam, *(repr(float(v)) for v in pose), *map(repr, numbers), *last]


def write(path, rows):
    """Writes the file under a temporary name, flushes it, and renames it."""
    temporary = path.with_suffix(".tmp")
    with open(temporary, "w", encoding="ascii", newline="") as file:
        file.writelines("# " + line + "\n" for line in HEADER.splitlines())
        table = csv.writer(file, lineterminator="\n")
        table.writerow(["id", *SHAPE, *OPTICS, *BEAM, *POSE, *RESULT, *LAST])
        table.writerows(rows)
        file.flush()
        os.fsync(file.fileno())
    temporary.replace(path)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--out", type=pathlib.Path, default=pathlib.Path(__file__).parent / "oracle_values.csv")
    parser.add_argument("--no-check", action="store_true", help="leave out the second route")
    parser.add_argument("--only", default="", help="cases whose id contains this")
    options = parser.parse_args()
    if np.finfo(np.longdouble).nmant < 63:
        sys.exit("this processor's long double is no wider than a double; run on x86")
    tasks = [(case, not options.no_check) for case in all_cases() if options.only in case.id]
    rows, worst = [], 0.0
    with multiprocessing.Pool() as pool:
        for case, values, estimate, difference, digits in pool.imap(run_case, tasks):
            rows.append(row(case, values, estimate, difference))
            worst = max(worst, difference or 0.0)
            note = "" if digits is None else f"  30 digits {digits:.1e}"
            check = "" if difference is None else f"  check {difference:.1e}"
            print(f"{case.id:28s} error {estimate:.1e}{check}{note}", file=sys.stderr)
    write(options.out, rows)
    print(f"{len(rows)} cases, largest difference from the second route {worst:.1e}", file=sys.stderr)
    if worst > 1e-9:
        sys.exit("the two routes differ by more than 1e-9")


if __name__ == "__main__":
    main()
