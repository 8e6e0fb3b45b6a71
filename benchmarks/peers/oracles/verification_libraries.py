"""Expected values of `lightkeel verify` from general-purpose libraries: NumPy, SciPy, mpmath. No code of the library."""

import math

import mpmath
import numpy as np
from scipy import integrate, linalg, optimize, signal, special, stats

LIGHT = 299792458.0
mpmath.mp.dps = 40

FULL = [[-3.1, 0.4, 1.2, -2.2], [0.7, -2.4, 1.9, 0.3], [0.25, -1.1, -1.7, 0.6], [0.9, 0.35, -0.45, -2.3]]
FIRST = [[1, 0.2, 0.1, 0.5], [0.3, -0.7, 0.4, -0.2], [0.1, 0.6, 0.9, 0.3], [-0.4, 0.2, 0.1, -0.8]]
SECOND = [[0.5, -0.3, 0.7, 0.1], [0.2, 0.6, -0.1, 0.4], [0.8, 0.1, -0.5, 0.2], [0.3, -0.6, 0.2, 0.4]]


def linear_algebra():
    """Eigenvalues and roots."""
    symmetric = [[2, -1, 0.5], [-1, 3, 0.25], [0.5, 0.25, 1]]
    mu = mpmath.mpf("0.01215")
    root = mpmath.sqrt(1 - 27 * mu * (1 - mu))
    roots = mpmath.eig(mpmath.matrix(FULL), left=False, right=False)
    pairs = sorted((complex(z).real, complex(z).imag) for z in roots if complex(z).imag > 0)
    nodes5 = [mpmath.findroot(lambda x: mpmath.legendre(5, x), x0) for x0 in (0.9061798459, 0.5384693101)]
    nodes20 = [mpmath.findroot(lambda x: mpmath.legendre(20, x), 0.9931285992)]

    def weight(n, x):
        return 2 * (1 - x * x) / ((n + 1) * mpmath.legendre(n + 1, x)) ** 2

    return {
        "LIN-01": list(np.linalg.eigvalsh(symmetric)),
        "LIN-02": [mpmath.sqrt((1 - root) / 2), mpmath.sqrt((1 + root) / 2)],
        "LIN-03": [mpmath.findroot(lambda m: 27 * m * (1 - m) - 1, 0.0385)],
        "LIN-04": [2 - 2 * mpmath.cos(k * mpmath.pi / 7) for k in range(1, 7)],
        "LIN-05": [v for pair in pairs for v in pair],
        "QUA-01": [nodes5[0], weight(5, nodes5[0]), nodes5[1], weight(5, nodes5[1]), mpmath.mpf(128) / 225],
        "QUA-02": [nodes20[0], weight(20, nodes20[0])],
        "QUA-03": kronrod15(),
        "QUA-04": [2 * mpmath.sinh(1)],
        "INP-01": [mpmath.besseli(0, 1)] + [2 * mpmath.besseli(k, 1) for k in range(1, 8)],
        "INP-02": [mpmath.sin(2), -mpmath.sin(mpmath.mpf("0.7"))],
        "INP-03": [mpmath.findroot(lambda x: mpmath.cos(x) - x, 0.7)],
    }


def kronrod15():
    """Outermost node and weight of the 7-15 pair from the defining equations: exact to degree 22."""
    gauss = [mpmath.findroot(lambda x: mpmath.legendre(7, x), g) for g in (0.949107912342759, 0.741531185599394, 0.405845151377397)]
    # Stieltjes polynomial x^8 + a x^6 + b x^4 + c x^2 + d, orthogonal to P_7 x^k for k <= 7 (odd k count).
    rows, right = [], []
    for k in (1, 3, 5, 7):
        rows.append([mpmath.quad(lambda x: mpmath.legendre(7, x) * x ** (k + p), [-1, 0, 1]) for p in (6, 4, 2, 0)])
        right.append(-mpmath.quad(lambda x: mpmath.legendre(7, x) * x ** (k + 8), [-1, 0, 1]))
    a, b, c, d = mpmath.lu_solve(mpmath.matrix(rows), mpmath.matrix(right))
    squares = [mpmath.re(z) for z in mpmath.polyroots([1, a, b, c, d], maxsteps=200, extraprec=200)]
    nodes = sorted([mpmath.sqrt(s) for s in squares] + gauss)
    outer = nodes[-1]
    # Weights of a symmetric rule of 15 nodes: solve the even moments.
    matrix = mpmath.matrix(8, 8)
    for i in range(8):
        matrix[i, 0] = 1 if i == 0 else 0
        for j in range(7):
            matrix[i, j + 1] = 2 * nodes[j] ** (2 * i)
    weights = mpmath.lu_solve(matrix, mpmath.matrix([mpmath.mpf(2) / (2 * i + 1) for i in range(8)]))
    return [outer, weights[7]]


def second_order_roots(mass, gyro, stiffness, damping=None):
    """Eigenvalues of M q'' + (D + G) q' = K q."""
    n = len(mass)
    m = mpmath.matrix(mass)
    inverse = m**-1
    c = mpmath.matrix(gyro)
    if damping is not None:
        c += mpmath.matrix(damping)
    a = mpmath.zeros(2 * n)
    low, rate = inverse * mpmath.matrix(stiffness), -(inverse * c)
    for i in range(n):
        a[i, n + i] = 1
        for j in range(n):
            a[n + i, j], a[n + i, n + j] = low[i, j], rate[i, j]
    return [complex(z) for z in mpmath.eig(a, left=False, right=False)]


def flat(roots, count):
    """Growth and angular rate of the roots in the upper half plane, by growth, then rate."""
    upper = sorted(((z.real, z.imag) for z in roots if z.imag > 1e-9), key=lambda p: (round(p[0], 9), p[1]))
    assert len(upper) == count, upper
    return [v for pair in upper for v in pair]


def top(mass, i1, i3, spin):
    """Mass matrix and gyroscopic matrix of a symmetric body in x, y, tilt x, tilt y."""
    h = i3 * spin
    return np.diag([mass, mass, i1, i1]).tolist(), [[0, 0, 0, 0], [0, 0, 0, 0], [0, 0, 0, h], [0, 0, -h, 0]]


def axisymmetric(kxx, kxt, ktx, ktt):
    return [[kxx, 0, 0, kxt], [0, kxx, -kxt, 0], [0, -ktx, ktt, 0], [ktx, 0, 0, ktt]]


def monodromy(spin, stiffness_at):
    """Floquet exponents of d/dt(J(t) th') = T - I3 W (th_y', -th_x') with inertia [[0.9,0.11],[0.11,1.3]], 1.6, mass 2."""
    body = np.array([[0.9, 0.11], [0.11, 1.3]])
    h = 1.6 * spin

    def rates(t, flat_state):
        y = flat_state.reshape(8, 8)
        c, s = math.cos(spin * t), math.sin(spin * t)
        turn = np.array([[c, -s], [s, c]])
        j = turn @ body @ turn.T
        q, v, momentum = y[:4], y[4:6], y[6:]
        tilt_rate = np.linalg.solve(j, momentum)
        load = np.array(stiffness_at(spin * t)) @ q
        torque = load[2:] - h * np.array([[0, 1], [-1, 0]]) @ tilt_rate
        return np.vstack([v, tilt_rate, load[:2] / 2, torque]).ravel()

    period = 2 * math.pi / abs(spin)
    run = integrate.solve_ivp(rates, [0, period], np.eye(8).ravel(), method="DOP853", rtol=1e-13, atol=1e-14)
    multipliers = np.linalg.eigvals(run.y[:, -1].reshape(8, 8))
    exponents = np.log(multipliers.astype(complex)) / period
    upper = sorted((z.real, z.imag) for z in exponents if z.imag > 1e-9)
    return [v for pair in upper for v in pair]


def hill(stiffness, period):
    run = integrate.solve_ivp(
        lambda t, y: [y[1], -stiffness(t) * y[0], y[3], -stiffness(t) * y[2]],
        [0, period], [1, 0, 0, 1], method="DOP853", rtol=1e-13, atol=1e-15,
    )
    return run.y[0, -1] + run.y[3, -1]


def mathieu(kind, n, q):
    """Characteristic value from the tridiagonal eigenproblem of the Fourier coefficients, 60 terms (DLMF 28.4)."""
    size = 60
    first = {"a even": 0, "a odd": 1, "b odd": 1, "b even": 2}[kind]
    diagonal = np.array([(first + 2 * k) ** 2 for k in range(size)], dtype=float)
    off = np.full(size - 1, float(q))
    if kind == "a even":
        off[0] *= math.sqrt(2)
    if kind == "a odd":
        diagonal[0] += q
    if kind == "b odd":
        diagonal[0] -= q
    values = linalg.eigvalsh_tridiagonal(diagonal, off)
    return values[(n - first) // 2]


def stability():
    five = [row + [0] for row in FULL] + [[0.8, -0.6, 0.5, 1.1, 0]]
    inertia = [[0.9, 0.11, -0.07], [0.11, 1.3, 0.13], [-0.07, 0.13, 1.6]]
    mass5 = np.zeros((5, 5))
    mass5[0, 0] = mass5[1, 1] = 2
    mass5[2:, 2:] = inertia
    squares = mpmath.eig(mpmath.matrix(mass5.tolist()) ** -1 * mpmath.matrix(five), left=False, right=False)
    roots5 = [sign * complex(mpmath.sqrt(z)) for z in squares if abs(z) > 1e-12 for sign in (1, -1)]
    damping = np.diag([0.31, 0.27, 0.12, 0.4]).tolist()
    lead = axisymmetric(-3.2, 1.4, -0.8, 1.1)
    i1, i3, mgl = 0.002, 0.001, 0.05
    critical = math.sqrt(4 * i1 * mgl)
    h = 1.5 * critical
    nutation = (h + math.sqrt(h * h - critical**2)) / (2 * i1)
    slow = 0.8 * critical

    def at(angle):
        return [
            [FULL[i][j] + 0.3 * FIRST[i][j] * math.cos(angle) + 0.2 * SECOND[i][j] * math.sin(2 * angle) for j in range(4)]
            for i in range(4)
        ]

    def turning(angle):
        # A craft whose own Jacobian turns with it (axisymmetric beam).
        c, s = math.cos(angle), math.sin(angle)
        turn = np.kron(np.eye(2), np.array([[c, -s], [s, c]]))
        return turn @ np.array(FULL) @ turn.T

    stable, unstable = hill(lambda t: 2 - math.cos(2 * t), math.pi), hill(lambda t: 1 - math.cos(2 * t), math.pi)
    tenth = hill(lambda t: 1 + 0.1 * math.cos(2 * t), math.pi)

    def meissner(first, second):
        m = np.eye(2)
        for k in (first, second):
            w = math.sqrt(k)
            c, s = math.cos(w * math.pi), math.sin(w * math.pi)
            m = np.array([[c, s / w], [-w * s, c]]) @ m
        return np.trace(m)

    def critical_distance(half_angle, waist):
        t = math.tan(math.radians(90 - half_angle))
        return waist * (4 - math.pi / 2 * t * t) / (2 * math.sqrt(math.pi / 2) * math.sin(2 * math.radians(90 - half_angle)))

    def ball_edge():
        def slope(ring):
            def integrand(b):
                r = math.sin(b)
                return math.exp(-2 * ((r - ring) / 0.3) ** 2) * (2 * math.cos(b) ** 2 - r * r) * r
            return integrate.quad(integrand, 0, math.pi / 2, epsrel=1e-12, points=[math.asin(min(1, ring))])[0]
        return optimize.brentq(slope, 0.4, 1, xtol=1e-14)

    return {
        "STB-01": flat(roots5, 4),
        "STB-02": flat(second_order_roots(*top(2, 0.9, 1.6, 1.7), FULL), 4),
        "STB-03": flat(second_order_roots(*top(2, 0.9, 1.6, 1.7), FULL, damping), 4),
        "STB-04": flat(second_order_roots(*top(2, 0.9, 1.6, 0), FULL, damping), 4),
        "STB-05": sorted(z.imag for z in second_order_roots(*top(2, 0.9, 1.6, 1.7), lead) if z.imag > 0),
        "STB-06": [max(z.real for z in second_order_roots(*top(2, 0.9, 1.6, 0.4), lead))],
        "STB-07": [mgl / (i1 * nutation), nutation],
        "STB-08": [math.sqrt(critical**2 - slow * slow) / (2 * i1)],
        "STB-09": [math.sqrt(3), math.sqrt(5)],
        "STB-10": [0.6],
        "STB-11": monodromy(1.7, turning),
        "STB-12": monodromy(-2.6, turning),
        "STB-13": monodromy(3.1, at),
        "STB-20": [stable, math.acos(stable / 2) / math.pi],
        "STB-21": [unstable, math.acosh(-unstable / 2) / math.pi],
        "STB-22": [math.acosh(-tenth / 2) / math.pi],
        "STB-23": [meissner(1.5, 0.5), meissner(2.5, 1.5)],
        "STB-24": [mathieu("a even", 0, 5)],
        "STB-25": [mathieu("b odd", 1, 5)],
        "STB-26": [mathieu("a odd", 1, 5)],
        "STB-27": [mathieu("b even", 2, 5)],
        "STB-28": [mathieu("a even", 2, 5)],
        "STB-29": [mathieu("a even", 0, 1)],
        "STB-30": [mathieu("b odd", 1, 1)],
        "STB-31": [mathieu("a odd", 1, 1)],
        "STB-32": [mathieu("a even", 0, 25)],
        "STB-33": [optimize.brentq(lambda q: mathieu("b odd", 1, q), 0.8, 1, xtol=1e-14)],
        "STB-40": [critical_distance(a, w) for a, w in ((65, 1), (70, 1), (75, 0.7), (80, 1))],
        "STB-41": [2.0],
        "STB-42": [ball_edge()],
        "STB-43": spin_bounds(),
        "STB-44": [critical_distance(70, 1)],
    }


def spin_bounds():
    """Spins between which w^4 - h w^3 + 2 s w^2 - 4 has four real roots, s = 6 (P/c = 1)."""
    def discriminant(h):
        h = mpmath.mpf(h)
        roots = mpmath.polyroots([1, -h, 12, 0, -4], maxsteps=200, extraprec=200)
        product = mpmath.mpf(1)
        for i in range(4):
            for j in range(i):
                product *= (roots[i] - roots[j]) ** 2
        return mpmath.re(product)

    def bisected(low, high):
        sign = discriminant(low) > 0
        for _ in range(80):
            middle = (low + high) / 2
            low, high = (middle, high) if (discriminant(middle) > 0) == sign else (low, middle)
        return low

    return [bisected(mpmath.mpf("6.5"), mpmath.mpf(7)), bisected(mpmath.mpf("8.5"), mpmath.mpf("9.5"))]


def tilt_total(kind, outer):
    """One-axis tilt variance over (lambda/D)^2 (D/r0)^(5/3): radial integral of the von Karman spectrum."""
    constant = special.gamma(11 / 6) ** 2 / (2 * math.pi ** (11 / 3)) * (24 / 5 * special.gamma(6 / 5)) ** (5 / 6)
    least = 0 if math.isinf(outer) else outer**-2

    def integrand(logf):
        f = math.exp(logf)
        phase = constant * (f * f + least) ** (-11 / 6)
        x = math.pi * f
        if kind == "zernike":
            # (2/pi)^2 a_2^2, a_2: 2 (2 J2(x)/x)^2 averaged over the angle, unit disc of diameter 1.
            weight = 4 / math.pi**2 * 2 * (2 * special.jv(2, x) / x) ** 2
        else:
            weight = f * f / 2 * (2 * special.jv(1, x) / x) ** 2
        return 2 * math.pi * phase * weight * f * f

    edges = [math.log(v) for v in np.geomspace(1e-60, 1e-2, 60)] + [math.log(0.01 + 0.5 * k) for k in range(1, 4000)]
    total = 0.0
    nodes, weights = np.polynomial.legendre.leggauss(24)
    for a, b in zip(edges[:-1], edges[1:]):
        mid, half = (a + b) / 2, (b - a) / 2
        total += half * sum(w * integrand(mid + half * x) for x, w in zip(nodes, weights))
    # What lies beyond the last edge, with the mean square 1/(pi x) of a Bessel function.
    end = math.exp(edges[-1])
    if kind == "gradient":
        total += 4 * constant / math.pi**3 * integrate.quad(lambda f: f ** (-11 / 3), end, np.inf)[0]
    return total


def windows():
    def figures(name, n=1 << 20):
        w = signal.get_window(name, n)
        enbw = n * np.sum(w * w) / np.sum(w) ** 2
        half = abs(np.sum(w * np.exp(-1j * math.pi * np.arange(n) / n))) / np.sum(w)
        return enbw, -20 * math.log10(half)

    def overlap(name, share, n=1 << 20):
        w = signal.get_window(name, n)
        shift = int(round(n * (1 - share)))
        return np.sum(w[: n - shift] * w[shift:]) / np.sum(w * w)

    return {
        "NOI-20": [figures("boxcar")[0], figures("boxcar")[1]],
        "NOI-21": [*figures("hann"), overlap("hann", 0.5), overlap("hann", 0.75)],
        "NOI-22": [*figures("hamming"), overlap("hamming", 0.5), overlap("hamming", 0.75)],
        "NOI-23": [*figures("flattop")],
    }


def welch():
    n = np.arange(4096)
    record = np.sin(0.37 * n) + np.cos(0.0031 * n**1.5)

    def bins(window, share, detrend="constant"):
        _, density = signal.welch(record, fs=100, window=window, nperseg=256, noverlap=int(256 * share), detrend=detrend)
        return density

    hann, boxcar, flattop = bins("hann", 0.5), bins("boxcar", 0), bins("flattop", 0.5, False)
    sine = math.sqrt(2) * np.sin(2 * math.pi * 125 * np.arange(8192) / 1000)
    _, peak = signal.welch(sine, fs=1000, nperseg=1024)
    return {
        "NOI-24": [hann[0], hann[1], hann[15]],
        "NOI-25": [boxcar[1], boxcar[15]],
        "NOI-26": [flattop[0], flattop[1], flattop[15]],
        "NOI-27": [peak[128]],
        "NOI-28": [127 / (1 + 2 * (1 - 1 / 127) / 36)],
        "NOI-29": [20 / stats.chi2.ppf(0.975, 20), 20 / stats.chi2.ppf(0.025, 20)],
    }


def noise():
    values = {}
    arguments = (0.001, 0.5, 2.0, 7.9, 8.1, 20.0, 100.0, 1000.0)
    values["NOI-01"] = [mpmath.besselj(1, mpmath.mpf(x)) for x in arguments]
    values["NOI-02"] = [mpmath.besselj(2, mpmath.mpf(x)) for x in arguments]
    values["NOI-03"] = [2e-6, 5e-7]
    values["NOI-04"] = [1e-8 * 200 * math.pi / 2, 1e-8 * 200 * math.pi / 4, 5e-9]
    values["NOI-05"] = [4e-6 * math.log(1e4), 8e-8]
    values["NOI-06"] = [0.04 * 40 * (1 - 1 / 16) + 0.04 * 420 + 20 * math.log(4), 0.02, 0.04]
    values["NOI-07"] = [1 - (math.atan(40) + math.atan(80)) / math.pi]
    values["NOI-08"] = [(1000 ** 1.7 - 1) * 3 / (1.7 * 10**0.7), 3 * 5**0.7 / 10**0.7]
    for k, (kind, outer) in enumerate((t, o) for t in ("zernike", "gradient") for o in (math.inf, 10, 1)):
        values[f"NOI-{10 + k}"] = [tilt_total(kind, outer)]
    values.update(windows())
    values.update(welch())
    return values


def sampling():
    """Random numbers, point sets, distributions, elementary functions."""
    def halves(words):
        return [half for word in words for half in (int(word) >> 32, int(word) & 0xFFFFFFFF)]

    def philox(counter, key):
        # NumPy's counter counts before it draws: one less gives the block of this counter.
        number = sum(int(c) << (64 * i) for i, c in enumerate(counter))
        before = (number - 1) % (1 << 256)
        parts = [(before >> (64 * i)) & 0xFFFFFFFFFFFFFFFF for i in range(4)]
        generator = np.random.Philox(counter=np.array(parts, dtype=np.uint64), key=np.array(key, dtype=np.uint64))
        return halves(generator.random_raw(4))

    every = 0xFFFFFFFFFFFFFFFF
    digits = [0x243F6A8885A308D3, 0x13198A2E03707344, 0xA4093822299F31D0, 0x082EFA98EC4E6C89]
    fnv = 0xCBF29CE484222325
    for byte in (ord("a"), 0):
        fnv = ((fnv ^ byte) * 0x100000001B3) % (1 << 64)
    sobol = stats.qmc.Sobol(21, scramble=False).random(1024)
    big = stats.qmc.Sobol(64, scramble=False).random(4096)
    mixed = 0
    for x in (big * (1 << 30)).astype(np.int64).ravel():
        mixed = ((mixed ^ int(x)) * 0x100000001B3) % (1 << 64)
    cut = stats.truncnorm(-1, 2.5, loc=1, scale=2)
    log_normal = stats.lognorm(0.5, scale=3)
    triangle = stats.triang(0.25, loc=-1, scale=4)
    rayleigh = stats.rayleigh(scale=2)

    def truncated(a, b):
        mpmath.mp.dps = 60
        a, b = mpmath.mpf(a), mpmath.mpf(b)

        def upper(x):
            return mpmath.erfc(x / mpmath.sqrt(2)) / 2

        z = upper(a) - upper(b)
        density = lambda x: mpmath.exp(-x * x / 2) / mpmath.sqrt(2 * mpmath.pi)
        mean = (density(a) - density(b)) / z
        second = 1 + (a * density(a) - (b * density(b) if b < 1e6 else 0)) / z
        median = mpmath.findroot(lambda x: upper(x) - upper(a) + z / 2, a + min(b - a, 1 / a) / 2)
        result = [mean, mpmath.sqrt(second - mean**2), median]
        mpmath.mp.dps = 40
        return result

    def each(function, arguments):
        return [function(mpmath.mpf(float(x))) for x in arguments]

    normal = (-37.5, -20.0, -8.0, -3.0, -1.0, -0.001, 0.5, 2.0, 6.0)
    shares = (1e-300, 1e-100, 1e-20, 1e-11, 1e-05, 0.01, 0.0749, 0.3, 0.9, 0.975, 0.999999)

    def quantile(p):
        mpmath.mp.dps = 330
        x = mpmath.findroot(lambda z: mpmath.log(mpmath.erfc(-z / mpmath.sqrt(2)) / 2) - mpmath.log(p), special.ndtri(float(p)))
        mpmath.mp.dps = 40
        return +x

    return {
        "SMP-01": philox([0, 0, 0, 0], [0, 0]),
        "SMP-02": philox([every] * 4, [every] * 2),
        "SMP-03": philox(digits, [0x452821E638D01377, 0xBE5466CF34E90C6C]),
        "SMP-04": halves([fnv]),
        "SMP-05": list(sobol[7]),
        "SMP-06": list(sobol[1000]),
        "SMP-07": halves([mixed]),
        "SMP-10": [cut.mean(), cut.std(), cut.ppf(0.01), cut.ppf(0.5), cut.ppf(0.99), cut.cdf(2), cut.pdf(2)],
        "SMP-11": truncated(30, 31),
        "SMP-12": [
            log_normal.mean(), log_normal.std(), log_normal.ppf(0.05), log_normal.ppf(0.95), log_normal.cdf(4), log_normal.pdf(4),
        ],
        "SMP-13": [triangle.mean(), triangle.std(), triangle.ppf(0.05), triangle.ppf(0.95), triangle.cdf(0.5), triangle.pdf(0.5)],
        "SMP-14": [rayleigh.mean(), rayleigh.std(), rayleigh.ppf(0.95), rayleigh.pdf(3)],
        "SMP-15": [5 / math.sqrt(12), -0.5],
        "SMP-20": each(mpmath.log, (5e-324, 1e-310, 1e-20, 0.5, 0.7071, 0.99999, 1.0000001, 3.0, 1e300)),
        "SMP-21": each(mpmath.exp, (-708.0, -30.5, -1e-09, 0.1, 1.0, 50.25, 709.5)),
        "SMP-22": each(mpmath.log1p, (-0.999, -0.3, -1e-10, 1e-05, 0.2, 0.3, 5.0)),
        "SMP-23": each(mpmath.expm1, (-1.0, -0.35, -1e-12, 0.01, 0.34, 3.0)),
        "SMP-24": each(mpmath.atan, (-1e10, -3.0, -0.4, 1e-08, 0.3, 0.9, 2.4, 100.0)),
        "SMP-25": each(lambda t: mpmath.sin(2 * mpmath.pi * t), (0.01, 0.126, 0.3, 0.74, -0.2, 12345.678)),
        "SMP-26": each(lambda t: mpmath.cos(2 * mpmath.pi * t), (0.01, 0.126, 0.3, 0.74, -0.2, 12345.678)),
        "SMP-27": each(lambda z: mpmath.erfc(-z / mpmath.sqrt(2)) / 2, normal),
        "SMP-28": each(quantile, shares),
    }


TREATED = [6, 6, 6, 6, 7, 9, 10, 10, 11, 13, 16, 17, 19, 20, 22, 23, 25, 32, 32, 34, 35]
ENDED = [1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0]
CONTROL = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23]
NORRIS_Y = [
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
    557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
]
NORRIS_X = [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
    556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
]


def survival():
    """Product-limit estimate, Greenwood's error and the log-rank statistic, by their formulas."""
    s, g, curve, errors = 1.0, 0.0, {}, {}
    for t in sorted({t for t, e in zip(TREATED, ENDED) if e}):
        at_risk = sum(x >= t for x in TREATED)
        events = sum(x == t and e for x, e in zip(TREATED, ENDED))
        s *= 1 - events / at_risk
        g += events / (at_risk * (at_risk - events))
        curve[t], errors[t] = s, s * math.sqrt(g)
    observed, expected, variance = 0.0, 0.0, 0.0
    everybody = [(t, e, 0) for t, e in zip(TREATED, ENDED)] + [(t, 1, 1) for t in CONTROL]
    for t in sorted({t for t, e, _ in everybody if e}):
        n = sum(x >= t for x, _, _ in everybody)
        n0 = sum(x >= t and k == 0 for x, _, k in everybody)
        d = sum(x == t and e for x, e, _ in everybody)
        d0 = sum(x == t and e and k == 0 for x, e, k in everybody)
        observed += d0
        expected += d * n0 / n
        if n > 1:
            variance += d * (n0 / n) * (1 - n0 / n) * (n - d) / (n - 1)
    chi = (observed - expected) ** 2 / variance
    theta = math.log(-math.log(curve[6]))
    half = 1.959963984540054 * errors[6] / (curve[6] * abs(math.log(curve[6])))
    low, high = math.exp(-math.exp(theta + half)), math.exp(-math.exp(theta - half))
    return {
        "STA-20": [curve[t] for t in (6, 10, 13, 22, 23)],
        "STA-21": [errors[6], errors[23]],
        "STA-22": [low, high],
        "STA-23": [chi, stats.chi2.sf(chi, 1)],
        "STA-24": [9 / 359, stats.chi2.ppf(0.025, 18) / 718, stats.chi2.ppf(0.975, 20) / 718],
    }


def statistics():
    def exact(k, n, level=0.95):
        a = (1 - level) / 2
        low = 0.0 if k == 0 else stats.beta.ppf(a, k, n - k + 1)
        high = 1.0 if k == n else stats.beta.ppf(1 - a, k + 1, n - k)
        return [low, high]

    def wilson(k, n, level=0.95):
        z, p = stats.norm.ppf((1 + level) / 2), k / n
        centre, half = p + z * z / (2 * n), z * math.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
        return [(centre - half) / (1 + z * z / n), (centre + half) / (1 + z * z / n)]

    values = survival()
    sample = [3.1, -1, 2.5, 7, 0.3, 4.4, 4.4, 9]
    one = mpmath.mpf(1)
    n = mpmath.mpf(10) ** 9
    upper = mpmath.findroot(lambda p: (n - 1) * mpmath.log1p(-p) + mpmath.log(1 - p + n * p) - mpmath.log("0.025"), 5.57e-9)
    fit = stats.linregress([mpmath.mpf(str(x)) and x for x in NORRIS_X], NORRIS_Y)
    x = [mpmath.mpf(str(v)) for v in NORRIS_X]
    y = [mpmath.mpf(str(v)) for v in NORRIS_Y]
    mx, my = sum(x) / 36, sum(y) / 36
    sxx = sum((v - mx) ** 2 for v in x)
    slope = sum((v - mx) * (w - my) for v, w in zip(x, y)) / sxx
    intercept = my - slope * mx
    residual = mpmath.sqrt(sum((w - intercept - slope * v) ** 2 for v, w in zip(x, y)) / 34)
    square = 1 - residual**2 * 34 / sum((w - my) ** 2 for w in y)
    assert abs(fit.slope / float(slope) - 1) < 1e-10

    def beta(a, b, t):
        return mpmath.betainc(mpmath.mpf(a), mpmath.mpf(b), 0, mpmath.mpf(float(t)), regularized=True)

    def student(p, freedom):
        f = mpmath.mpf(freedom)

        def tail(t):
            half = mpmath.betainc(f / 2, one / 2, 0, f / (f + t * t), regularized=True) / 2
            return 1 - half if t > 0 else half

        return mpmath.findroot(lambda t: tail(t) - mpmath.mpf(float(p)), stats.t.ppf(p, freedom))

    a, b = mpmath.mpf(7), mpmath.mpf("0.1")
    p4, p8 = mpmath.pi**4, mpmath.pi**8
    total = a * a / 8 + b * p4 / 5 + b * b * p8 / 18 + one / 2
    v1 = (1 + b * p4 / 5) ** 2 / 2
    v2 = a * a / 8
    v13 = b * b * p8 * (one / 18 - one / 50)
    values.update(
        {
            "STA-01": exact(4, 20, 0.9) + wilson(4, 20, 0.9),
            "STA-02": wilson(81, 263) + exact(81, 263),
            "STA-03": wilson(15, 148) + exact(15, 148),
            "STA-04": [wilson(0, 10)[1], exact(0, 10)[1]],
            "STA-05": wilson(950, 1000),
            "STA-06": [59, 299],
            "STA-07": [1 - mpmath.mpf("0.05") ** (one / 100)],
            "STA-08": [1 - mpmath.mpf("0.975") ** (1 / n), upper],
            "STA-09": [special.ndtri(0.975), student(0.975, 10), stats.chi2.ppf(0.95, 10)],
            "STA-10": [beta(a_, b_, t) for a_, b_, t in ((0.5, 0.5, 0.1), (2, 3, 0.4), (81, 183, 0.3), (0.5, 20, 0.001))],
            "STA-11": [stats.beta.ppf(0.05, 4, 17), stats.beta.ppf(0.025, 1e5, 3), stats.beta.ppf(1e-6, 0.5, 0.5)],
            "STA-12": [stats.chi2.ppf(p, f) for p, f in ((0.025, 2), (0.975, 3.7), (0.005, 200.5), (0.995, 2000))],
            "STA-13": [student(p, f) for p, f in ((0.975, 10), (0.6, 3), (0.995, 34), (0.01, 1.5))],
            "STA-14": [stats.kstwo.sf(d, k) for k, d in ((5, 0.3), (20, 0.1), (100, 0.1), (100, 0.05))],
            "STA-15": [special.kolmogorov(0.5), special.kolmogorov(0.9)],
            "STA-16": [special.kolmogi(0.05), stats.kstwo.isf(0.05, 20)],
            "STA-30": [np.mean(sample), np.var(sample, ddof=1), stats.skew(sample), stats.kurtosis(sample)],
            "STA-31": [np.quantile(sample, p, method="median_unbiased") for p in (0, 0.1, 0.5, 0.9, 1)],
            "STA-32": [stats.ks_2samp([0.1, 0.4, 0.7, 1.5, 2.2], [0.3, 0.4, 1.0, 3.0, 3.1, 4.0]).statistic],
            "STA-33": [10000000.2, 0.1, -0.999],
            "STA-34": [intercept, slope, square, residual],
            "STA-40": [a / 2, total],
            "STA-41": [v1 / total, v2 / total, 0],
            "STA-42": [(v1 + v13) / total, v2 / total, v13 / total],
        }
    )
    return values


def surface(radius, height, slope_radius, slope_height, start, end, breaks=()):
    """Area, first and second axial moments and radial second moment of a surface of revolution."""
    def moment(f):
        def integrand(u):
            arc = mpmath.sqrt(slope_radius(u) ** 2 + slope_height(u) ** 2)
            return 2 * mpmath.pi * radius(u) * arc * f(u)
        return mpmath.quad(integrand, [start, *breaks, end])

    return [
        moment(lambda u: 1),
        moment(height),
        moment(lambda u: height(u) ** 2),
        moment(lambda u: radius(u) ** 2),
    ]


def surfaces():
    d = mpmath.pi / 180

    def paraboloid(f, r, side):
        f, r = mpmath.mpf(f), mpmath.mpf(r)
        return surface(lambda u: u, lambda u: side * u * u / (4 * f), lambda u: 1, lambda u: side * u / (2 * f), 0, r)

    def cone(r, angle, side, small=0, from_small=False):
        r, small = mpmath.mpf(r), mpmath.mpf(small)
        t = 1 / mpmath.tan(angle * d)
        shift = (small if side > 0 else r) * t if from_small else 0
        return surface(lambda u: u, lambda u: side * u * t - side * shift, lambda u: 1, lambda u: side * t, small, r)

    def cap(r, angle, side):
        r = mpmath.mpf(r)
        return surface(
            lambda u: r * mpmath.sin(u), lambda u: side * r * (1 - mpmath.cos(u)),
            lambda u: r * mpmath.cos(u), lambda u: side * r * mpmath.sin(u), 0, angle * d,
        )

    return {
        "MAS-01": paraboloid("0.7", 2, -1),
        "MAS-02": paraboloid(50, "0.3", 1),
        "MAS-03": cone("1.5", 35, 1, "0.4", True),
        "MAS-04": cone("1.5", 35, -1, "0.4", True),
        "MAS-05": cone("1.5", 35, -1),
        "MAS-06": cap("1.3", 110, -1),
        "MAS-07": profile(),
        "MAS-08": [mpmath.pi * mpmath.mpf("3.75"), 4 * mpmath.pi * mpmath.mpf("1.44")],
    }


def profile():
    from scipy.interpolate import PchipInterpolator

    radii, heights = [0.2, 0.5, 1.0, 1.3, 2.0], [0.1, 0.4, 0.35, 0.9, 1.0]
    curve = PchipInterpolator(radii, heights)
    slope = curve.derivative()
    return surface(
        lambda u: u, lambda u: mpmath.mpf(float(curve(float(u)))), lambda u: 1, lambda u: mpmath.mpf(float(slope(float(u)))),
        radii[0], radii[-1], radii[1:-1],
    )


GL_NODES, GL_WEIGHTS = np.polynomial.legendre.leggauss(120)


def ball_potential(x, y, radius, irradiance, kernel):
    """Integral of I(X + u) kernel(q), q^2 = 1 - u^2/R^2, over the shadow of a ball: Gauss-Legendre by sine, trapezoid around."""
    beta = math.pi / 4 * (GL_NODES + 1)
    around = 2 * math.pi * np.arange(512) / 512
    u = radius * np.sin(beta)[:, None]
    weight = (math.pi / 4 * GL_WEIGHTS * radius * np.cos(beta))[:, None] * u * (2 * math.pi / 512)
    light = irradiance(x + u * np.cos(around), y + u * np.sin(around))
    return float(np.sum(weight * light * kernel(np.cos(beta)[:, None])))


def axis_integral(x, radius, irradiance, kernel, breaks):
    """Integral of I(rho) kernel(q, x - rho cos) over the shadow of a ball at distance x, about the beam's axis (QUADPACK)."""
    def around(rho):
        # 1 - d^2/R^2 = a + b cos(phi) above zero.
        a, b = 1 - (x * x + rho * rho) / radius**2, 2 * x * rho / radius**2
        if a <= -b:
            return 0.0
        end = math.pi if a >= b else math.acos(-a / b)
        # phi = end sin(t): the vanishing root at the rim of the shadow becomes smooth.
        def integrand(t):
            phi = end * math.sin(t)
            q = math.sqrt(max(0.0, a + b * math.cos(phi)))
            return kernel(q, x - rho * math.cos(phi)) * end * math.cos(t)
        return 2 * integrate.quad(integrand, 0, math.pi / 2, epsabs=1e-14, epsrel=1e-12, limit=200)[0]

    places = sorted({p for p in (0, *breaks, abs(radius - x), radius + x) if p <= radius + x})
    return sum(
        integrate.quad(lambda r: irradiance(r) * r * around(r), a, b, epsabs=1e-15, epsrel=1e-12, limit=200)[0]
        for a, b in zip(places[:-1], places[1:])
    )


def wells():
    """Potential of a ball: U = (R/c) int I [(2/3) Rs q^3 + (1/3)(Rd + A e) q^2]."""
    r0, s, power, radius, mass = 1.05, 0.45, 300e6, 1.2, 2.4e-3
    whole = 2 * math.pi * integrate.quad(lambda r: r * math.exp(-2 * ((r - r0) / s) ** 2), 0, 6, points=[r0], epsrel=1e-13)[0]

    def ring(rho):
        return power / whole * math.exp(-2 * ((rho - r0) / s) ** 2)

    def mirror(x):
        return 2 * radius / (3 * LIGHT) * axis_integral(x, radius, ring, lambda q, _: q**3, (r0,))

    def force(x):
        # -dU/dx: the derivative of q^3 is -3 q (x - rho cos)/R^2.
        return 2 / (radius * LIGHT) * axis_integral(x, radius, ring, lambda q, d: q * d, (r0,))

    def film(x):
        e = (0.05 - 0.2) / 0.25
        return radius / LIGHT * axis_integral(
            x, radius, ring, lambda q, _: 2 / 3 * 0.9 * q**3 + (0.06 + 0.04 * e) / 3 * q**2, (r0,)
        )

    rim = optimize.brentq(force, 0.8, 0.9, xtol=1e-13)
    bottom = mirror(0.0)
    depth = mirror(rim) - bottom
    # -dF/dx at the axis: 2 pi R int I(R s) (2 c^2 - s^2) s over the quarter circle, over c.
    stiffness = -2 * math.pi * radius / LIGHT * integrate.quad(
        lambda b: ring(radius * math.sin(b)) * (2 * math.cos(b) ** 2 - math.sin(b) ** 2) * math.sin(b),
        0, math.pi / 2, points=[math.asin(r0 / radius)], epsrel=1e-12,
    )[0]

    def cross(x, y):
        return sum(
            0.25e6 * 2 / math.pi * np.exp(-2 * ((x - a) ** 2 + (y - b) ** 2))
            for a, b in ((1.2, 0), (-1.2, 0), (0, 1.2), (0, -1.2))
        )

    def diagonal(t):
        place = t / math.sqrt(2)
        return 2 * 0.6 / (3 * LIGHT) * ball_potential(place, place, 0.6, cross, lambda q: q**3)

    def diagonal_slope(t, h=1e-2):
        near = [diagonal(t + k * h) - diagonal(t - k * h) for k in (1, 2, 3)]
        return (45 * near[0] - 9 * near[1] + near[2]) / (60 * h)

    pass_at = optimize.brentq(diagonal_slope, 0.7, 1.0, xtol=1e-13)
    forces = np.polynomial.chebyshev.Chebyshev.interpolate(np.vectorize(force), 60, domain=[0, 0.8])
    potential = -forces.integ(lbnd=0)

    def swing(amplitude):
        # Period 4 int_0^A dx / sqrt(2 (U(A) - U(x))/m), x = A sin v.
        nodes, weights = np.polynomial.legendre.leggauss(80)
        v = math.pi / 4 * (nodes + 1)
        gap = potential(amplitude) - potential(amplitude * np.sin(v))
        total = np.sum(math.pi / 4 * weights * amplitude * np.cos(v) / np.sqrt(2 * gap / mass))
        return 1 / (4 * total)

    return {
        "WEL-01": [rim],
        "WEL-02": [depth],
        "WEL-03": [math.sqrt(2 * depth / mass)],
        "WEL-04": [math.sqrt(stiffness / mass) / (2 * math.pi)],
        "WEL-05": [-bottom],
        "WEL-06": [film(x) for x in (0.0, 0.3, 0.7, 1.4)],
        "WEL-07": [pass_at, diagonal(pass_at) - diagonal(0.0), math.pi / 4],
        "WEL-08": [swing(a) for a in (0.2, 0.5, 0.75)],
    }


def ride():
    """A ball on a spring in uniform light, both carried by boost matrices; state x, celerity, proper time; one kilogram."""
    thrust = 2.5e5

    def boost(beta):
        square = float(beta @ beta)
        gamma = 1 / math.sqrt(1 - square)
        matrix = np.eye(4)
        matrix[0, 0] = gamma
        matrix[0, 1:] = matrix[1:, 0] = -gamma * beta
        matrix[1:, 1:] += (gamma - 1) * np.outer(beta, beta) / square if square > 0 else 0
        return matrix

    def rates(_, y):
        place, celerity = y[:3], y[3:6]
        gamma = math.sqrt(1 + celerity @ celerity / LIGHT**2)
        into = boost(celerity / gamma / LIGHT)
        light = into @ np.array([1.0, 0, 0, 1])
        force = light[0] ** 2 * (thrust * light[1:] / light[0] - np.array([place[0], place[1], 0]))
        back = boost(-celerity / gamma / LIGHT) @ np.concatenate([[0], force])
        return np.concatenate([celerity / gamma, back[1:] / gamma, [1 / gamma]])

    start = [0.3, 0, 0, 0, 0, 0, 0]
    run = integrate.solve_ivp(rates, [0, 300], start, method="DOP853", rtol=1e-13, atol=1e-12)
    end = run.y[:, -1]
    return {"REL-18": [end[6], end[2], end[5], end[0], end[3]]}


GROUPS = (linear_algebra, stability, noise, sampling, statistics, surfaces, wells, ride)

if __name__ == "__main__":
    for group in GROUPS:
        for name, numbers in group().items():
            print(name, " ".join(mpmath.nstr(mpmath.mpf(x), 17) for x in numbers), flush=True)
