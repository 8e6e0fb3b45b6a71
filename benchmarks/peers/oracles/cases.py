"""The oracle's list of cases: shapes, optics, beams and poses, all invented.

Tilts stay inside what the shape allows for light that meets the craft once, except where a case says that part of it is
dark (convex side lit; the terminator bounds the light).
"""

import math

from beams import Beam
from shapes import Case, Optics, Shape

POWER_W = 300e6
BEAMS = {
    "gauss": Beam("gaussian", POWER_W, waist_m=1.5),
    "super4": Beam("super-gaussian", POWER_W, waist_m=1.4, order=4.0),
    "super5": Beam("super-gaussian", POWER_W, waist_m=1.4, order=5.0),
    "ring": Beam("ring", POWER_W, ring_radius_m=1.05, ring_width_m=0.45),
    "lg01": Beam("laguerre-gauss", POWER_W, waist_m=1.1, lg_p=0, lg_l=1),
    "lg11": Beam("laguerre-gauss", POWER_W, waist_m=0.9, lg_p=1, lg_l=1),
}
FIVE_BEAMS = ("gauss", "super4", "ring", "lg01", "lg11")

MIRROR = Optics()
FILM = Optics(specular=0.9, diffuse=0.05, absorbed=0.03, passed=0.02, emissivity_lit=0.1, emissivity_back=0.4)
OPAQUE = Optics(specular=0.9, diffuse=0.05, absorbed=0.05, emissivity_lit=0.1, emissivity_back=0.4)
BLACK = Optics(specular=0.0, absorbed=1.0, emissivity_lit=0.5, emissivity_back=0.5)


def degrees(angle):
    return math.radians(angle)


CONE_VERTEX_45 = Shape("cone", 1.5, "vertex", half_angle_rad=degrees(45))
CONE_MOUTH_65 = Shape("cone", 1.5, "mouth", half_angle_rad=degrees(65))
CONE_MOUTH_60 = Shape("cone", 1.2, "mouth", half_angle_rad=degrees(60))
CONE_MOUTH_80 = Shape("cone", 1.5, "mouth", half_angle_rad=degrees(80))
CONE_VERTEX_20 = Shape("cone", 0.8, "vertex", half_angle_rad=degrees(20))
CONE_VERTEX_35 = Shape("cone", 1.2, "vertex", half_angle_rad=degrees(35))
BALL = Shape("sphere", 1.2)
HEMISPHERE = Shape("cap", 1.2, "vertex", half_angle_rad=math.pi / 2)
CAP_60 = Shape("cap", 1.2, "vertex", half_angle_rad=degrees(60))
CAP_75 = Shape("cap", 1.2, "vertex", half_angle_rad=degrees(75))
CAP_120 = Shape("cap", 1.2, "vertex", half_angle_rad=degrees(120))
CAP_MOUTH_30 = Shape("cap", 2.0, "mouth", half_angle_rad=degrees(30))
PARABOLOID = Shape("paraboloid", 1.2, "vertex", focal_length_m=1.0)
PARABOLOID_DEEP = Shape("paraboloid", 1.2, "vertex", focal_length_m=0.5)
PARABOLOID_MOUTH = Shape("paraboloid", 1.2, "mouth", focal_length_m=1.0)
ANNULUS = Shape("annulus", 1.5, inner_radius_m=0.4)


def tilt(angle_deg, azimuth_deg):
    """A rotation vector of this length about the axis at this azimuth in the beam's x-y plane."""
    return (
        degrees(angle_deg) * math.cos(degrees(azimuth_deg)),
        degrees(angle_deg) * math.sin(degrees(azimuth_deg)),
    )


def cones_in_every_beam():
    """Vertex first and mouth first in five beams: offset, tilted, both."""
    poses = {
        "offset": ((0.3, -0.2), (0.0, 0.0)),
        "tilted": ((0.0, 0.0), (0.05, -0.08)),
        "far": ((-0.8, 0.5), (-0.12, 0.1)),
    }
    for beam in FIVE_BEAMS:
        for pose, (place, turn) in poses.items():
            yield f"cone-v45-{beam}-{pose}", CONE_VERTEX_45, MIRROR, beam, (0.0, 0.0, 0.9), place, turn
            yield f"cone-m65-{beam}-{pose}", CONE_MOUTH_65, MIRROR, beam, (0.02, -0.01, -3.2), place, turn


def cones_at_the_limits():
    """On the axis, at 60 deg, nearly flat, and vertex first with a dark flank."""
    on_axis = ((0.0, 0.0), (0.0, 0.0))
    yield "cone-v45-gauss-axis", CONE_VERTEX_45, MIRROR, "gauss", (0.0, 0.0, 0.9), *on_axis
    yield "cone-m60-gauss-offset", CONE_MOUTH_60, MIRROR, "gauss", (0.0, 0.0, -1.0), (0.4, 0.1), (0.0, 0.0)
    yield "cone-m80-super5-tilted", CONE_MOUTH_80, MIRROR, "super5", (0.0, 0.0, -0.5), (0.2, 0.3), tilt(20, 70)
    yield "cone-v20-gauss-dark", CONE_VERTEX_20, MIRROR, "gauss", (0.0, 0.0, 1.4), (0.1, -0.2), tilt(30, 25)
    yield "cone-v20-ring-dark", CONE_VERTEX_20, OPAQUE, "ring", (0.03, 0.02, 1.4), (-0.3, 0.4), tilt(50, 200)
    yield "cone-v35-lg11-dark", CONE_VERTEX_35, MIRROR, "lg11", (0.0, 0.0, 0.8), (0.5, 0.0), tilt(60, -80)
    yield "cone-v35-gauss-dark-black", CONE_VERTEX_35, BLACK, "gauss", (0.0, 0.0, 0.8), (0.0, 0.0), tilt(40, 0)


def films():
    """Partly reflecting, scattering, absorbing and passing surfaces."""
    yield "cone-v45-gauss-film", CONE_VERTEX_45, FILM, "gauss", (0.0, 0.0, 0.9), (0.3, -0.2), (0.2, 0.15)
    yield "cone-v45-ring-film", CONE_VERTEX_45, FILM, "ring", (0.05, 0.0, 0.9), (0.0, 0.25), (-0.3, 0.1)
    yield "cone-m65-gauss-film", CONE_MOUTH_65, FILM, "gauss", (0.0, 0.0, -3.2), (0.3, -0.2), (0.05, -0.08)
    yield "cone-m65-lg01-film", CONE_MOUTH_65, FILM, "lg01", (0.02, -0.01, -3.2), (-0.4, 0.2), (0.1, 0.12)
    yield "ball-gauss-opaque", BALL, OPAQUE, "gauss", (0.0, 0.0, 0.0), (0.5, 0.2), (0.0, 0.0)
    yield "ball-ring-opaque-cm", BALL, OPAQUE, "ring", (0.1, -0.05, -0.3), (0.3, 0.4), (0.2, -0.1)
    yield "paraboloid-v-super5-film", PARABOLOID, FILM, "super5", (0.0, 0.0, 0.4), (0.2, 0.1), tilt(15, 130)
    yield "annulus-gauss-film", ANNULUS, FILM, "gauss", (0.0, 0.0, -0.6), (0.3, 0.1), tilt(35, 60)
    yield "hemisphere-ring-opaque", HEMISPHERE, OPAQUE, "ring", (0.0, 0.0, 0.5), (0.2, -0.3), tilt(20, 150)


def balls():
    """A mirror ball in every beam; its centre of mass elsewhere."""
    for beam, place in zip(FIVE_BEAMS, ((0.3, 0.0), (-0.4, 0.2), (0.5, 0.5), (0.0, -0.7), (1.1, -0.6))):
        yield f"ball-{beam}", BALL, MIRROR, beam, (0.0, 0.0, 0.0), place, (0.0, 0.0)
    yield "ball-gauss-axis", BALL, MIRROR, "gauss", (0.0, 0.0, 0.0), (0.0, 0.0), (0.0, 0.0)
    yield "ball-ring-cm", BALL, MIRROR, "ring", (0.0, 0.1, -0.3), (0.2, 0.1), (-0.3, 0.4)


def caps_paraboloids_and_annuli():
    """Curved and flat shapes, lit wholly and in part, convex and concave."""
    twenty = tilt(20, 75)
    for beam in ("gauss", "ring", "lg01"):
        yield f"hemisphere-{beam}-dark", HEMISPHERE, MIRROR, beam, (0.0, 0.0, 0.6), (0.2, 0.1), twenty
    yield "cap-v60-lg11", CAP_60, MIRROR, "lg11", (0.0, 0.0, 0.3), (-0.3, 0.2), twenty
    yield "cap-v75-ring-dark", CAP_75, MIRROR, "ring", (0.0, 0.0, 0.5), (0.4, -0.1), tilt(28, 210)
    yield "cap-v120-super4", CAP_120, MIRROR, "super4", (0.0, 0.0, 0.9), (0.1, 0.3), twenty
    yield "cap-m30-gauss", CAP_MOUTH_30, MIRROR, "gauss", (0.0, 0.0, -2.5), (0.2, 0.15), tilt(4, 30)
    yield "paraboloid-v-gauss", PARABOLOID, MIRROR, "gauss", (0.0, 0.0, 0.4), (0.3, -0.2), tilt(12, -40)
    yield "paraboloid-v-ring-dark", PARABOLOID_DEEP, MIRROR, "ring", (0.0, 0.0, 0.5), (0.1, 0.2), tilt(50, 15)
    yield "paraboloid-m-gauss", PARABOLOID_MOUTH, MIRROR, "gauss", (0.0, 0.0, -2.2), (0.1, 0.3), tilt(3, 110)
    yield "paraboloid-m-lg11", PARABOLOID_MOUTH, MIRROR, "lg11", (0.01, 0.02, -2.2), (-0.5, 0.1), tilt(2, -20)
    yield "annulus-ring-tilted", ANNULUS, MIRROR, "ring", (0.0, 0.0, -1.0), (0.3, -0.4), tilt(25, 300)
    yield "annulus-lg11-offset", ANNULUS, MIRROR, "lg11", (0.05, 0.0, 0.0), (0.6, 0.2), (0.0, 0.0)


def all_cases():
    """Every case, in the order of the file."""
    groups = (cones_in_every_beam, cones_at_the_limits, films, balls, caps_paraboloids_and_annuli)
    for group in groups:
        for name, shape, optics, beam, center, (x, y), (tilt_x, tilt_y) in group():
            gives_off = optics.diffuse > 0 or optics.absorbed > 0
            # A ball's heat and scattered light leave outward; the hollow side of an open shell may catch its own.
            local = gives_off and shape.kind not in ("sphere", "annulus")
            regime = "local" if local else "exact"
            yield Case(name, shape, optics, BEAMS[beam], center, x, y, tilt_x, tilt_y, regime)
