"""Independent light pressure of a mouth-first mirror cone by plain ray tracing (NumPy; no code of the library).

A square grid of rays (midpoints) over the shadow, every ray followed bounce by bounce in a cone, forces added up. The error is of
the order of the grid spacing squared times the rim's length (a blind sum): given beside each value as the difference to the next grid.
Prints the rows of ray_oracle_values.csv. Frames: light along beam +z; centre of mass at (x, y, 0); (tilt_x, tilt_y, 0) is one rotation
vector body -> beam; vertex at the body origin, mouth at z = -R/tan(a); the centre of mass at (0, 0, cm_z) in body axes.
Power over c is one newton.
"""
import sys
import numpy as np

def rotation(tx, ty):
    v = np.array([tx, ty, 0.0]); t = np.linalg.norm(v)
    if t == 0: return np.eye(3)
    k = v / t
    K = np.array([[0, -k[2], k[1]], [k[2], 0, -k[0]], [-k[1], k[0], 0]])
    return np.eye(3) + np.sin(t) * K + (1 - np.cos(t)) * K @ K

def trace(a, R, p, d, cm):
    """Follows rays (body axes, vertex at the origin) and returns momentum and angular momentum left, unit power each."""
    h = R / np.tan(a)
    k2 = np.tan(a) ** 2
    n = len(p)
    F = np.zeros((n, 3)); T = np.zeros((n, 3)); met = np.zeros(n, int)
    first = np.zeros((n, 3))
    live = np.arange(n)
    p = p.copy(); d = d.copy()
    near = 0.0
    for bounce in range(500):
        q, u = p[live], d[live]
        A = u[:, 0]**2 + u[:, 1]**2 - k2 * u[:, 2]**2
        B = q[:, 0]*u[:, 0] + q[:, 1]*u[:, 1] - k2 * q[:, 2]*u[:, 2]
        Cc = q[:, 0]**2 + q[:, 1]**2 - k2 * q[:, 2]**2
        D = B*B - A*Cc
        ok = D >= 0
        root = np.sqrt(np.where(ok, D, 0))
        w = -(B + np.where(B >= 0, root, -root))
        with np.errstate(all='ignore'):
            s1 = w / A; s2 = Cc / w
        def good(s):
            z = q[:, 2] + s * u[:, 2]
            return np.where(ok & np.isfinite(s) & (s > near) & (z <= 0) & (z >= -h), s, np.inf)
        s = np.minimum(good(s1), good(s2))
        hit = np.isfinite(s)
        live = live[hit]
        if len(live) == 0: break
        pos = q[hit] + s[hit, None] * u[hit]
        r = np.hypot(pos[:, 0], pos[:, 1])
        # wall r = -tan(a) z: gradient of r + tan(a) z
        nrm = np.stack([pos[:, 0]/r*np.cos(a), pos[:, 1]/r*np.cos(a), np.full(len(r), np.sin(a))], 1)
        un = np.sum(u[hit]*nrm, 1)
        out = u[hit] - 2*un[:, None]*nrm
        push = u[hit] - out
        F[live] += push
        T[live] += np.cross(pos - cm, push)
        if bounce == 0: first[live] = pos
        met[live] += 1
        p[live] = pos; d[live] = out
        near = 1e-9 * R
    return F, T, met, first

def force(a, R, waist, cmz, x, y, tx, ty, N, chunk=2_000_000):
    M = rotation(tx, ty)
    d = M.T @ np.array([0, 0, 1.0])
    ex = M.T @ np.array([1.0, 0, 0]); ey = M.T @ np.array([0, 1.0, 0])
    cm = np.array([0, 0, cmz])
    mid = np.array([0, 0, -0.5*R/np.tan(a)])
    rad = np.hypot(R, 0.5*R/np.tan(a))
    h = 2*rad/N
    g = -rad + h*(np.arange(N)+0.5)
    F = np.zeros(3); T = np.zeros(3); P = 0.0
    rows = max(1, chunk//N)
    for i in range(0, N, rows):
        X, Y = np.meshgrid(g[i:i+rows], g, indexing='ij')
        X = X.ravel(); Y = Y.ravel()
        start = mid + X[:, None]*ex + Y[:, None]*ey - 3*rad*d
        f, t, m, first = trace(a, R, start, np.broadcast_to(d, start.shape), cm)
        arm = start - cm
        bx = x + arm @ ex; by = y + arm @ ey
        I = 2/(np.pi*waist**2)*np.exp(-2*(bx**2+by**2)/waist**2)*h*h
        F += I @ f; T += I @ t; P += np.sum(I*(m > 0))
    return M @ F, M @ T, P

CASES = [  # half-angle deg, R, waist, cm_z, x, y, tilt x, tilt y
    (40, 1.0, 0.8, -0.3, 0.10, 0.05, 0.03, -0.02),
    (40, 1.0, 1.0, -0.5, 0.00, 0.00, 0.00, 0.10),
    (35, 1.0, 0.8, -0.6, 0.20, 0.00, 0.00, 0.00),
    (20, 1.0, 0.8, -0.6, 0.20, 0.00, 0.00, 0.00),
    (20, 1.0, 0.8, -1.0, 0.10, 0.00, 0.02, 0.01),
    (50, 1.0, 1.0, -0.2, 0.10, 0.00, 0.00, 0.05),
]
if __name__ == '__main__':
    N = int(sys.argv[1]) if len(sys.argv) > 1 else 1500
    print("half_angle_deg,radius_m,waist_m,cm_z_m,x_m,y_m,tilt_x_rad,tilt_y_rad,fx,fy,fz,tx,ty,tz,power,error")
    for c in CASES:
        a = np.radians(c[0])
        F, T, P = force(a, *c[1:], N)
        F2, T2, P2 = force(a, *c[1:], N*2//3)
        e = max(np.abs(F-F2).max(), np.abs(T-T2).max())
        print(",".join([repr(float(v)) for v in c] + [f"{v:.9g}" for v in [*F, *T, P]] + [f"{e:.1g}"]), flush=True)
