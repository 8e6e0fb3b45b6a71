"""Boost of a flat disc of a quarter-wave stack to a fifth of the speed of light, shares at the wavelength that the sail sees."""
import numpy as np
from scipy.integrate import solve_ivp

c = 299792458.0
wavelength, power, waist, radius, mass = 1.064e-6, 5e12, 1.5, 1.4, 2e-2
H, L = (2.0 + 1e-5j, 133e-9), (1.45 + 0j, 183.4e-9)
layers = [H, L] * 4 + [H]


def shares(lam):
    matrix = np.eye(2, dtype=complex)
    for n, d in layers:
        delta = 2 * np.pi * n * d / lam
        matrix = matrix @ np.array([[np.cos(delta), -1j * np.sin(delta) / n], [-1j * n * np.sin(delta), np.cos(delta)]])
    b, s = matrix @ np.array([1, 1])
    total = abs(b + s) ** 2
    return abs(b - s) ** 2 / total, 4 / total


met = power * (1 - np.exp(-2 * radius**2 / waist**2))


def rate(t, y):
    phi = y[0]
    r, passed = shares(wavelength * np.exp(phi))
    beta = np.tanh(phi)
    force = met / c * (1 + r - passed)
    return [force * np.exp(-phi) / (mass * c), c * beta / (1 - beta), 1 / (1 - beta)]


end = lambda t, y: y[0] - np.arctanh(0.2)
end.terminal = True
found = solve_ivp(rate, [0, 1e4], [0, 0, 0], method="DOP853", rtol=1e-12, atol=1e-6, events=end)
print("emission s", repr(found.t[-1]), "distance m", repr(found.y[1, -1]), "time s", repr(found.y[2, -1]))
