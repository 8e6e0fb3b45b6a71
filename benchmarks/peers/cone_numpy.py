#!/usr/bin/env python3
"""Force and torque of a mirror cone in a Gaussian beam, in NumPy: the script that one writes today.

Written from the equations alone (no code shared with the library):
    dF = -2 (I mu^2 / c) n dA,  mu = -n.b > 0 on the lit side,  torque (p - r_cm) x dF about the centre of mass,
    I = 2 P / (pi w^2) exp(-2 rho^2 / w^2),  light along beam +z.
Nodes: Gauss-Legendre in radius times equal steps in azimuth. The cone is mouth first (it opens to the laser and lies in
z <= 0 of its body frame, vertex at the body origin), half-angle 65 deg between axis and generator, so a mirror is
single-bounce. The craft is invented. All SI.

    cone_numpy.py [--variant plain|blocked|folded|rows] [--radial 64] [--azimuth 128] [--seconds 3] [--cold]

plain    the straightforward script: one array per component, one temporary per step
blocked  the same in blocks, written in place in work rows that stay in cache
folded   the careful script: sums in body axes, the torque's cross products formed once, one matrix product per pose
rows     the shortest script: (N, 3) arrays and numpy.cross
"""

import argparse
import csv
import json
import os
import pathlib

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core, as the other peers

import numpy as np  # noqa: E402

from peer_timing import processor_name, time_calls, warm_allocator  # noqa: E402

LIGHT_SPEED = 299_792_458.0  # m/s, exact

POWER_W = 300e6
WAIST_M = 1.5
CONE_RADIUS_M = 1.5
CONE_HALF_ANGLE_RAD = np.radians(65.0)
CENTER_OF_MASS_M = np.array([0.0, 0.0, -3.2])
PEAK_INTENSITY = 2 * POWER_W / (np.pi * WAIST_M**2)


def rotation_from_vector(tilt):
    """Rotation matrix (beam from body) of a rotation vector, rad."""
    angle = np.sqrt(tilt @ tilt)
    x, y, z = tilt
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    sinc = np.sinc(angle / np.pi)
    half = 0.5 * np.sinc(0.5 * angle / np.pi) ** 2
    return np.eye(3) + sinc * cross + half * (cross @ cross)


def cone_nodes(radial, azimuth, half_angle=CONE_HALF_ANGLE_RAD, radius=CONE_RADIUS_M):
    """Positions (N, 3), unit normals of the lit side (N, 3) and areas (N,) of a mouth-first cone, body axes."""
    roots, weights = np.polynomial.legendre.leggauss(radial)
    r = 0.5 * radius * (1 + roots)
    phi = 2 * np.pi * np.arange(azimuth) / azimuth
    r, phi = np.meshgrid(r, phi, indexing="ij")
    area = np.outer(0.5 * radius * weights, np.full(azimuth, 2 * np.pi / azimuth)) * r / np.sin(half_angle)
    c, s = np.cos(phi), np.sin(phi)
    position = np.stack([r * c, r * s, -r / np.tan(half_angle)], axis=-1)
    normal = np.stack([-np.cos(half_angle) * c, -np.cos(half_angle) * s, np.full_like(c, -np.sin(half_angle))], axis=-1)
    return position.reshape(-1, 3), normal.reshape(-1, 3), area.ravel()


class PlainCone:
    """Everything in beam axes, one array per component."""

    def __init__(self, nodes, center_of_mass=CENTER_OF_MASS_M):
        position, normal, area = nodes
        self.arm = np.ascontiguousarray((position - center_of_mass).T)
        self.normal = np.ascontiguousarray(normal.T)
        self.area = area

    def force_and_torque(self, x, y, rotation):
        ax, ay, az = rotation @ self.arm
        nx, ny, nz = rotation @ self.normal
        mu = np.maximum(-nz, 0.0)
        intensity = PEAK_INTENSITY * np.exp(-2 / WAIST_M**2 * ((ax + x) ** 2 + (ay + y) ** 2))
        push = -2 / LIGHT_SPEED * intensity * mu * mu * self.area
        fx, fy, fz = push * nx, push * ny, push * nz
        force = np.array([fx.sum(), fy.sum(), fz.sum()])
        torque = np.array([(ay * fz - az * fy).sum(), (az * fx - ax * fz).sum(), (ax * fy - ay * fx).sum()])
        return force, torque


class RowsCone:
    """The shortest script: (N, 3) arrays and numpy.cross."""

    def __init__(self, nodes, center_of_mass=CENTER_OF_MASS_M):
        position, self.normal, self.area = nodes
        self.arm = position - center_of_mass

    def force_and_torque(self, x, y, rotation):
        arm = self.arm @ rotation.T
        normal = self.normal @ rotation.T
        mu = np.maximum(-normal[:, 2], 0.0)
        rho2 = (arm[:, 0] + x) ** 2 + (arm[:, 1] + y) ** 2
        intensity = PEAK_INTENSITY * np.exp(-2 * rho2 / WAIST_M**2)
        push = -2 / LIGHT_SPEED * intensity * mu**2 * self.area
        force = push[:, None] * normal
        return force.sum(axis=0), np.cross(arm, force).sum(axis=0)


class BlockedCone:
    """The plain form over blocks of nodes, in place in a few work rows (64 KiB each) that stay in level-2 cache."""

    def __init__(self, nodes, center_of_mass=CENTER_OF_MASS_M, block=8192):
        position, normal, area = nodes
        arm, normal = (position - center_of_mass).T, normal.T
        area = -2 / LIGHT_SPEED * PEAK_INTENSITY * area
        self.parts = [
            (arm[:, i : i + block].copy(), normal[:, i : i + block].copy(), area[i : i + block])
            for i in range(0, len(area), block)
        ]
        self.work = np.empty((8, block))

    def force_and_torque(self, x, y, rotation):
        force, torque = np.zeros(3), np.zeros(3)
        for arm, normal, area in self.parts:
            work = self.work[:, : len(area)]
            a, n, push, spare = work[:3], work[3:6], work[6], work[7]
            np.matmul(rotation, arm, out=a)
            np.matmul(rotation, normal, out=n)
            np.add(a[0], x, out=push)
            np.add(a[1], y, out=spare)
            push *= push
            spare *= spare
            push += spare
            push *= -2 / WAIST_M**2
            np.exp(push, out=push)
            np.minimum(n[2], 0.0, out=spare)
            spare *= spare
            push *= spare
            push *= area
            force += n @ push
            n *= push
            torque += (a[1] @ n[2] - a[2] @ n[1], a[2] @ n[0] - a[0] @ n[2], a[0] @ n[1] - a[1] @ n[0])
        return force, torque


class FoldedCone:
    """Body-axes sums: six weights a node, formed once; a pose costs two row products, an exp and a matrix product."""

    def __init__(self, nodes, center_of_mass=CENTER_OF_MASS_M):
        position, normal, area = nodes
        arm = position - center_of_mass
        self.arm = np.ascontiguousarray(arm.T)
        self.normal = np.ascontiguousarray(normal.T)
        push = -2 / LIGHT_SPEED * PEAK_INTENSITY * area[:, None] * normal
        self.weights = np.ascontiguousarray(np.hstack([push, np.cross(arm, push)]).T)

    def force_and_torque(self, x, y, rotation):
        lateral = rotation[:2] @ self.arm
        lateral[0] += x
        lateral[1] += y
        np.square(lateral, out=lateral)
        exponent = lateral[0]
        exponent += lateral[1]
        exponent *= -2 / WAIST_M**2
        np.exp(exponent, out=exponent)
        mu = rotation[2] @ self.normal
        np.minimum(mu, 0.0, out=mu)
        mu *= mu
        mu *= exponent
        sums = self.weights @ mu
        return rotation @ sums[:3], rotation @ sums[3:]


VARIANTS = {"plain": PlainCone, "blocked": BlockedCone, "folded": FoldedCone, "rows": RowsCone}


def read_poses(name="cone_poses.csv"):
    """Rows (x, y, tilt_x, tilt_y) of the pose list beside this script."""
    with open(pathlib.Path(__file__).parent / name, encoding="ascii", newline="") as file:
        return [[float(value) for value in row.values()] for row in csv.DictReader(file)]


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--variant", choices=VARIANTS, default="plain")
    parser.add_argument("--blocked", dest="variant", action="store_const", const="blocked")
    parser.add_argument("--folded", dest="variant", action="store_const", const="folded")
    parser.add_argument("--radial", type=int, default=64)
    parser.add_argument("--azimuth", type=int, default=128)
    parser.add_argument("--seconds", type=float, default=3.0)
    parser.add_argument("--cold", action="store_true", help="leave the allocator as it starts, to see what that costs")
    options = parser.parse_args()
    if not options.cold:
        warm_allocator()
    cone = VARIANTS[options.variant](cone_nodes(options.radial, options.azimuth))
    poses = read_poses()
    calls = [(x, y, rotation_from_vector(np.array([tx, ty, 0.0]))) for x, y, tx, ty in poses]
    readings = [cone.force_and_torque(*call) for call in calls]
    timing = time_calls(cone.force_and_torque, calls, options.seconds)
    nodes = options.radial * options.azimuth
    result = {
        "peer": "cone_numpy." + options.variant,
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
