#!/usr/bin/env python3
"""Force and torque of a mirror ball in a ring beam, in NumPy: the script that one writes today.

Written from the equations alone: dF = -2 (I mu^2 / c) n dA on the lit hemisphere, torque (p - r_cm) x dF about the
centre of mass, I = I0 exp(-2 (rho - r0)^2 / s^2) normalised to the power over the plane, light along beam +z.
Nodes: Gauss-Legendre in the angle from the pole that faces the laser times equal steps in azimuth, fixed to the beam:
a ball looks the same from everywhere, so only the place of its centre matters. The ring's intensity has a kink on the
beam axis (relative size exp(-2 r0^2/s^2) * 4 r0/s^2), which limits the accuracy of a fixed mesh when the axis meets the
ball; `--radial 256 --azimuth 512` shows by how much. The craft is invented. All SI.

    ball_numpy.py [--radial 64] [--azimuth 128] [--seconds 3] [--cold]
"""

import argparse
import json
import math
import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core, as the other peers

import numpy as np  # noqa: E402

from cone_numpy import LIGHT_SPEED, read_poses, rotation_from_vector  # noqa: E402
from peer_timing import processor_name, time_calls, warm_allocator  # noqa: E402

POWER_W = 300e6
RING_RADIUS_M = 1.05
RING_WIDTH_M = 0.45
BALL_RADIUS_M = 1.2
CENTER_OF_MASS_M = np.array([0.0, 0.0, -0.3])  # body axes, from the ball's centre


def ring_peak(power=POWER_W, radius=RING_RADIUS_M, width=RING_WIDTH_M):
    """Peak intensity of a ring beam that carries `power` over the plane, W/m^2."""
    axis = 0.25 * width**2 * math.exp(-2 * (radius / width) ** 2)
    body = radius * width * math.sqrt(math.pi / 8) * (1 + math.erf(math.sqrt(2) * radius / width))
    return power / (2 * math.pi * (axis + body))


class Ball:
    """Mirror ball in a ring beam, everything in beam axes."""

    def __init__(self, radial, azimuth, radius=BALL_RADIUS_M):
        roots, weights = np.polynomial.legendre.leggauss(radial)
        polar = 0.25 * np.pi * (1 + roots)
        phi = 2 * np.pi * np.arange(azimuth) / azimuth
        sine, mu = np.sin(polar)[:, None], np.cos(polar)[:, None]
        area = 0.25 * np.pi * weights[:, None] * radius**2 * sine * (2 * np.pi / azimuth)
        shape = (radial, azimuth)
        self.nx = (sine * np.cos(phi)).ravel()
        self.ny = (sine * np.sin(phi)).ravel()
        self.nz = np.broadcast_to(-mu, shape).ravel()
        self.push = np.broadcast_to(-2 / LIGHT_SPEED * ring_peak() * mu**2 * area, shape).ravel()
        self.radius = radius

    def force_and_torque(self, x, y, rotation):
        center = rotation @ -CENTER_OF_MASS_M  # the ball's centre from the centre of mass, beam axes
        px = self.radius * self.nx + (x + center[0])
        py = self.radius * self.ny + (y + center[1])
        rho = np.sqrt(px * px + py * py)
        push = self.push * np.exp(-2 / RING_WIDTH_M**2 * (rho - RING_RADIUS_M) ** 2)
        force = np.array([push @ self.nx, push @ self.ny, push @ self.nz])
        return force, np.cross(center, force)  # every line of force passes through the ball's centre


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--radial", type=int, default=64)
    parser.add_argument("--azimuth", type=int, default=128)
    parser.add_argument("--seconds", type=float, default=3.0)
    parser.add_argument("--cold", action="store_true", help="leave the allocator as it starts, to see what that costs")
    options = parser.parse_args()
    if not options.cold:
        warm_allocator()
    ball = Ball(options.radial, options.azimuth)
    poses = read_poses("ball_poses.csv")
    calls = [(x, y, rotation_from_vector(np.array([tx, ty, 0.0]))) for x, y, tx, ty in poses]
    readings = [ball.force_and_torque(*call) for call in calls]
    timing = time_calls(ball.force_and_torque, calls, options.seconds)
    nodes = options.radial * options.azimuth
    result = {
        "peer": "ball_numpy",
        "numpy": np.__version__,
        "processor": processor_name(),
        "nodes": nodes,
        "repetitions": timing["repetitions"],
        "calls_per_s": 1 / timing["median_s"],
        "ns_per_node_min": timing["min_s"] / nodes * 1e9,
        "ns_per_node_median": timing["median_s"] / nodes * 1e9,
        "states": [
            {"pose": pose, "force_N": force.tolist(), "torque_Nm": torque.tolist()}
            for pose, (force, torque) in zip(poses, readings)
        ],
    }
    print(json.dumps(result, indent=1))


if __name__ == "__main__":
    main()
