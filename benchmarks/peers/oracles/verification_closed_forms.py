"""Expected values of `lightkeel verify` that have a closed form, to 50 digits with mpmath. No code of the library."""

from mpmath import (
    asin,
    atan,
    cos,
    e1,
    ellipk,
    exp,
    gamma,
    inf,
    ln,
    matrix,
    mp,
    mpf,
    pi,
    quad,
    radians,
    sin,
    sqrt,
    tan,
)

mp.dps = 50
LIGHT = mpf(299792458)


def constants():
    """SI Brochure, 9th edition: exact definitions and the units written with them."""
    return {
        "CON-01": [LIGHT],
        "CON-02": [mpf(149597870700)],
        "CON-03": [pi / 180, pi / 10800, pi / 648000],
        "CON-04": [mpf(86400), mpf(3600), mpf(60)],
        "CON-05": [mpf(7200) / 60],
        "CON-06": [mpf("3.5e-4")],
        "CON-07": [mpf(10)],
        "CON-08": [mpf("0.2") * LIGHT],
    }


def boost_times(beta):
    """Perfect mirror under constant source power, in units of T = m c^2/(2 P) and c T."""
    beta = mpf(beta)
    lorentz = 1 / sqrt(1 - beta**2)
    u = sqrt((1 + beta) / (1 - beta))
    return [
        u - 1,
        (lorentz * (1 + beta) * (2 - beta) / (1 - beta) - 2) / 3,
        beta / (1 - beta),
        u**3 / 6 - u / 2 + mpf(1) / 3,
    ]


def boost_by_quadrature(beta):
    """The same from the equation of motion in rapidity: push 2P/c e^(-2w) in the craft's frame."""
    w = mp.atanh(mpf(beta))
    time = quad(lambda x: mp.cosh(x) * exp(2 * x), [0, w])
    proper = quad(lambda x: exp(2 * x), [0, w])
    distance = quad(lambda x: mp.sinh(x) * exp(2 * x), [0, w])
    # In T = m c^2/(2P): m c/(2P/c) = T.
    return [time - distance, time, proper, distance]


def boosted_light(bx, by, bz):
    """Four-vector of light along +z, carried into a moving frame by the boost matrix: direction and D squared."""
    b = matrix([mpf(bx), mpf(by), mpf(bz)])
    square = sum(x * x for x in b)
    g = 1 / sqrt(1 - square)
    k = matrix([0, 0, 1])
    along = sum(b[i] * k[i] for i in range(3))
    energy = g * (1 - along)
    n = [k[i] + ((g - 1) * along / square - g) * b[i] for i in range(3)]
    return [x / energy for x in n] + [energy**2]


def relativity():
    """Annalen der Physik 322, 891 (1905); Nature 211, 22 (1966); Nature 213, 588 (1967)."""
    values = {
        "REL-01": [mpf(2) / 3],
        "REL-02": [cos(radians(120))],
        "REL-03": [mpf(1) / 199],
        "REL-04": boosted_light("0.2", "-0.3", "0.5"),
    }
    for name, beta in (("REL-05", "0.1"), ("REL-06", "0.2"), ("REL-07", "0.5"), ("REL-08", "0.9"), ("REL-09", "0.99")):
        values[name] = boost_times(beta)
        other = boost_by_quadrature(beta)
        assert all(abs(a / b - 1) < mpf("1e-30") for a, b in zip(values[name], other)), name
    t = mpf("1e-3") * LIGHT**2 / mpf("2e11")
    emission, time, proper, distance = boost_times("0.2")
    beta = mpf("0.2")
    u = sqrt((1 + beta) / (1 - beta))
    kinetic = 1 / sqrt(1 - beta**2) - 1
    values["REL-10"] = [time * t, proper * t, distance * LIGHT * t, emission * t * mpf("1e11")]
    values["REL-11"] = [(u - 1) / 2, kinetic, kinetic / ((u - 1) / 2)]
    values["REL-12"] = [2 * emission * t, 2 * time * t, 2 * proper * t]
    energy = mpf("7.5") * mpf("1e11")
    rise = 1 + 2 * energy / (mpf("1e-3") * LIGHT**2)
    values["REL-13"] = [energy, (rise**2 - 1) / (rise**2 + 1)]
    values["REL-14"] = [2 * mpf("1e11") / (mpf("1e-3") * LIGHT)]
    for name, beta in (("REL-15", "0.1"), ("REL-16", "0.6"), ("REL-17", "0.9")):
        lorentz = 1 / sqrt(1 - mpf(beta) ** 2)
        values[name] = [abs(cos(pi * (lorentz - 1))), abs(sin(pi * (lorentz - 1)))]
    g1, g2 = mp.cosh(mpf("0.8")), mp.cosh(mpf("0.7"))
    k = sqrt((g1 + 1) * (g2 + 1) / ((g1 - 1) * (g2 - 1)))
    values["REL-19"] = [2 * atan(1 / k)]
    return values


def ring_power(r0, s, radius):
    """Integral of rho exp(-2 (rho - r0)^2/s^2) by quadrature."""
    places = [0, min(r0, radius), radius] if radius != inf else [0, r0, r0 + 3 * s, r0 + 12 * s]
    return 2 * pi * quad(lambda r: r * exp(-2 * (r - r0) ** 2 / s**2), places)


def beams():
    """Lasers (University Science Books, 1986), chapter 17; ISO 11146-1 second moments."""
    def share(r):
        return 1 - exp(-2 * mpf(r) ** 2)

    def super_area(n):
        return 2 * pi * gamma(mpf(2) / n) / (n * mpf(2) ** (mpf(2) / n))

    def super_width(n):
        return sqrt(2 * gamma(mpf(4) / n) / gamma(mpf(2) / n) / mpf(2) ** (mpf(2) / n))

    def super_share(n):
        return mp.gammainc(mpf(2) / n, 0, 2, regularized=True)

    ring = (mpf("1.05"), mpf("0.45"))
    whole = ring_power(*ring, inf)

    def lg_share(p, l, r):
        x = 2 * mpf(r) ** 2
        norm = mp.factorial(p) / mp.factorial(p + l)
        return quad(lambda t: norm * t**l * mp.laguerre(p, l, t) ** 2 * exp(-t), [0, x / 2, x])

    def displaced(d, radius):
        # Power of a Gaussian of waist 1 at distance d within a circle: 2 pi int 2/pi e^(-2(r^2+d^2)) I0(4 r d) r dr.
        d, radius = mpf(d), mpf(radius)
        return quad(lambda r: 4 * r * exp(-2 * (r * r + d * d)) * mp.besseli(0, 4 * r * d), [0, radius / 2, radius])

    return {
        "BEA-01": [share(1)],
        "BEA-02": [share("0.5"), share("1.5")],
        "BEA-03": [mpf(1) / 2],
        "BEA-04": [mpf("0.99")],
        "BEA-05": [2 * mpf(1000) / (pi * mpf("0.01"))],
        "BEA-06": [super_area(4), super_area(10)],
        "BEA-07": [super_share(4), super_share(10)],
        "BEA-08": [super_width(4), super_width(6), super_width(10)],
        "BEA-09": [sqrt(mpf(2)), sqrt(mpf(3)), sqrt(mpf(6)), sqrt(mpf(8))],
        "BEA-10": [lg_share(0, 1, "0.8"), lg_share(1, 1, "0.8"), lg_share(2, 3, "1.2")],
        "BEA-11": [1 / whole],
        "BEA-12": [ring_power(*ring, mpf(r)) / whole for r in ("0.5", "1", "1.3")],
        "BEA-13": [mp.factorial(2) / mp.factorial(3) * 2 / pi * mp.laguerre(2, 1, 2) ** 2 * 2 * exp(-2)],
        "BEA-14": [displaced("0.7", 1), displaced("0.7", "0.3"), displaced(2, 1)],
        "BEA-15": [sqrt(mpf("0.16") + mpf("0.5"))],
        "BEA-16": [(mpf("1.2") - mpf("0.2") * 4) * 2 / pi],
        "BEA-17": [pi * 4 * mpf("0.8") / (2 * mpf("1.064e-6"))],
        "BEA-18": [2 / pi * exp(-2 * (mpf("0.3") ** 2 + mpf("0.4") ** 2))],
    }


def pressure():
    """Direct integration of the force on an element of a mirror (and of other surfaces) over simple shapes."""
    deg = radians

    def sphere_in_gaussian(r):
        r = mpf(r)
        return 4 * (mpf(1) / 2 - (1 - exp(-2 * r * r)) / (4 * r * r))

    def sphere_by_quadrature(r):
        # F_z c/P = int I (1 + cos 2 theta) dA over the shadow; u = R sin(theta), mu = cos(theta).
        r = mpf(r)
        return quad(lambda u: 2 / pi * exp(-2 * u * u) * 2 * (1 - u * u / (r * r)) * 2 * pi * u, [0, r / 2, r])

    for r in ("0.5", "1", "2"):
        assert abs(sphere_in_gaussian(r) - sphere_by_quadrature(r)) < mpf("1e-30")

    def ball_stiffness(radius, irradiance):
        # d/dX of U(X) = (2R/3) int I (1 - u^2/R^2)^(3/2): -U'' = 2 pi R int I(R s) (2 c^2 - s^2) s d(beta).
        radius = mpf(radius)
        return 2 * pi * radius * quad(
            lambda b: irradiance(radius * sin(b)) * (2 * cos(b) ** 2 - sin(b) ** 2) * sin(b), [0, pi / 4, pi / 2]
        )

    def gaussian(r):
        return 2 / pi * exp(-2 * r * r)

    def donut(r):
        return 4 / pi * r * r * exp(-2 * r * r)

    def paraboloid(x):
        x = mpf(x)
        return 2 * (4 / x**2) * ln(1 + x**2 / 4)

    def cap(phi):
        return (1 - cos(phi) ** 4) / sin(phi) ** 2

    def wide_cone(half_angle):
        e = deg(90 - half_angle)
        return [-sqrt(pi / 2) * sin(2 * e), 2 * cos(e) ** 2, mpf(2), -sqrt(pi / 8) * tan(e)]

    radius = sqrt(mpf("0.5"))
    donut_cone = 2 * pi * mpf(1) / 2 * (quad(donut, [0, radius]) - radius * donut(radius))
    a = mpf(8)
    bowl = 16 * (mpf(1) / 2 - 4 * exp(a) * e1(a)) * 1000 / LIGHT
    film = mpf("0.79") * mpf("0.0528") + mpf("0.12") * (mpf("0.05") * mpf("0.79") - mpf("0.55") * mpf("0.55")) / mpf("0.6")

    def aluminised(angle):
        mu, s = cos(deg(angle)), sin(deg(angle))
        rs = mpf("0.88") * mpf("0.94")
        normal = (1 + rs) * mu * mu + film * mu
        return [normal, (1 - rs) * mu * s]

    def film_at(angle):
        # Element law with specular 0.9, diffuse 0.05, absorbed 0.03, passed 0.02, emissivities 0.1 lit and 0.4 back.
        a = deg(angle)
        mu, normal = cos(a), (-sin(a), -cos(a))
        excess = (mpf("0.1") - mpf("0.4")) / mpf("0.5")
        along = -2 * mpf("0.9") * mu - mpf(2) / 3 * (mpf("0.05") + mpf("0.03") * excess)
        straight = 1 - mpf("0.02") - mpf("0.9")
        return [mu * along * normal[0], mu * (straight + along * normal[1])]

    best = atan(1 / sqrt(mpf(2)))
    values = {
        "PRS-01": [2 * mpf("1e9") * 10 / LIGHT],
        "PRS-02": [mpf(2), mpf(5) / 3, mpf(1)],
        "PRS-03": [2 * cos(deg(60)) ** 2, mpf(0)],
        "PRS-04": [2 * cos(deg(35)) ** 2, mpf(0)],
        "PRS-05": [mpf(0), mpf(1) / 2],
        "PRS-06": [1 + mpf(2) / 3 * mpf("0.6")],
        "PRS-07": [best * 180 / pi],
        "PRS-08": [2 * sin(best) * cos(best) ** 2],
        "PRS-09": aluminised(0),
        "PRS-10": aluminised(35),
        "PRS-11": [mpf(1)],
        "PRS-12": [mpf(13) / 9],
        "PRS-13": [mpf(1)],
        "PRS-14": [mpf(1) / 2, mpf(1), mpf(3) / 2],
        "PRS-15": [paraboloid(1), paraboloid(2)],
        "PRS-16": [cap(deg(30)), cap(deg(60)), mpf(1)],
        "PRS-17": [sphere_in_gaussian(r) for r in ("0.5", "1", "2")],
        "PRS-18": [sqrt(2 * pi) / 2 * 1000 / LIGHT],
        "PRS-19": [bowl],
        "PRS-20": [donut_cone],
        "PRS-21": [mpf(1), -mpf(4) / 3 / tan(deg(60))],
        "PRS-22": [ball_stiffness(r, gaussian) for r in ("0.1", "0.5", "1", "2", "3")],
        "PRS-23": [ball_stiffness(r, donut) for r in ("0.2", "0.5", "1")],
        "PRS-24": film_at(40),
        "PRS-25": [mpf(0)] * 3,
        "PRS-26": [mpf(0)] * 3,
        "PRS-35": [mpf(1)],
        "PRS-33": [1 - exp(-2 * mpf("0.36")), 1 - exp(-mpf(2))],
        "PRS-34": [4 * pi / 15 * 4 * mpf("0.4") * 2 / pi * exp(-2 * mpf("0.16"))],
    }
    for name, angle in zip(("PRS-27", "PRS-28", "PRS-29", "PRS-30", "PRS-31", "PRS-32"), (62, 65, 70, 75, 80, 87)):
        values[name] = wide_cone(angle)
    return values


def damping():
    """Integrals of the force's change with velocity and rate over mirrors and black discs, in units of I/c^2 and metres."""
    def cone(half_angle, centre):
        a, h, r = radians(half_angle), mpf(centre), mpf("0.8")
        s, c = sin(a), cos(a)
        drag = 2 * pi * r * r * c * c
        cross = quad(lambda x: 4 * pi * c * (x / s - h * c) * x, [0, r])
        turn = quad(lambda x: 4 * pi * (x / s - h * c) ** 2 * x, [0, r])
        return [-drag, cross, -turn]

    d, rho, alpha = mpf("0.8"), mpf("0.5"), radians(25)
    s, c = sin(alpha), cos(alpha)
    area, second = pi * rho**2, pi * rho**4 / 4
    return {
        "DMP-01": [-4 * pi * mpf("0.49"), -pi * mpf("0.7") ** 4],
        "DMP-02": [-pi * mpf("0.49"), -pi * mpf("0.7") ** 4 / 2],
        "DMP-03": [-pi * mpf("0.81")],
        "DMP-04": cone(50, 0),
        "DMP-05": cone(65, "0.4"),
        "DMP-06": cone(80, "-0.3"),
        "DMP-07": [
            -8 * c * s * s * area,
            -8 * c * (area * d * d * c * c + second),
            -8 * c * c * c * second,
            -8 * area * c * c * s * d,
        ],
    }


def rigid_body():
    """Standard tables of moments of inertia; torque-free tops."""
    hollow = mpf(2) / 5 * (1 - mpf("0.5") ** 5) / (1 - mpf("0.5") ** 3)
    k = mpf(1) / 2
    # The checks state half this period.
    assert abs(flip_period() - mpf("39.1057341972687209")) < mpf("1e-14")
    flipped = [mpf("-0.01"), mpf(-1), mpf("0.01")]
    return {
        "RIG-01": [mpf(1) / 2, mpf(9) / 4, mpf(4) / 3],
        "RIG-02": [mpf(-1) / 2, mpf(5) / 12, mpf(2) / 3],
        "RIG-03": [mpf(2)],
        "RIG-04": [mpf(2) / 5, mpf(2) / 3, hollow],
        "RIG-05": [mpf(3), mpf(3), mpf(0)],
        "RIG-06": [mpf(4), mpf(4), mpf(8)],
        "RIG-07": [mpf(13), mpf(10), mpf(5)],
        "RIG-08": [k, k, -k, k],
        "RIG-09": [mpf(0), mpf(1), mpf(0)],
        "RIG-10": [mpf(6), mpf(1) / 2, mpf(12), mpf("13.5")],
        "RIG-11": flipped,
        "RIG-13": flipped,
        "RIG-12": [2 * asin(mpf("0.01") / sqrt(mpf("0.0001") + 36))],
    }


def flip_period():
    """Mechanics (Course of Theoretical Physics 1), section 37, inertias 1, 2, 3 and w = (0.01, 1, 0.01)."""
    i1, i2, i3 = mpf(1), mpf(2), mpf(3)
    w = (mpf("0.01"), mpf(1), mpf("0.01"))
    energy = (i1 * w[0] ** 2 + i2 * w[1] ** 2 + i3 * w[2] ** 2) / 2
    square = (i1 * w[0]) ** 2 + (i2 * w[1]) ** 2 + (i3 * w[2]) ** 2
    if square > 2 * energy * i2:
        m = (i2 - i1) * (2 * energy * i3 - square) / ((i3 - i2) * (square - 2 * energy * i1))
        return 4 * ellipk(m) * sqrt(i1 * i2 * i3 / ((i3 - i2) * (square - 2 * energy * i1)))
    m = (i3 - i2) * (square - 2 * energy * i1) / ((i2 - i1) * (2 * energy * i3 - square))
    return 4 * ellipk(m) * sqrt(i1 * i2 * i3 / ((i2 - i1) * (2 * energy * i3 - square)))


def kepler(e, t=20):
    """Kepler's equation with a = GM = 1."""
    e = mpf(e)
    a = mp.findroot(lambda x: x - e * sin(x) - t, t)
    d = 1 - e * cos(a)
    b = sqrt(1 - e * e)
    return [cos(a) - e, b * sin(a), -sin(a) / d, b * cos(a) / d]


def integrators():
    """Jacobi functions (DLMF 22), complete elliptic integrals (DLMF 19), Kepler's equation."""
    m = mpf("0.51")

    def top(t):
        return [mp.ellipfun(name, mpf(t), m=m) for name in ("sn", "cn", "dn")]

    def pendulum(degrees):
        return 2 / pi * ellipk(sin(radians(mpf(degrees)) / 2) ** 2)

    return {
        "INT-01": top(1),
        "INT-02": top(12),
        "INT-03": top(20),
        "INT-04": top(12),
        "INT-05": [4 * ellipk(m)],
        "INT-06": [mpf("-0.01"), mpf(-1), mpf("0.01")],
        "INT-07": [pendulum(a) for a in (30, 90, 150)],
        "INT-08": [gamma(mpf(1) / 4) ** 2 / sqrt(pi)],
        "INT-09": kepler("0.1"),
        "INT-10": kepler("0.5"),
        "INT-11": kepler("0.9"),
        "INT-12": [mpf("0.994"), mpf(0)],
        "INT-13": [mp.acosh(20)],
        "INT-14": [4 * ellipk(mpf(1) / 2) / mpf("0.5")],
        "INT-15": [exp(mpf(-1) * 2) * 1],
        "INT-16": [2 / pi * ellipk(sin(mpf(a) / 2) ** 2) for a in ("2", "3.1")],
    }


def studies():
    """Designs of closed form, as the studies read them from a file."""
    values = {}
    force = mpf("1e6") / LIGHT
    stiffness = pressure()["PRS-22"]
    thrust = pressure()["PRS-17"]
    for name, radius, push, k in (
        ("STU-01", mpf("0.5"), thrust[0], stiffness[1]),
        ("STU-02", mpf(1), thrust[1], stiffness[2]),
        ("STU-03", mpf(2), thrust[2], stiffness[3]),
    ):
        mass = mpf("2e-3") * 4 * pi * radius**2
        values[name] = [
            mass,
            mpf(2) / 3 * mass * radius**2,
            push * force,
            push * force / mass,
            1 - exp(-2 * radius**2),
            k * force,
            sqrt(k * force / mass),
        ]
    a, r = radians(65), mpf("1.5")
    height = r / tan(a)
    mass = mpf("1e-3") * pi * r**2 / sin(a)
    values["STU-04"] = [
        mass,
        -2 * height / 3,
        mass * r**2 / 2,
        mass * (r**2 / 4 + height**2 / 18),
        2 * force * sin(a) ** 2 * (1 - exp(-2 * r**2)),
    ]
    emission, time, proper, distance = boost_times("0.2")
    unit = mpf("1e-3") * LIGHT**2 / mpf("2e11")
    values["STU-10"] = [time * unit, proper * unit, emission * unit, distance * LIGHT * unit, emission * unit * mpf("1e11")]
    values["STU-11"] = [mpf("5e12"), mpf(50)]
    values["STU-12"] = [mpf("7.5e11"), mpf(10)]
    e = radians(20)
    critical = (4 - pi / 2 * tan(e) ** 2) / (2 * sqrt(pi / 2) * sin(2 * e))
    values["STU-20"] = [-critical]
    return values


def all_closed_forms():
    """Everything above by id."""
    values = {}
    for group in (constants, relativity, beams, pressure, damping, rigid_body, integrators, studies):
        values.update(group())
    return values


if __name__ == "__main__":
    for name, numbers in all_closed_forms().items():
        print(name, " ".join(mp.nstr(x, 18) for x in numbers))
