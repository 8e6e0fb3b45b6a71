"""Thrust and absorbed share of a film-covered cone in a Gaussian beam, by adaptive quadrature of the element force."""
import numpy as np
from scipy.integrate import quad


def shares(indices, thicknesses, cosine, wavelength):
    """Reflected and absorbed share of unpolarised light, by 2x2 characteristic matrices."""
    answers = []
    for along in (False, True):
        matrix = np.eye(2, dtype=complex)
        square = 1 - cosine**2
        for n, d in zip(indices, thicknesses):
            normal = np.sqrt(complex(n) ** 2 - square)
            eta = n**2 / normal if along else normal
            delta = 2 * np.pi * d / wavelength * normal
            matrix = matrix @ np.array(
                [[np.cos(delta), -1j * np.sin(delta) / eta], [-1j * eta * np.sin(delta), np.cos(delta)]]
            )
        outer = 1 / cosine if along else cosine
        b, c = matrix @ np.array([1, outer])
        total = abs(outer * b + c) ** 2
        answers.append((abs(outer * b - c) ** 2 / total, 4 * outer * outer / total))
    reflected, passed = np.mean(answers, axis=0)
    return reflected, 1 - reflected - passed


indices, thicknesses, wavelength = [1.45 + 0j, 1.4 + 9.9j, 1.45 + 0j], [1e-7, 3e-8, 2e-7], 1.064e-6
half_angle, radius, waist, back, lit = np.radians(70), 1.5, 1.2, 0.3, 0.1
asymmetry = (lit - back) / (lit + back)
for stretch in (1.0, 1.2):
    mu = np.sin(half_angle)
    r, a = shares(indices, thicknesses, mu, stretch * wavelength)
    # Element: I mu dA = I d(area across); n.z = -mu: F_z = I/c (a + (2 r mu + 2/3 a e) mu).
    power = quad(lambda s: 2 * np.pi * s * 2 / (np.pi * waist**2) * np.exp(-2 * s * s / waist**2), 0, radius, epsabs=0)[0]
    print(stretch, repr(power * (a + (2 * r * mu + 2 / 3 * a * asymmetry) * mu)), repr(power * a), repr(r), repr(a))
