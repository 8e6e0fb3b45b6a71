"""Beam profiles of the oracle: intensity over the plane, normalised to the power over the whole plane, centred.

Every profile is one function of rho^2 that works on floats, NumPy arrays of any precision and mpmath numbers, given the
module that supplies exp and sqrt. The constants come from mpmath at 40 digits.
"""

from dataclasses import dataclass

import mpmath

LIGHT_SPEED = 299_792_458  # m/s, exact


@dataclass(frozen=True)
class Beam:
    """A beam of `power_W`; `numbers` holds what its profile needs."""

    profile: str
    power_W: float
    waist_m: float = 0.0
    order: float = 0.0
    ring_radius_m: float = 0.0
    ring_width_m: float = 0.0
    lg_p: int = 0
    lg_l: int = 0

    def peak(self):
        """The factor in front of the profile's shape, W/m^2, as an mpmath number of 40 digits."""
        with mpmath.workdps(40):
            power, w = mpmath.mpf(self.power_W), mpmath.mpf(self.waist_m)
            if self.profile == "gaussian":
                return 2 * power / (mpmath.pi * w**2)
            if self.profile == "super-gaussian":
                n = mpmath.mpf(self.order)
                return power * n * 2 ** (2 / n) / (2 * mpmath.pi * w**2 * mpmath.gamma(2 / n))
            if self.profile == "ring":
                r0, s = mpmath.mpf(self.ring_radius_m), mpmath.mpf(self.ring_width_m)
                axis = s**2 / 4 * mpmath.exp(-2 * (r0 / s) ** 2)
                body = r0 * s * mpmath.sqrt(mpmath.pi / 8) * (1 + mpmath.erf(mpmath.sqrt(2) * r0 / s))
                return power / (2 * mpmath.pi * (axis + body))
            if self.profile == "laguerre-gauss":
                p, l = self.lg_p, self.lg_l
                return 2 * mpmath.factorial(p) * power / (mpmath.pi * mpmath.factorial(p + l) * w**2)
        raise ValueError("unknown profile: " + self.profile)

    def intensity(self, rho2, number, functions):
        """Intensity at squared distance `rho2` from the axis; `number` makes constants, `functions` has exp, sqrt."""
        peak = number(mpmath.nstr(self.peak(), 36))
        w2 = number(self.waist_m) ** 2
        if self.profile == "gaussian":
            return peak * functions.exp(-2 * rho2 / w2)
        if self.profile == "super-gaussian":
            return peak * functions.exp(-2 * (rho2 / w2) ** (number(self.order) / 2))
        if self.profile == "ring":
            departure = functions.sqrt(rho2) - number(self.ring_radius_m)
            return peak * functions.exp(-2 * departure**2 / number(self.ring_width_m) ** 2)
        x = 2 * rho2 / w2
        if self.lg_p == 0:
            polynomial = number(1)
        elif self.lg_p == 1:
            polynomial = 1 + self.lg_l - x
        else:
            raise ValueError("the oracle knows Laguerre-Gauss modes with p of 0 or 1 only")
        return peak * x**self.lg_l * polynomial**2 * functions.exp(-x)
