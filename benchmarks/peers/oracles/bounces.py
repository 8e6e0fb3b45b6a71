"""Checks that the light of a case meets the craft once, so that one pass over the lit surface is the whole truth.

On a convex lit side every reflected ray leaves. On a concave one (mouth first) a reflected ray leaves when it crosses
the plane of the mouth inside the rim; anything else hits the sail again. A grid of points on the surface is reflected.
"""

import math

import numpy as np

from shadow_quadrature import Shadow
from shapes import rotation


def least_exit_slack(case, stations=200, azimuths=200):
    """Least slack, in units of the rim radius, with which a mirror-reflected ray passes inside the mouth; > 0 is good.

    Infinite for convex and flat lit sides.
    """
    shape = case.shape
    if shape.side > 0:
        return math.inf
    start, end = shape.range(float, math.pi)
    light = np.array(rotation(case, float, math))[2]  # the beam direction in body axes
    rim, radius = Shadow(case).rim()
    least = math.inf
    for u in np.linspace(start, end, stations + 1)[1:]:
        r, z, radial, axial, _ = shape.meridian(float(u), float, math)
        for phi in np.arange(azimuths) * (2 * math.pi / azimuths):
            c, s = math.cos(phi), math.sin(phi)
            normal = np.array([radial * c, radial * s, axial])
            mu = -normal @ light
            out = light + 2 * mu * normal
            if mu <= 0 or out[2] >= 0:
                return -math.inf
            way = (rim - z) / out[2]
            exit_radius = math.hypot(r * c + way * out[0], r * s + way * out[1])
            if u < end or exit_radius > radius * (1 + 1e-12):
                least = min(least, 1 - exit_radius / radius)
    return least
