"""The oracle's values: adaptive quadrature over the lit surface in extended precision.

The lit part of a surface of revolution under light along the body direction b is, at each station u of the meridian,
the azimuths where n_r(u) b_perp cos(psi) + n_z(u) b_z < 0. The stations where that set appears, closes to the full
circle or vanishes are found first; between them the limits of psi are smooth up to square roots at the ends, which the
substitution u = a + (b - a) sin^2(pi s / 2) removes. Each region is a unit square, cut in four wherever a 20 x 20
Gauss-Legendre rule differs from the sum over its quarters. Numbers are extended doubles (64-bit mantissa on x86).
"""

import mpmath
import numpy as np
from scipy.optimize import brentq

from shapes import rotation

Real = np.longdouble
ORDER = 20
TOLERANCE = Real("1e-18")  # largest share of the whole that two levels may differ by on one panel
DEEPEST = 40
BATCH = 256  # panels evaluated at once
SCAN = 2000  # stations looked at when searching for the ends of the lit regions


def real(value):
    """An extended double from a decimal text or from a double."""
    return Real(value)


PI = real("3.14159265358979323846264338327950288")


def gauss_legendre(order):
    """Roots and weights on (0, 1), to extended precision, from mpmath's own polynomial roots."""
    with mpmath.workdps(40):
        doubles, _ = np.polynomial.legendre.leggauss(order)
        roots = [mpmath.findroot(lambda t: mpmath.legendre(order, t), mpmath.mpf(float(d))) for d in doubles]
        slopes = [order * (t * mpmath.legendre(order, t) - mpmath.legendre(order - 1, t)) / (t * t - 1) for t in roots]
        weights = [2 / ((1 - t * t) * slope**2) for t, slope in zip(roots, slopes)]
        return (
            np.array([real(mpmath.nstr((1 + t) / 2, 30)) for t in roots]),
            np.array([real(mpmath.nstr(w / 2, 30)) for w in weights]),
        )


ROOTS, WEIGHTS = gauss_legendre(ORDER)


class Region:
    """A stretch of the meridian whose lit azimuths are one interval: the full circle or between terminators."""

    def __init__(self, start, end, full):
        self.start, self.end, self.full = start, end, full


class Integrand:
    """Force (3), torque (3) and power per unit square of a case's regions, beam axes."""

    def __init__(self, case):
        self.case = case
        self.turn = np.array(rotation(case, real, np))
        light = self.turn[2]  # the beam direction in body axes
        self.light_axial = light[2]
        self.light_lateral = np.sqrt(light[0] ** 2 + light[1] ** 2)
        self.light_azimuth = np.arctan2(light[1], light[0])
        self.along, self.normal_constant, self.normal_slope = case.optics.shares(real)
        self.center_of_mass = np.array([real(v) for v in case.center_of_mass_m])

    def edge_terms(self, u):
        """A, B of the lit condition A cos(psi) + B < 0 at station u."""
        _, _, radial, axial, _ = self.case.shape.meridian(u, real, np)
        return radial * self.light_lateral, axial * self.light_axial

    def regions(self):
        """The lit regions of the surface."""
        start, end = self.case.shape.range(real, PI)

        def closes(u, sign):
            a, b = self.edge_terms(real(u))
            return float(b + sign * abs(a))

        scan = np.linspace(float(start), float(end), SCAN + 1)
        edges = [start, end]
        for sign in (-1, 1):
            values = [closes(u, sign) for u in scan]
            for i in range(SCAN):
                if values[i] * values[i + 1] < 0:
                    edges.append(real(brentq(closes, scan[i], scan[i + 1], args=(sign,), xtol=1e-16, rtol=1e-15)))
        edges = sorted(set(edges))
        regions = []
        for a, b in zip(edges, edges[1:]):
            middle = (a + b) / 2
            if closes(middle, 1) < 0:
                regions.append(Region(a, b, True))
            elif closes(middle, -1) < 0:
                regions.append(Region(a, b, False))
        return regions

    def azimuths(self, region, u):
        """First lit azimuth (from the light's own) and the width of the lit interval, at stations u."""
        if region.full:
            return 0 * u, 0 * u + 2 * PI
        a, b = self.edge_terms(u)
        edge = np.arccos(np.clip(-b / a, -1, 1))
        rising = a > 0
        return np.where(rising, edge, -edge), np.where(rising, 2 * PI - 2 * edge, 2 * edge)

    def __call__(self, region, s, t):
        """Seven densities over the unit square at the nodes s, t (arrays of one shape)."""
        case = self.case
        span = region.end - region.start
        u = region.start + span * np.sin(PI * s / 2) ** 2
        rate = span * PI / 2 * np.sin(PI * s)
        r, z, radial, axial, arc = case.shape.meridian(u, real, np)
        first, width = self.azimuths(region, u)
        psi = first + width * t
        phi = psi + self.light_azimuth
        c, sn = np.cos(phi), np.sin(phi)
        arm = np.stack([r * c, r * sn, z + 0 * c]) - self.center_of_mass[:, None, None]
        arm = np.tensordot(self.turn, arm, 1)
        normal = np.tensordot(self.turn, np.stack([radial * c, radial * sn, axial + 0 * c]), 1)
        mu = np.maximum(-normal[2], 0)
        rho2 = (arm[0] + real(case.x_m)) ** 2 + (arm[1] + real(case.y_m)) ** 2
        power = case.beam.intensity(rho2, real, np) * mu * r * arc * rate * width
        force = (self.normal_constant + self.normal_slope * mu) * normal
        force[2] += self.along
        force = force * power / 299792458
        torque = np.stack(
            [
                arm[1] * force[2] - arm[2] * force[1],
                arm[2] * force[0] - arm[0] * force[2],
                arm[0] * force[1] - arm[1] * force[0],
            ]
        )
        return np.concatenate([force, torque, power[None]])


def panel_sums(integrand, region, corners, size):
    """Gauss-Legendre sums (panel, 7) over squares of side `size` at `corners` (panel, 2)."""
    sums = []
    weight = np.outer(WEIGHTS, WEIGHTS).ravel() * size * size
    ds, dt = (grid.ravel() * size for grid in np.meshgrid(ROOTS, ROOTS, indexing="ij"))
    for i in range(0, len(corners), BATCH):
        block = corners[i : i + BATCH]
        density = integrand(region, block[:, :1] + ds, block[:, 1:] + dt)
        sums.append((density * weight).sum(axis=-1).T)
    return np.concatenate(sums)


def integrate_region(integrand, region, scale):
    """Sum (7) over one region, and the summed differences between the last two levels (7)."""
    halves = np.array([[0, 0], [0, 1], [1, 0], [1, 1]], dtype=Real) / 2
    total, error = np.zeros(7, Real), np.zeros(7, Real)
    corners, size = np.zeros((1, 2), Real), Real(1)
    coarse = panel_sums(integrand, region, corners, size)
    for _ in range(DEEPEST):
        children = (corners[:, None, :] + halves * size).reshape(-1, 2)
        fine = panel_sums(integrand, region, children, size / 2)
        sums = fine.reshape(-1, 4, 7).sum(axis=1)
        difference = np.abs(sums - coarse)
        done = (difference <= TOLERANCE * scale).all(axis=1)
        total += sums[done].sum(axis=0)
        error += difference[done].sum(axis=0)
        keep = np.repeat(~done, 4)
        corners, coarse, size = children[keep], fine[keep], size / 2
        if len(corners) == 0:
            return total, error
    raise ArithmeticError(integrand.case.id + ": the quadrature did not settle")


def surface_values(case):
    """Seven numbers (force 3, torque 3, power) and their error estimates, extended doubles.

    The scale of a panel's tolerance is the beam's power over c for forces, times the craft's radius for torques.
    """
    integrand = Integrand(case)
    power = real(case.beam.power_W)
    arm = real(case.shape.radius_m)
    scale = np.array([power / 299792458] * 3 + [power * arm / 299792458] * 3 + [power])
    total, error = np.zeros(7, Real), np.zeros(7, Real)
    for region in integrand.regions():
        part, part_error = integrate_region(integrand, region, scale)
        total += part
        error += part_error
    return total, error
