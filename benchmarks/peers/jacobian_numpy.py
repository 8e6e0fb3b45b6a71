#!/usr/bin/env python3
"""Stability map of a mirror cone over half-angle and place of the centre of mass: differences and eigenvalues in NumPy.

The loose-script way: the 4 x 4 Jacobian of (F_x, F_y, T_x, T_y) by (x, y, tilt_x, tilt_y) on the axis comes from
central differences at two steps and one Richardson extrapolation, D = (4 D(h) - D(2h)) / 3: 16 evaluations a cell.
The motion q'' = A q, A = M^-1 J, has the eigenvalues lambda = +-sqrt(eig A), so the growth rate is
max |Re sqrt(eig A)|. Craft and beam as in cone_numpy.py, mass and inertia held fixed over the map. All SI.

    jacobian_numpy.py [--cells 64] [--radial 24] [--azimuth 32] [--form batched|folded|plain] [--csv FILE]

batched  (default) one exp over all places of the centre of mass at once: a tilt about another centre is the same tilt
         with the vertex displaced, so one mesh and one set of weights serve a whole row of the map
folded   the careful sums of cone_numpy.py, one call a pose
plain    the plain sums of cone_numpy.py, one call a pose
All are one process, one thread; the best of three maps is given.
"""

import argparse
import csv
import json
import os
import time

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core, as the other peers

import numpy as np  # noqa: E402

from cone_numpy import LIGHT_SPEED, PEAK_INTENSITY, VARIANTS, WAIST_M, cone_nodes, rotation_from_vector  # noqa: E402
from peer_timing import processor_name, warm_allocator  # noqa: E402

MASS_KG = 2.4e-3
INERTIA_LATERAL_KG_M2 = 1.1e-2  # about the centre of mass, both lateral axes
HALF_ANGLES_RAD = np.radians([60.0, 85.0])
CENTER_OF_MASS_Z_M = [-4.0, 0.0]
STEPS = np.array([1e-3, 1e-3, 1e-3, 1e-3])  # m, m, rad, rad


def poses_of_the_difference_rule():
    """The 16 poses: for each variable and each of the steps h, 2h the plus and the minus side."""
    poses = []
    for variable in range(4):
        for multiple in (1, -1, 2, -2):
            q = np.zeros(4)
            q[variable] = multiple * STEPS[variable]
            poses.append((q[0], q[1], rotation_from_vector(np.array([q[2], q[3], 0.0]))))
    return poses


POSES = poses_of_the_difference_rule()


def jacobian_from_values(values):
    """Jacobians (..., 4, 4), rows F_x, F_y, T_x, T_y, columns x, y, tilt_x, tilt_y, from values (16 poses, ..., 4)."""
    plus, minus, plus2, minus2 = np.moveaxis(values.reshape(4, 4, *values.shape[1:]), 1, 0)
    steps = STEPS.reshape(4, *[1] * (plus.ndim - 1))
    near = (plus - minus) / (2 * steps)
    far = (plus2 - minus2) / (4 * steps)
    return np.moveaxis((4 * near - far) / 3, 0, -1)


def row_by_calls(nodes, places, form):
    """Jacobians (place, 4, 4) of one half-angle, one call a pose."""
    values = np.empty((len(POSES), len(places), 4))
    for j, place in enumerate(places):
        cone = VARIANTS[form](nodes, np.array([0.0, 0.0, place]))
        for k, (x, y, rotation) in enumerate(POSES):
            force, torque = cone.force_and_torque(x, y, rotation)
            values[k, j] = force[0], force[1], torque[0], torque[1]
    return jacobian_from_values(values)


def row_batched(nodes, places):
    """Jacobians (place, 4, 4) of one half-angle, all places of the centre of mass in one array expression a pose."""
    position, normal, area = nodes
    push = -2 / LIGHT_SPEED * PEAK_INTENSITY * area[:, None] * normal
    weights = np.hstack([push, np.cross(position, push)])
    position, nz = position.T, normal.T
    values = np.empty((len(POSES), len(places), 4))
    for k, (x, y, rotation) in enumerate(POSES):
        vertex = np.outer(-places, rotation[:, 2])  # the vertex from the centre of mass, beam axes
        px = np.add.outer(vertex[:, 0] + x, rotation[0] @ position)
        py = np.add.outer(vertex[:, 1] + y, rotation[1] @ position)
        px *= px
        py *= py
        px += py
        px *= -2 / WAIST_M**2
        np.exp(px, out=px)
        sums = px @ (weights * (np.minimum(rotation[2] @ nz, 0.0) ** 2)[:, None])
        force = sums[:, :3] @ rotation.T
        torque = sums[:, 3:] @ rotation.T + np.cross(vertex, force)
        values[k] = np.hstack([force[:, :2], torque[:, :2]])
    return jacobian_from_values(values)


def growth_rates(jacobians):
    """Growth rate in 1/s of every Jacobian (..., 4, 4)."""
    mass = np.array([MASS_KG, MASS_KG, INERTIA_LATERAL_KG_M2, INERTIA_LATERAL_KG_M2])
    squares = np.linalg.eigvals(jacobians / mass[:, None])
    return np.abs(np.sqrt(squares.astype(complex)).real).max(axis=-1)


def stability_map(cells, radial, azimuth, form):
    """Half-angles, places of the centre of mass, and the Jacobians (angle, place, 4, 4)."""
    angles = np.linspace(*HALF_ANGLES_RAD, cells)
    places = np.linspace(*CENTER_OF_MASS_Z_M, cells)
    jacobians = np.empty((cells, cells, 4, 4))
    for i, angle in enumerate(angles):
        nodes = cone_nodes(radial, azimuth, half_angle=angle)
        jacobians[i] = row_batched(nodes, places) if form == "batched" else row_by_calls(nodes, places, form)
    return angles, places, jacobians


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--cells", type=int, default=64)
    parser.add_argument("--radial", type=int, default=24)
    parser.add_argument("--azimuth", type=int, default=32)
    parser.add_argument("--form", choices=("batched", "folded", "plain"), default="batched")
    parser.add_argument("--csv", help="write half_angle_rad, center_of_mass_z_m, growth_rate_1_s to this file")
    options = parser.parse_args()
    warm_allocator()
    stability_map(2, options.radial, options.azimuth, options.form)
    forces_s = total_s = np.inf
    for _ in range(3):
        start = time.process_time()
        angles, places, jacobians = stability_map(options.cells, options.radial, options.azimuth, options.form)
        forces_s = min(forces_s, time.process_time() - start)
        growth = growth_rates(jacobians)
        total_s = min(total_s, time.process_time() - start)
    if options.csv:
        with open(options.csv, "w", encoding="ascii", newline="") as file:
            rows = csv.writer(file)
            rows.writerow(["half_angle_rad", "center_of_mass_z_m", "growth_rate_1_s"])
            rows.writerows([a, p, growth[i, j]] for i, a in enumerate(angles) for j, p in enumerate(places))
    evaluations = options.cells**2 * len(POSES)
    corners = [(i, j) for i in (0, -1) for j in (0, -1)]
    result = {
        "peer": "jacobian_numpy." + options.form,
        "processor": processor_name(),
        "cells": options.cells**2,
        "nodes": options.radial * options.azimuth,
        "map_s": total_s,
        "forces_s": forces_s,
        "cells_per_s": options.cells**2 / total_s,
        "ns_per_node": forces_s / evaluations / (options.radial * options.azimuth) * 1e9,
        "stable_share": float((growth < 1e-4).mean()),
        "corners": [
            {
                "half_angle_rad": angles[i],
                "center_of_mass_z_m": places[j],
                "jacobian": jacobians[i, j].tolist(),
                "growth_rate_1_s": growth[i, j],
            }
            for i, j in corners
        ],
    }
    print(json.dumps(result, indent=1))


if __name__ == "__main__":
    main()
