"""Shapes, optics and poses of the oracle: surfaces of revolution given by their meridian, and the light's force law.

Body frame: origin at the reference point of the shape (cone and paraboloid: vertex; cap: pole; sphere and annulus:
centre), axis +z away from the laser at zero tilt. Vertex first lies in z >= 0, mouth first, its mirror image, z <= 0.
"""

import math
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Shape:
    """A shape and its numbers; those that it does not use stay zero.

    radius_m: rim radius of a cone, paraboloid or annulus; radius of curvature of a sphere or cap.
    half_angle_rad: cone, axis to generator; cap, from pole to rim at the centre of curvature.
    """

    kind: str
    radius_m: float
    toward_laser: str = ""
    inner_radius_m: float = 0.0
    half_angle_rad: float = 0.0
    focal_length_m: float = 0.0

    @property
    def side(self):
        """+1 for vertex first, -1 for mouth first."""
        return -1 if self.toward_laser == "mouth" else 1

    def range(self, number, pi):
        """Ends of the meridian's parameter: a radius, or for sphere and cap the angle from the pole."""
        if self.kind == "sphere":
            return number(0), pi
        if self.kind == "cap":
            return number(0), number(self.half_angle_rad)
        return number(self.inner_radius_m), number(self.radius_m)

    def meridian(self, u, number, functions):
        """r, z, radial and axial parts of the unit normal of the lit side, and arc length per unit of u, at u."""
        one = u * 0 + 1
        radius = number(self.radius_m)
        if self.kind == "annulus":
            return u, 0 * u, 0 * u, -one, one
        if self.kind == "cone":
            sine, cosine = functions.sin(number(self.half_angle_rad)), functions.cos(number(self.half_angle_rad))
            return u, self.side * u * cosine / sine, self.side * cosine * one, -sine * one, one / sine
        if self.kind == "paraboloid":
            f = number(self.focal_length_m)
            slope = u / (2 * f)
            arc = functions.sqrt(1 + slope * slope)
            return u, self.side * u * u / (4 * f), self.side * slope / arc, -1 / arc, arc
        sine, cosine = functions.sin(u), functions.cos(u)
        if self.kind == "sphere":
            return radius * sine, -radius * cosine, sine, -cosine, radius * one
        if self.kind == "cap":
            depth = 2 * radius * functions.sin(u / 2) ** 2
            return radius * sine, self.side * depth, self.side * sine, -cosine, radius * one
        raise ValueError("unknown shape: " + self.kind)


@dataclass(frozen=True)
class Optics:
    """Shares of the intercepted power (what is left passes straight through) and the two emissivities."""

    specular: float = 1.0
    diffuse: float = 0.0
    absorbed: float = 0.0
    passed: float = 0.0
    emissivity_lit: float = 0.0
    emissivity_back: float = 0.0

    def thermal_asymmetry(self, number):
        """e = (lit - back) / (lit + back), or nought where nothing radiates."""
        total = number(self.emissivity_lit) + number(self.emissivity_back)
        return (number(self.emissivity_lit) - number(self.emissivity_back)) / total if total > 0 else number(0)

    def shares(self, number):
        """a, b0, b1 of dF = (I mu dA / c) [a b_hat + (b0 + b1 mu) n]: along the light, and along the normal."""
        rs, rd, a, ts = (number(v) for v in (self.specular, self.diffuse, self.absorbed, self.passed))
        along = 1 - ts - rs
        constant = -(2 * rd + 2 * a * self.thermal_asymmetry(number)) / 3
        return along, constant, -2 * rs


@dataclass(frozen=True)
class Case:
    """One row: a shape with its optics and centre of mass (body axes), a beam, and a pose."""

    id: str
    shape: Shape
    optics: Optics
    beam: object
    center_of_mass_m: tuple
    x_m: float
    y_m: float
    tilt_x_rad: float
    tilt_y_rad: float
    regime: str = field(default="exact")


def rotation(case, number, functions):
    """Beam-from-body matrix of the rotation vector (tilt_x, tilt_y, 0), as nested lists of `number`."""
    x, y = number(case.tilt_x_rad), number(case.tilt_y_rad)
    angle = functions.sqrt(x * x + y * y)
    if angle == 0:
        return [[number(int(i == j)) for j in range(3)] for i in range(3)]
    s, c = functions.sin(angle), functions.cos(angle)
    x, y = x / angle, y / angle
    return [
        [c + (1 - c) * x * x, (1 - c) * x * y, s * y],
        [(1 - c) * x * y, c + (1 - c) * y * y, -s * x],
        [-s * y, s * x, c],
    ]


def tilt_angle(case):
    """Angle between body axis and beam axis, rad."""
    return math.hypot(case.tilt_x_rad, case.tilt_y_rad)
