#!/usr/bin/env python3
"""Depth and rim of the potential well of a mirror ball on a ring beam, by SciPy's adaptive quadrature: an oracle.

The lateral force on a mirror ball is central and independent of attitude, so it has a potential. With the ball's centre
at distance X from the beam axis and u the place on the ball's shadow,

    U(X)   = (2 R / 3 c) Int I(X + u) (1 - u^2/R^2)^(3/2) d^2u
    F(X)   = -dU/dX = -(2 / c) Int I(X + u) (u_x / R) sqrt(1 - u^2/R^2) d^2u

both over the disc u < R. The rim is the place outside the centre where F = 0 (a maximum of U), the depth U(rim) - U(0).
Both integrals are written in beam coordinates (rho, psi): the intensity then depends on rho alone and its kink on the
axis does no harm. The rim is found by root search on F, U by its own double integral, and the depth is checked against
-Int F dX, a triple integral that shares nothing with U but the beam. The craft is invented. All SI.

    well_scipy.py
"""

import json
import math
import time

import numpy as np
from scipy import integrate, optimize

LIGHT_SPEED = 299_792_458.0  # m/s, exact
POWER_W = 300e6
RING_RADIUS_M = 1.05
RING_WIDTH_M = 0.45
BALL_RADIUS_M = 1.2
CRAFT_MASS_KG = 2.4e-3
TOLERANCE = 1e-10


def ring_peak():
    """Peak intensity of the ring, W/m^2, normalised by adaptive quadrature rather than by the closed form."""
    shape, _ = integrate.quad(
        lambda rho: rho * math.exp(-2 * ((rho - RING_RADIUS_M) / RING_WIDTH_M) ** 2),
        0,
        RING_RADIUS_M + 12 * RING_WIDTH_M,
        points=[RING_RADIUS_M],
        epsabs=0,
        epsrel=1e-13,
    )
    return POWER_W / (2 * math.pi * shape)


PEAK = ring_peak()


def shadow_integral(center, kernel):
    """Int I(rho) kernel(u_x, u^2) d^2u over the ball's shadow centred at (center, 0), in beam polar coordinates.

    Returns the value and QUADPACK's error estimate of the outer integral.
    """
    radius = BALL_RADIUS_M

    def arc(rho):
        """Int kernel d psi on the circle of radius rho, inside the shadow, times rho I(rho)."""
        cosine = -1.0 if rho + center <= radius else (rho**2 + center**2 - radius**2) / (2 * rho * center)
        half = math.pi if cosine <= -1 else math.acos(min(cosine, 1.0))

        def at(psi):
            ux = rho * math.cos(psi) - center
            return kernel(ux, ux * ux + (rho * math.sin(psi)) ** 2)

        value, _ = integrate.quad(at, 0, half, epsabs=1e-13, epsrel=TOLERANCE, limit=200)
        return 2 * value * rho * PEAK * math.exp(-2 * ((rho - RING_RADIUS_M) / RING_WIDTH_M) ** 2)

    edges = sorted({max(0.0, center - radius), abs(radius - center), center + radius})
    pieces = [
        integrate.quad(arc, a, b, epsabs=1e-13 * POWER_W, epsrel=TOLERANCE, limit=200)
        for a, b in zip(edges, edges[1:])
    ]
    return sum(value for value, _ in pieces), sum(error for _, error in pieces)


def potential(center):
    """U in J and its error estimate, ball's centre `center` metres off the axis."""
    scale = 2 * BALL_RADIUS_M / (3 * LIGHT_SPEED)
    value, error = shadow_integral(center, lambda ux, u2: max(0.0, 1 - u2 / BALL_RADIUS_M**2) ** 1.5)
    return scale * value, scale * error


def lateral_force(center):
    """F in N, positive outward."""
    value, _ = shadow_integral(center, lambda ux, u2: ux * math.sqrt(max(0.0, 1 - u2 / BALL_RADIUS_M**2)))
    return -2 / (LIGHT_SPEED * BALL_RADIUS_M) * value


def main():
    start = time.perf_counter()
    scan = np.linspace(0.1, RING_RADIUS_M + BALL_RADIUS_M, 24)
    forces = [lateral_force(x) for x in scan]
    crossing = next(i for i in range(len(scan) - 1) if forces[i] < 0 <= forces[i + 1])
    rim = optimize.brentq(lateral_force, scan[crossing], scan[crossing + 1], xtol=1e-12, rtol=1e-13)
    bottom, bottom_error = potential(0.0)
    top, top_error = potential(rim)
    depth = top - bottom
    work, work_error = integrate.quad(lateral_force, 0, rim, epsabs=0, epsrel=1e-9)
    step = 1e-3
    slopes = [lateral_force(h) / h for h in (step, 2 * step)]
    stiffness = -(4 * slopes[0] - slopes[1]) / 3
    result = {
        "peer": "well_scipy",
        "design": {
            "power_W": POWER_W,
            "ring_radius_m": RING_RADIUS_M,
            "ring_width_m": RING_WIDTH_M,
            "ball_radius_m": BALL_RADIUS_M,
            "mass_kg": CRAFT_MASS_KG,
        },
        "rim_radius_m": rim,
        "depth_J": depth,
        "depth_error_J": bottom_error + top_error,
        "depth_from_force_J": -work,
        "depth_from_force_error_J": work_error,
        "potential_centre_J": bottom,
        "escape_speed_m_s": math.sqrt(2 * depth / CRAFT_MASS_KG),
        "stiffness_N_m": stiffness,
        "frequency_Hz": math.sqrt(stiffness / CRAFT_MASS_KG) / (2 * math.pi),
        "profile": [
            {"radius_m": x, "potential_J": potential(x)[0], "force_N": lateral_force(x)}
            for x in np.linspace(0, 2.4, 13).tolist()
        ],
        "wall_s": time.perf_counter() - start,
    }
    print(json.dumps(result, indent=1))


if __name__ == "__main__":
    main()
