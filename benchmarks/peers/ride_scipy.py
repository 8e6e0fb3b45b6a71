#!/usr/bin/env python3
"""Rides in SciPy: a mirror cone in six degrees of freedom, and a mirror ball through a splined force table.

Cone: the craft and beam of cone_numpy.py, Newton's and Euler's equations with an attitude quaternion (scalar first,
body to beam), no Doppler terms, solve_ivp(DOP853) at rtol 1e-9, forces summed afresh at every stage. Ball: the craft
and beam of ball_numpy.py; the central force is tabulated once over the offset and read through CubicSpline, so a ride
costs no quadrature. Both starts are invented. All SI.

    ride_scipy.py [--seconds 3] [--radial 24] [--azimuth 32] [--form folded|plain] [--tolerance 1e-9]

`seconds` is time of flight. Time per oscillation divides the wall time by the counted upward crossings of x = 0. The
best of three repetitions is given.
"""

import argparse
import json
import os
import time

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core, as the other peers

import numpy as np  # noqa: E402
import scipy  # noqa: E402
from scipy.integrate import solve_ivp  # noqa: E402
from scipy.interpolate import CubicSpline  # noqa: E402

from ball_numpy import Ball  # noqa: E402
from cone_numpy import VARIANTS, cone_nodes  # noqa: E402
from peer_timing import processor_name, warm_allocator  # noqa: E402

MASS_KG = 2.4e-3
CONE_INERTIA_KG_M2 = np.array([1.1e-2, 1.1e-2, 1.0e-3])  # principal, about the centre of mass
CONE_START = {"offset_m": [0.05, 0.02], "tilt_rad": [0.01, -0.005], "velocity_m_s": [0.0, 0.02]}
BALL_START = {"offset_m": [0.3, 0.0], "velocity_m_s": [0.0, 0.5]}
TABLE_POINTS = 1201
TABLE_END_M = 3.0


def rotation_from_quaternion(q):
    """Rotation matrix (beam from body) of a unit quaternion, scalar first."""
    w, x, y, z = q
    return np.array(
        [
            [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
            [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
            [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
        ]
    )


def cone_rates(cone):
    """Right-hand side for the state r (3, beam), v (3, beam), q (4), w (3, body)."""
    ix, iy, iz = CONE_INERTIA_KG_M2

    def rates(_, s):
        q = s[6:10] / np.sqrt(s[6:10] @ s[6:10])
        rotation = rotation_from_quaternion(q)
        force, torque = cone.force_and_torque(s[0], s[1], rotation)
        tx, ty, tz = rotation.T @ torque
        w, x, y, z = q
        p, u, v = s[10:]
        return np.concatenate(
            (
                s[3:6],
                force / MASS_KG,
                (
                    -0.5 * (x * p + y * u + z * v),
                    0.5 * (w * p + y * v - z * u),
                    0.5 * (w * u + z * p - x * v),
                    0.5 * (w * v + x * u - y * p),
                    (tx - (iz - iy) * u * v) / ix,
                    (ty - (ix - iz) * v * p) / iy,
                    (tz - (iy - ix) * p * u) / iz,
                ),
            )
        )

    return rates


def cone_start():
    """The state at the beginning of the cone's ride."""
    tilt = np.array([*CONE_START["tilt_rad"], 0.0])
    angle = np.sqrt(tilt @ tilt)
    return np.concatenate(
        (
            CONE_START["offset_m"],
            [0.0],
            CONE_START["velocity_m_s"],
            [0.0],
            [np.cos(angle / 2)],
            np.sin(angle / 2) * tilt / angle,
            np.zeros(3),
        )
    )


def ball_table():
    """Spline of the outward force over the offset, from quadrature on a fine mesh, and the seconds that it took."""
    start = time.perf_counter()
    ball = Ball(96, 192)
    offsets = np.linspace(0.0, TABLE_END_M, TABLE_POINTS)
    # The ball's centre is put on the offset: the untilted centre of mass lies on the same line along the beam.
    forces = [ball.force_and_torque(x, 0.0, np.eye(3))[0][0] for x in offsets]
    forces[0] = 0.0
    return CubicSpline(offsets, forces), time.perf_counter() - start


def ball_rates(force):
    """Right-hand side for the state x, y, vx, vy."""

    def rates(_, s):
        rho = np.hypot(s[0], s[1])
        pull = force(rho) / (MASS_KG * rho) if rho > 0 else 0.0
        return np.array([s[2], s[3], pull * s[0], pull * s[1]])

    return rates


def fly(rates, start, seconds, relative, absolute):
    """Best wall time of three rides, and the last ride's solution."""
    walls = []
    for _ in range(3):
        begin = time.perf_counter()
        ride = solve_ivp(rates, (0.0, seconds), start, method="DOP853", rtol=relative, atol=absolute)
        walls.append(time.perf_counter() - begin)
    if not ride.success:
        raise SystemExit("the ride did not finish: " + ride.message)
    return min(walls), ride


def report(wall, ride):
    """What both rides have in common."""
    x = ride.y[0]
    oscillations = int(np.count_nonzero((x[:-1] < 0) & (x[1:] >= 0)))
    return {
        "flight_s": ride.t[-1],
        "wall_s": wall,
        "oscillations": oscillations,
        "wall_s_per_oscillation": wall / oscillations if oscillations else None,
        "evaluations": ride.nfev,
        "steps": len(ride.t) - 1,
        "max_offset_m": float(np.hypot(ride.y[0], ride.y[1]).max()),
        "final_state": ride.y[:, -1].tolist(),
    }


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=3.0)
    parser.add_argument("--radial", type=int, default=24)
    parser.add_argument("--azimuth", type=int, default=32)
    parser.add_argument("--form", choices=("folded", "plain"), default="folded")
    parser.add_argument("--tolerance", type=float, default=1e-9, help="relative; the absolute one is a hundredth of it")
    options = parser.parse_args()
    warm_allocator()
    cone = VARIANTS[options.form](cone_nodes(options.radial, options.azimuth))
    tolerances = options.tolerance, options.tolerance / 100
    cone_result = report(*fly(cone_rates(cone), cone_start(), options.seconds, *tolerances))
    table, table_s = ball_table()
    start = np.array(BALL_START["offset_m"] + BALL_START["velocity_m_s"])
    wall, ride = fly(ball_rates(table), start, options.seconds, *tolerances)
    potential = table.antiderivative()
    energy = 0.5 * MASS_KG * (ride.y[2] ** 2 + ride.y[3] ** 2) - potential(np.hypot(ride.y[0], ride.y[1]))
    spin = ride.y[0] * ride.y[3] - ride.y[1] * ride.y[2]
    ball_result = {
        **report(wall, ride),
        "table_s": table_s,
        "table_points": TABLE_POINTS,
        "energy_drift_J": float(np.abs(energy - energy[0]).max()),
        "areal_rate_drift": float(np.abs(spin / spin[0] - 1).max()),
    }
    result = {
        "peer": "ride_scipy." + options.form,
        "scipy": scipy.__version__,
        "processor": processor_name(),
        "relative_tolerance": options.tolerance,
        "cone": {"start": CONE_START, "nodes": options.radial * options.azimuth, **cone_result},
        "ball": {"start": BALL_START, **ball_result},
    }
    print(json.dumps(result, indent=1))


if __name__ == "__main__":
    main()
