"""Reflected and passed shares of layered films by the recursion of amplitude reflectances, at 30 digits."""
import mpmath as mp

mp.mp.dps = 30


def shares(indices, thicknesses, angle, wavelength, across):
    indices = [mp.mpc(n) for n in indices]
    along = indices[0] * mp.sin(angle)
    normal = []
    for n in indices:
        k = 2 * mp.pi / wavelength * mp.sqrt(n * n - along * along)
        normal.append(-k if k.imag < 0 else k)

    def surface(a, b):
        ka, kb = normal[a], normal[b]
        if not across:
            ka, kb = ka * indices[b] ** 2, kb * indices[a] ** 2
        return (ka - kb) / (ka + kb), 2 * ka / (ka + kb)

    r, t = surface(len(indices) - 2, len(indices) - 1)
    for j in range(len(indices) - 2, 0, -1):
        phase = mp.exp(1j * normal[j] * thicknesses[j - 1])
        rj, tj = surface(j - 1, j)
        below = 1 + rj * r * phase**2
        r, t = (rj + r * phase**2) / below, tj * t * phase / below
    weight = [1, 1] if across else [indices[0] ** 2, indices[-1] ** 2]
    return abs(r) ** 2, abs(t) ** 2 * mp.re(normal[-1] / weight[1]) / mp.re(normal[0] / weight[0])


degree = mp.pi / 180
for name, film in {
    "0": ([1, 2 + 4j, 3 + 0.3j, 1 + 0.1j], [2, 3], mp.mpf("0.1"), 100),
    "1": ([1, 2.0, 1.45, 2.0, 1], [0.15, 0.2, 0.13], 70 * degree, mp.mpf("1.1")),
    "2": ([1, 2.1 + 0.01j, 1.4, 0.2 + 7.6j, 1], [0.15, 0.2, 0.02], 50 * degree, mp.mpf("1.064")),
}.items():
    print(name, [mp.nstr(v, 18) for across in (True, False) for v in shares(*film, across)])
