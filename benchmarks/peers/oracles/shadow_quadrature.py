"""The oracle's check: the same numbers by another route, over the plane across the beam instead of over the surface.

Every ray of the beam that meets the craft does so at one first point: the near root of a quadratic. With (U, V) in the
plane across the light, U along the direction that the body axis leans to, power per area is the intensity itself and
    dF = (I dU dV / c) [a b + (b0 + b1 mu) n],
so neither the meridian's arc length nor the search for lit azimuths of surface_quadrature.py appears. The craft's
shadow is bounded in closed form by the rim's ellipse and by the silhouette. Nested adaptive Gauss-Kronrod quadrature
(scipy.integrate.quad_vec) in doubles, asked for 1e-9; the two routes agree to about 1e-13.
"""

import math

import numpy as np
from scipy.integrate import quad_vec

from beams import LIGHT_SPEED
from shapes import rotation

TOLERANCE = 1e-9


class Shadow:
    """Geometry of a case in the plane across the light, origin at the shape's reference point."""

    def __init__(self, case):
        self.case, self.shape = case, case.shape
        turn = np.array(rotation(case, float, math))
        self.axis = turn[:, 2]
        self.lean = math.hypot(self.axis[0], self.axis[1])
        self.cosine = self.axis[2]
        self.u_axis = self.axis[:2] / self.lean if self.lean > 0 else np.array([1.0, 0.0])
        self.v_axis = np.array([-self.u_axis[1], self.u_axis[0]])
        self.arm = turn @ -np.array(case.center_of_mass_m, float)  # reference point from the centre of mass
        self.place = np.array([case.x_m, case.y_m]) + self.arm[:2]  # reference point from the beam axis

    def rim(self):
        """Height along the axis and radius of the outer rim."""
        s = self.shape
        if s.kind == "cone":
            return s.side * s.radius_m / math.tan(s.half_angle_rad), s.radius_m
        if s.kind == "paraboloid":
            return s.side * s.radius_m**2 / (4 * s.focal_length_m), s.radius_m
        if s.kind == "cap":
            return s.side * s.radius_m * (1 - math.cos(s.half_angle_rad)), s.radius_m * math.sin(s.half_angle_rad)
        return 0.0, s.radius_m

    def hit(self, u, v):
        """First point of the ray (u, v) on the craft and unit normal of the lit side there, along (U, V, z)."""
        s, c, shape = self.lean, self.cosine, self.shape
        axis = np.array([s, 0.0, c])
        if shape.kind in ("sphere", "cap"):
            center = axis * (shape.side * shape.radius_m if shape.kind == "cap" else 0.0)
            du, dv = u - center[0], v - center[1]
            dz = -shape.side * math.sqrt(max(0.0, shape.radius_m**2 - du * du - dv * dv))
            outward = np.array([du, dv, dz]) / shape.radius_m
            return center + outward * shape.radius_m, shape.side * outward
        if shape.kind == "annulus":
            return np.array([u, v, -u * s / c]), -axis
        if shape.kind == "cone":
            height = self.cone_height(u, v)
        else:
            height = self.paraboloid_height(u, v)
        point = np.array([u, v, (height - u * s) / c])
        radial = point - height * axis
        radius = math.sqrt(radial @ radial)
        if shape.kind == "cone":
            sine, cosine = math.sin(shape.half_angle_rad), math.cos(shape.half_angle_rad)
            away = radial / radius if radius > 0 else radial
            return point, shape.side * cosine * away - sine * axis
        normal = shape.side * radial / (2 * shape.focal_length_m) - axis
        return point, normal / math.sqrt(normal @ normal)

    def cone_height(self, u, v):
        """Root h of h^2 (1 - c^2/k^2) - 2 h u s + u^2 + c^2 v^2 = 0 that lies on the craft and is met first."""
        k = math.cos(self.shape.half_angle_rad)
        rim, _ = self.rim()
        a, b = 1 - (self.cosine / k) ** 2, -u * self.lean
        root = math.sqrt(max(0.0, b * b - a * (u * u + (self.cosine * v) ** 2)))
        slack = 1e-9 * abs(rim)
        low, high = min(0.0, rim) - slack, max(0.0, rim) + slack
        heights = sorted(h for h in ((-b - root) / a, (-b + root) / a) if low <= h <= high)
        return heights[0] if heights else min(max(-b / a, low), high)

    def paraboloid_height(self, u, v):
        """Root h of h^2 s^2 - 2 h (u s + 2 f' c^2) + u^2 + c^2 v^2 = 0 that is met first, f' signed by the side."""
        half = u * self.lean + 2 * self.shape.side * self.shape.focal_length_m * self.cosine**2
        rest = u * u + (self.cosine * v) ** 2
        root = math.sqrt(max(0.0, half * half - rest * self.lean**2))
        return rest / (half + math.copysign(root, half))

    def silhouette(self):
        """Half-width in V of the silhouette that bounds the shadow on the low-U side, and its U as a function of V."""
        shape, s, c = self.shape, self.lean, self.cosine
        none = 0.0, None
        if s == 0 or shape.side < 0:
            return none
        if shape.kind == "cone":
            distance = self.rim()[0] * s / c  # centre of the rim from the vertex, in units in which the rim is a circle
            if distance <= shape.radius_m:
                return none
            ratio = shape.radius_m / distance
            tangent_v = shape.radius_m * math.sqrt(1 - ratio * ratio)
            slope = (distance - shape.radius_m * ratio) * c / tangent_v
            return tangent_v, lambda v: slope * abs(v)
        if shape.kind == "paraboloid":
            f = shape.focal_length_m
            square = shape.radius_m**2 - (2 * f * c / s) ** 2
            if square <= 0:
                return none
            return math.sqrt(square), lambda v: ((s * v) ** 2 - (2 * f * c) ** 2) / (4 * f * s)
        if shape.kind == "cap":
            square = shape.radius_m**2 - (shape.radius_m * math.cos(shape.half_angle_rad) / s) ** 2
            if square <= 0:
                return none
            center = shape.radius_m * s
            return math.sqrt(square), lambda v: center - math.sqrt(max(0.0, shape.radius_m**2 - v * v))
        return none

    def outline(self):
        """List of (sign, half-width in V, breaks in V, V -> (U low, U high)) whose signed sum is the shadow."""
        shape = self.shape
        full_ball = shape.kind == "cap" and shape.half_angle_rad > math.pi / 2
        if shape.kind == "sphere" or full_ball:
            if full_ball and math.asin(self.lean) > shape.half_angle_rad - math.pi / 2:
                raise ValueError("the check knows deep caps only where the rim stays dark")
            center = shape.radius_m * self.lean if full_ball else 0.0
            return [(1, shape.radius_m, [], self.ellipse(center, shape.radius_m, 1.0))]
        height, radius = self.rim()
        outer = self.ellipse(height * self.lean, radius, self.cosine)
        edge, low = self.silhouette()

        def limits(v):
            first, last = outer(v)
            return (low(v), last) if abs(v) < edge else (first, last)

        parts = [(1, radius, [-edge, edge] if edge else [], limits)]
        if shape.inner_radius_m > 0:
            parts.append((-1, shape.inner_radius_m, [], self.ellipse(0.0, shape.inner_radius_m, self.cosine)))
        return parts

    @staticmethod
    def ellipse(center, radius, squeeze):
        """Limits in U of an ellipse at (center, 0), half-axes radius * squeeze along U and radius along V."""

        def limits(v):
            half = squeeze * math.sqrt(max(0.0, radius * radius - v * v))
            return center - half, center + half

        return limits

    def density(self, u, v):
        """Force (3), torque (3), power per area of the plane at (u, v); vectors along (U, V, z)."""
        along, constant, slope = self.case.optics.shares(float)
        point, normal = self.hit(u, v)
        rho2 = (u + self.place @ self.u_axis) ** 2 + (v + self.place @ self.v_axis) ** 2
        intensity = self.case.beam.intensity(rho2, float, math)
        force = intensity / LIGHT_SPEED * (constant - slope * normal[2]) * normal
        force[2] += intensity / LIGHT_SPEED * along
        arm = point + np.array([self.arm[:2] @ self.u_axis, self.arm[:2] @ self.v_axis, self.arm[2]])
        torque = (
            arm[1] * force[2] - arm[2] * force[1],
            arm[2] * force[0] - arm[0] * force[2],
            arm[0] * force[1] - arm[1] * force[0],
        )
        return np.array([*force, *torque, intensity])

    def to_beam(self, values):
        """Turns vectors along (U, V, z) to beam axes."""
        turned = values.copy()
        for i in (0, 3):
            turned[i : i + 2] = values[i] * self.u_axis + values[i + 1] * self.v_axis
        return turned


def adaptive(function, knots):
    """Integral of a vector function over (-pi/2, pi/2), cut at the knots."""
    value, _ = quad_vec(
        function, -math.pi / 2, math.pi / 2, epsabs=TOLERANCE, epsrel=TOLERANCE, norm="max", points=knots
    )
    return value


def shadow_values(case):
    """Seven numbers (force 3, torque 3, power) of a case, doubles."""
    shadow = Shadow(case)
    scale = case.beam.power_W * np.array([1 / LIGHT_SPEED] * 6 + [1])
    total = np.zeros(7)
    for sign, half, breaks, limits in shadow.outline():

        # An odd power crowds the nodes where v log|v| from a cone's vertex, at v = 0, would slow the outer integral.
        power = 5 if shadow.shape.kind == "cone" else 1

        def strip(angle):
            sine = math.sin(angle)
            v = half * sine**power
            low, high = limits(v)
            if high <= low:
                return np.zeros(7)
            # Near a cone's vertex the light turns within |v| of u = 0: u = |v| sinh(stretched) makes that smooth.
            stretch = abs(v) if shadow.shape.kind == "cone" and v != 0 else 0.0
            beam_axis = -float(shadow.place @ shadow.u_axis)
            ends = [math.asinh(u / stretch) if stretch else u for u in (low, high, 0.0, beam_axis)]
            middle, reach = (ends[0] + ends[1]) / 2, (ends[1] - ends[0]) / 2

            def at(turn):
                position = middle + reach * math.sin(turn)
                u, rate = (stretch * math.sinh(position), stretch * math.cosh(position)) if stretch else (position, 1.0)
                return shadow.density(u, v) * (rate * reach * math.cos(turn)) / scale

            knots = [math.asin(min(1.0, max(-1.0, (knot - middle) / reach))) for knot in ends[2:]]
            return adaptive(at, knots) * half * power * sine ** (power - 1) * math.cos(angle)

        across = -float(shadow.place @ shadow.v_axis)
        sines = [min(1.0, max(-1.0, v / half)) for v in [*breaks, across]]
        knots = [0.0] + [math.asin(math.copysign(abs(x) ** (1 / power), x)) for x in sines]
        total += sign * adaptive(strip, knots) * scale
    return shadow.to_beam(total)
