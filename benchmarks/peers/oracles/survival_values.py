"""Expected values of the checks of heat, strength and film modes (verify: HEA, STC, FLM) and of their tests.

Independent of the library: mpmath for closed forms and frequency equations, SciPy for boundary-value problems, Chebyshev collocation for
the spinning ring, Hermite beam elements for the loaded cantilever. Run: python3 survival_values.py
"""

import mpmath as mp
import numpy as np
import scipy.linalg as la
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

mp.mp.dps = 30


def heat():
    k, h, c = mp.mpf("1.380649e-23"), mp.mpf("6.62607015e-34"), mp.mpf(299792458)
    sigma = 2 * mp.pi**5 * k**4 / (15 * h**3 * c**2)
    c2 = h * c / k

    def share(product):
        x = c2 / product
        return 15 / mp.pi**4 * mp.quad(lambda y: y**3 / mp.expm1(y), [x, x + 1, x + 5, x + 20, x + 100])

    print("exitance 1000 K", sigma * 1000**4)
    for product in ("2000e-6", "2897.771955e-6", "5800e-6"):
        print("share below", product, share(mp.mpf(product)))
    for part, low, high in (("0.05", 1800, 1950), ("0.95", 12000, 13000)):
        root = mp.findroot(lambda u: share(u * mp.mpf(10) ** -6) - mp.mpf(part), (low, high), solver="anderson", tol=1e-20)
        print("band", part, root, "um K/K at 1000 K: nm")
    for light in (mp.mpf(1361) / 4, mp.mpf(1361), mp.mpf(1361) / 2):
        print("balance", (light / sigma) ** mp.mpf("0.25"))
    print("cooling", mp.mpf("2.43") / (3 * mp.mpf("0.1") * sigma) * (1 / mp.mpf(500) ** 3 - 1 / mp.mpf(1000) ** 3))
    print("time constant", mp.mpf("2.43") / (4 * mp.mpf("0.1") * sigma * mp.mpf(600) ** 3))
    print("turning light", mp.mpf("0.25") * sigma * mp.mpf(800) ** 4 / (mp.mpf("1e-4") * mp.e ** mp.mpf("2.5")))
    q = mp.mpf("1e4")
    print("ball", ((q + mp.mpf("0.2") * q / (4 * mp.mpf("0.05"))) / (mp.mpf("0.25") * sigma)) ** 0.25, (q / (4 * mp.mpf("0.05")) / sigma) ** 0.25)
    print("cold root", mp.findroot(lambda t: mp.mpf("0.25") * sigma * t**4 - 100 * mp.e ** (mp.mpf("0.005") * (t - 300)), 284))


def plates():
    j, i = mp.besselj, mp.besseli

    def free(n, x, nu):
        w, dw, v, dv = j(n, x), j(n, x, 1), i(n, x), i(n, x, 1)
        mj, mi = -x * x * w - (1 - nu) * (x * dw - n * n * w), x * x * v - (1 - nu) * (x * dv - n * n * v)
        vj, vi = -(x**3) * dw - (1 - nu) * n * n * (x * dw - w), x**3 * dv - (1 - nu) * n * n * (x * dv - v)
        return mj * vi - mi * vj

    nu = mp.mpf("0.3")
    print("free 0.33", [mp.findroot(lambda x: free(n, x, mp.mpf("0.33")), g) ** 2 for n, g in ((2, 2.29), (0, 3.01), (3, 3.5), (1, 4.53))])
    print("clamped", [mp.findroot(lambda x: j(n, x) * i(n + 1, x) + i(n, x) * j(n + 1, x), g) ** 2 for n, g in ((0, 3.2), (1, 4.61), (2, 5.9), (0, 6.3))])
    print("supported", [mp.findroot(lambda x: j(n + 1, x) / j(n, x) + i(n + 1, x) / i(n, x) - 2 * x / (1 - nu), g) ** 2 for n, g in ((0, 2.22), (1, 3.728), (2, 5.06))])
    print("buckling", mp.besseljzero(1, 1) ** 2, mp.findroot(lambda x: x * j(0, x) - (1 - nu) * j(1, x), 2.05) ** 2)


def booms():
    for mu in (0, 1, 40):
        f = lambda x: 1 + mp.cos(x) * mp.cosh(x) + mu * x * (mp.cos(x) * mp.sinh(x) - mp.sin(x) * mp.cosh(x))
        print("cantilever", mu, mp.findroot(f, 1.875 / (1 + mu) ** 0.25 * 0.97), mp.findroot(f, {0: 4.69, 1: 4.03, 40: 3.93}[mu]))
    print("free-free", mp.findroot(lambda x: mp.cos(x) - 1 / mp.cosh(x), 4.73), mp.findroot(lambda x: mp.cos(x) - 1 / mp.cosh(x), 7.85))
    for a in (0.1, 1.0, 5.0):
        shot = lambda k: solve_ivp(lambda s, y: [y[1], -a * np.cos(y[0]), np.cos(y[0]), np.sin(y[0])], [0, 1], [0, k, 0, 0], rtol=1e-13, atol=1e-15, method="DOP853").y[:, -1]
        y = shot(brentq(lambda k: shot(k)[1], 0, a + 1e-9, xtol=1e-15))
        print("elastica", a, repr(y[3]), repr(1 - y[2]))
    for p, mu in ((0, 0), (50, 5), (-1.5, 2), (2000, 5.4), (-2.4, 0)):
        print("loaded cantilever", p, mu, repr(loaded(p, mu, 120)), repr(loaded(p, mu, 60)))


def loaded(p, mu, n):
    l, size = 1 / n, 2 * n + 2
    stiff, mass = np.zeros((size, size)), np.zeros((size, size))
    bend = np.array([[12, 6 * l, -12, 6 * l], [6 * l, 4 * l * l, -6 * l, 2 * l * l], [-12, -6 * l, 12, -6 * l], [6 * l, 2 * l * l, -6 * l, 4 * l * l]]) / l**3
    pull = np.array([[36, 3 * l, -36, 3 * l], [3 * l, 4 * l * l, -3 * l, -l * l], [-36, -3 * l, 36, -3 * l], [3 * l, -l * l, -3 * l, 4 * l * l]]) * p / 30 / l
    heavy = np.array([[156, 22 * l, 54, -13 * l], [22 * l, 4 * l * l, 13 * l, -3 * l * l], [54, 13 * l, 156, -22 * l], [-13 * l, -3 * l * l, -22 * l, 4 * l * l]]) * l / 420
    for e in range(n):
        s = slice(2 * e, 2 * e + 4)
        stiff[s, s] += bend + pull
        mass[s, s] += heavy
    mass[2 * n, 2 * n] += mu
    return np.sqrt(1 / la.eigh(mass[2:, 2:], stiff[2:, 2:], eigvals_only=True)[-1])


def flat_membrane(nu=0.3):
    def run(n0):
        e, n2 = 1e-6, -1 / (64 * n0**2)
        f = lambda r, y: [y[1], (-r / (8 * y[0] ** 2) - 3 * y[1]) / r, -r / (2 * y[0])]
        return solve_ivp(f, [e, 1], [n0 + n2 * e * e, 2 * n2 * e, 0], rtol=1e-12, atol=1e-14, method="DOP853").y[:, -1]

    n0 = brentq(lambda v: (1 - nu) * run(v)[0] + run(v)[1], 0.3, 0.6, xtol=1e-14)
    print("flat membrane", 4 * n0, -run(n0)[2])


def spinning_ring(b, nu, n, order=50):
    x = np.cos(np.pi * np.arange(order + 1) / order)
    c = np.r_[2, np.ones(order - 1), 2] * (-1) ** np.arange(order + 1)
    gap = np.tile(x, (order + 1, 1)).T
    d = np.outer(c, 1 / c) / (gap - gap.T + np.eye(order + 1))
    d = (d - np.diag(d.sum(1))) * 2 / (1 - b)
    r = b + (1 - b) * (1 + x) / 2
    radial = (3 + nu) / 8 * (1 + b * b - b * b / r**2 - r * r)
    hoop = ((3 + nu) * (1 + b * b + b * b / r**2) - (1 + 3 * nu) * r * r) / 8
    return np.sort(la.eigvals(-np.diag(1 / r) @ d @ np.diag(r * radial) @ d + np.diag(n * n * hoop / r**2)).real)


def films():
    nu = mp.mpf("0.3")
    for n in (2, 3):
        m = n * (n + 1)
        w = (m + 1 + 3 * nu - mp.sqrt((m + 1 + 3 * nu) ** 2 - 4 * (1 - nu * nu) * (m - 2))) / (2 * (1 - nu * nu))
        pressed = w * mp.mpf("5e6") / mp.mpf("1.44") + (n - 1) * (n + 2) * 40 / (2 * mp.mpf("1e-3") * mp.mpf("1.2"))
        print("ball", n, mp.sqrt(w) / (2 * mp.pi), mp.sqrt(pressed) / (2 * mp.pi))
    for angle, n in ((30, 2), (60, 2), (60, 3)):
        q = n * n / mp.cos(mp.radians(angle)) ** 2
        print("spun cone", angle, n, n * (q - 3) / (q + 1))
    for n in (2, 4):
        b, axial = lambda r: r ** (n + 1), lambda r: (n + 1) * r**n * 2
        area = lambda r: r * mp.sqrt(1 + (r / 2) ** 2)
        end = [0, mp.mpf("1.3")]
        share = mp.quad(lambda r: -n * b(r) ** 2 * area(r), end) / mp.quad(lambda r: ((n * n + 1) * b(r) ** 2 + axial(r) ** 2) * area(r), end)
        print("spun paraboloid", n, n + 4 * share)
        for rim in ("0.9", "1.9"):
            print("spun cap", rim, n, spun_cap(mp.mpf(rim), n))
    for n in range(4):
        print("spinning ring, with roots that do not settle", n, spinning_ring(0.4, 0.3, n)[:4], spinning_ring(0.4, 0.3, n, 40)[:4])


def spun_cap(rim, n):
    """Bending without stretching in meridional, hoop and normal parts, from the strains alone."""
    v = lambda t: mp.sin(t) * mp.tan(t / 2) ** n
    u = lambda t: mp.sin(t) / n * (mp.diff(v, t) - v(t) * mp.cot(t))
    w = lambda t: -(n * v(t) + u(t) * mp.cos(t)) / mp.sin(t)
    a = lambda t: u(t) * mp.cos(t) + w(t) * mp.sin(t)
    top = mp.quad(lambda t: a(t) * v(t) * mp.sin(t), [mp.mpf("1e-6"), rim])
    return n + 4 * top / mp.quad(lambda t: (u(t) ** 2 + v(t) ** 2 + w(t) ** 2) * mp.sin(t), [mp.mpf("1e-6"), rim])


def boost():
    c, m, power, source = mp.mpf(299792458), mp.mpf("2.4e-3"), mp.mpf("3e8"), mp.mpf("1e7")
    k = 2 * power / (m * c * c)
    time = mp.quad(lambda x: 1 / (1 - mp.tanh(mp.log(1 + k * x))), [0, source])
    print("boost", mp.tanh(mp.log(1 + k * source)), time, mp.quad(lambda x: 1 + k * x, [0, source]), c * (time - source), power * source)


if __name__ == "__main__":
    for part in (heat, plates, booms, flat_membrane, films, boost):
        part()
