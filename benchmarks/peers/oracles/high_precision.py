"""A second check of a few smooth, wholly lit cases: the same integrals with 30 decimal digits, by mpmath."""

import mpmath
import numpy as np

from shapes import rotation

DIGITS = 30


def gauss_nodes(order):
    """Roots and weights on (-1, 1) to the working precision."""
    doubles, _ = np.polynomial.legendre.leggauss(order)
    nodes = []
    for start in doubles:
        t = mpmath.findroot(lambda x: mpmath.legendre(order, x), mpmath.mpf(float(start)))
        slope = order * (t * mpmath.legendre(order, t) - mpmath.legendre(order - 1, t)) / (t * t - 1)
        nodes.append((t, 2 / ((1 - t * t) * slope**2)))
    return nodes


def high_precision_values(case, radial=44, azimuths=72):
    """Seven mpmath numbers (force 3, torque 3, power) by Gauss-Legendre times equal steps in azimuth."""
    with mpmath.workdps(DIGITS):
        number = mpmath.mpf
        turn = mpmath.matrix(rotation(case, number, mpmath))
        center = mpmath.matrix([number(v) for v in case.center_of_mass_m])
        along, constant, slope = case.optics.shares(number)
        start, end = case.shape.range(number, mpmath.pi)
        total = [number(0)] * 7
        for t, weight in gauss_nodes(radial):
            u = (start + end) / 2 + (end - start) / 2 * t
            r, z, n_radial, n_axial, arc = case.shape.meridian(u, number, mpmath)
            ring = weight * (end - start) / 2 * r * arc * 2 * mpmath.pi / azimuths
            for step in range(azimuths):
                phi = 2 * mpmath.pi * step / azimuths
                c, s = mpmath.cos(phi), mpmath.sin(phi)
                arm = turn * (mpmath.matrix([r * c, r * s, z]) - center)
                normal = turn * mpmath.matrix([n_radial * c, n_radial * s, n_axial])
                mu = -normal[2]
                rho2 = (arm[0] + number(case.x_m)) ** 2 + (arm[1] + number(case.y_m)) ** 2
                power = case.beam.intensity(rho2, number, mpmath) * mu * ring
                force = [(constant + slope * mu) * normal[i] * power / 299792458 for i in range(3)]
                force[2] += along * power / 299792458
                torque = [arm[j] * force[k] - arm[k] * force[j] for j, k in ((1, 2), (2, 0), (0, 1))]
                total = [a + b for a, b in zip(total, [*force, *torque, power])]
        return total
