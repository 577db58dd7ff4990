"""Loops over contact between cloth triangles and round bodies: energy, force, stiffness, depth.

Arrays: x (n, 3) positions; triangles (m, 3); area (m,) first areas; segments (c, 2); radii (c, 2);
stiffness k (c,);
shape (q, 3) corner shares of the quadrature points, weight (q,) their shares of the area, rule after rule, each
finer than the one before, begun at starts (l + 1,). At one point p
with the place s on a capsule's axis from a to b: v = p - (1-s) a - s b, n = v/|v|, depth
d = max over s of (1-s) r_a + s r_b - |v|, energy k A w e(d) where d > 0.

With the smaller radius D of a capsule, e = d^2/2 up to half of D; from there on flesh resists ever more,
e = d^2/2 + (d - D/2)^3 D/(D - d)^2, so that the axis cannot pass through the cloth; from 0.98 D it goes on as
a parabola, lest numbers overflow.
"""

import math

import numba
import numpy as np

_SOFT, _LAST = 0.5, 0.98  # of the smaller radius: where flesh begins to stiffen, and where that law ends
_APART = 0.25  # of the smaller radius: how far points may be apart, lest an axis come through between them


@numba.njit(cache=True)
def _press(d, D):
    """Return e(d), its slope and its curvature for depth d > 0."""
    if d <= _SOFT * D:
        return 0.5 * d * d, d, 1.0
    u = min(d, _LAST * D)
    a, b = u - _SOFT * D, D - u
    energy = 0.5 * u * u + a**3 * D / b**2
    slope = u + D * (3.0 * a**2 / b**2 + 2.0 * a**3 / b**3)
    bend = 1.0 + D * (6.0 * a / b**2 + 12.0 * a**2 / b**3 + 6.0 * a**3 / b**4)
    over = d - u
    return energy + over * (slope + 0.5 * bend * over), slope + bend * over, bend


@numba.njit(cache=True)
def _find_depth(px, py, pz, a, b, ra, rb):
    """Return depth, place s on the axis, whether s lies between the ends, and v from axis to point.

    The best s balances the change of radius against that of distance: sin of the cone's half angle is
    (ra - rb)/L, and one ball lies inside the other where that exceeds 1.
    """
    ex, ey, ez = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    ux, uy, uz = px - a[0], py - a[1], pz - a[2]
    ee = ex * ex + ey * ey + ez * ez
    taper = rb - ra
    inside = False
    if ee <= taper * taper:  # a ball, or one inside the other
        s = 1.0 if taper > 0.0 else 0.0
    else:
        ue = ux * ex + uy * ey + uz * ez
        s = ue / ee
        if taper != 0.0:
            away = max(ux * ux + uy * uy + uz * uz - ue * s, 0.0)
            s += taper * math.sqrt(away / (ee * (ee - taper * taper)))
        inside = 0.0 < s < 1.0
        s = min(max(s, 0.0), 1.0)
    vx, vy, vz = ux - s * ex, uy - s * ey, uz - s * ez
    return ra + s * taper - math.sqrt(vx * vx + vy * vy + vz * vz), s, inside, vx, vy, vz


@numba.njit(cache=True)
def _find_ball(x, nodes):
    """Return the middle of a triangle and the radius of the ball round it."""
    mx = (x[nodes[0], 0] + x[nodes[1], 0] + x[nodes[2], 0]) / 3.0
    my = (x[nodes[0], 1] + x[nodes[1], 1] + x[nodes[2], 1]) / 3.0
    mz = (x[nodes[0], 2] + x[nodes[1], 2] + x[nodes[2], 2]) / 3.0
    square = 0.0
    for j in range(3):
        k = nodes[j]
        square = max(square, (x[k, 0] - mx) ** 2 + (x[k, 1] - my) ** 2 + (x[k, 2] - mz) ** 2)
    return mx, my, mz, math.sqrt(square)


@numba.njit(cache=True)
def _is_near(mx, my, mz, a, b, reach):
    """Tell whether a point lies within ``reach`` of the axis from a to b."""
    ex, ey, ez = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    ux, uy, uz = mx - a[0], my - a[1], mz - a[2]
    ee = ex * ex + ey * ey + ez * ez
    s = min(max((ux * ex + uy * ey + uz * ez) / ee, 0.0), 1.0) if ee > 0.0 else 0.0
    return (ux - s * ex) ** 2 + (uy - s * ey) ** 2 + (uz - s * ez) ** 2 < reach * reach


@numba.njit(cache=True)
def _choose_rule(area, D, starts):
    """Return the first rule whose points are close enough in a triangle for a capsule of smaller radius D."""
    rule, points = 0, float(starts[1])
    while rule < len(starts) - 2 and area > points * (_APART * D) ** 2:
        rule, points = rule + 1, 4.0 * points
    return rule


@numba.njit(cache=True)
def _place(x, nodes, share):
    """Return the point of a triangle that has the corner shares ``share``."""
    i, j, k = nodes[0], nodes[1], nodes[2]
    f, g, h = share[0], share[1], share[2]
    return (
        f * x[i, 0] + g * x[j, 0] + h * x[k, 0],
        f * x[i, 1] + g * x[j, 1] + h * x[k, 1],
        f * x[i, 2] + g * x[j, 2] + h * x[k, 2],
    )


@numba.njit(cache=True)
def find_energy(x, triangles, area, segments, radii, stiffness, shape, weight, starts):
    """Return the stored energy, J."""
    total = 0.0
    for t in range(len(triangles)):
        mx, my, mz, ball = _find_ball(x, triangles[t])
        for c in range(len(segments)):
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            if not _is_near(mx, my, mz, a, b, max(ra, rb) + ball):
                continue
            rule = _choose_rule(area[t], min(ra, rb), starts)
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = _place(x, triangles[t], shape[q])
                depth, _, _, _, _, _ = _find_depth(px, py, pz, a, b, ra, rb)
                if depth > 0.0:
                    density, _, _ = _press(depth, min(ra, rb))
                    total += stiffness[c] * area[t] * weight[q] * density
    return total


@numba.njit(cache=True)
def add_force(x, triangles, area, segments, radii, stiffness, shape, weight, starts, force):
    """Add minus the gradient of the energy to force (n, 3)."""
    for t in range(len(triangles)):
        mx, my, mz, ball = _find_ball(x, triangles[t])
        for c in range(len(segments)):
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            if not _is_near(mx, my, mz, a, b, max(ra, rb) + ball):
                continue
            rule = _choose_rule(area[t], min(ra, rb), starts)
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = _place(x, triangles[t], shape[q])
                depth, s, _, vx, vy, vz = _find_depth(px, py, pz, a, b, ra, rb)
                if depth <= 0.0 or vx == vy == vz == 0.0:
                    continue
                _, slope, _ = _press(depth, min(ra, rb))
                push = stiffness[c] * area[t] * weight[q] * slope / math.sqrt(vx * vx + vy * vy + vz * vz)
                for i, v in enumerate((vx, vy, vz)):
                    for j in range(3):
                        force[triangles[t, j], i] += shape[q, j] * push * v
                    force[segments[c, 0], i] -= (1.0 - s) * push * v
                    force[segments[c, 1], i] -= s * push * v


@numba.njit(cache=True)
def _fill_point(v, e, s, slope, bend, inside, exact, H):
    """Fill H (6, 3, 3): second derivative of e(d) for p-p, p-a, p-b, a-a, a-b, b-b without their weights.

    With w = (1, s-1, -s) for p, a, b the gradient of d is -w n. Its change, taken where ``exact``: at a fixed s
    -w w^T (1 - n n^T)/|v|; where s can follow, plus g g^T/(e.(1 - n n^T).e/|v|) with
    g = w (1 - n n^T) e/|v| - (0, 1, -1) n.
    """
    length = math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
    w = (1.0, s - 1.0, -s)
    dw = (0.0, 1.0, -1.0)
    n, across, g = np.empty(3), np.empty(3), np.zeros((3, 3))
    along = 0.0
    for i in range(3):
        n[i] = v[i] / length
        along += n[i] * e[i]
    bent = 0.0
    for i in range(3):
        across[i] = (e[i] - along * n[i]) / length
        bent += e[i] * across[i]
    follow = exact and inside and bent > 0.0
    if follow:
        for k in range(3):
            for i in range(3):
                g[k, i] = w[k] * across[i] - dw[k] * n[i]
    row = 0
    for k in range(3):
        for m in range(k, 3):
            for i in range(3):
                for j in range(3):
                    value = bend * w[k] * w[m] * n[i] * n[j]
                    if exact:
                        flat = (1.0 if i == j else 0.0) - n[i] * n[j]
                        value -= slope * w[k] * w[m] * flat / length
                    if follow:
                        value += slope * g[k, i] * g[m, j] / bent
                    H[row, i, j] = value
            row += 1


@numba.njit(cache=True)
def find_stiffness(x, triangles, area, segments, radii, stiffness, shape, weight, starts, local, model):
    """Return stiffness cloth-cloth (m, 9, 9), cloth-body (l, 3, 3h) and body-body (3h, 3h), N/m.

    ``local``: number (n,) of each node among the l cloth nodes or the h body nodes. ``model`` 0 keeps the
    positive semi-definite part, 1 is the second derivative, 2 counts everything within twice the radius as
    pressed.
    """
    cloth = local[triangles].max() + 1
    body = local[segments].max() + 1
    K = np.zeros((len(triangles), 9, 9))
    C = np.zeros((cloth, 3, 3 * body))
    B = np.zeros((3 * body, 3 * body))
    v, e, H = np.empty(3), np.empty(3), np.empty((6, 3, 3))
    for t in range(len(triangles)):
        mx, my, mz, ball = _find_ball(x, triangles[t])
        for c in range(len(segments)):
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            widest = max(ra, rb)
            if not _is_near(mx, my, mz, a, b, ball + (2.0 * widest if model == 2 else widest)):
                continue
            for i in range(3):
                e[i] = b[i] - a[i]
            A0, B0 = 3 * local[segments[c, 0]], 3 * local[segments[c, 1]]
            rule = _choose_rule(area[t], min(ra, rb), starts)
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = _place(x, triangles[t], shape[q])
                depth, s, inside, v[0], v[1], v[2] = _find_depth(px, py, pz, a, b, ra, rb)
                least = -widest if model == 2 else 0.0
                if depth <= least or v[0] == v[1] == v[2] == 0.0:
                    continue
                _, slope, bend = _press(max(depth, 0.0), min(ra, rb))
                _fill_point(v, e, s, slope, bend, inside, model == 1, H)
                H *= stiffness[c] * area[t] * weight[q]
                for k in range(3):
                    r, N = local[triangles[t, k]], shape[q, k]
                    for i in range(3):
                        for j in range(3):
                            C[r, i, A0 + j] += N * H[1, i, j]
                            C[r, i, B0 + j] += N * H[2, i, j]
                            for m in range(3):
                                K[t, 3 * k + i, 3 * m + j] += N * shape[q, m] * H[0, i, j]
                for i in range(3):
                    for j in range(3):
                        B[A0 + i, A0 + j] += H[3, i, j]
                        B[A0 + i, B0 + j] += H[4, i, j]
                        B[B0 + i, A0 + j] += H[4, j, i]
                        B[B0 + i, B0 + j] += H[5, i, j]
    return K, C, B


@numba.njit(cache=True)
def find_pressing(x, triangles, area, segments, radii, stiffness, shape, weight, starts, deformed):
    """Return force on each triangle (m, 3) and, by capsule, force on the cloth (c, 3), depth and area (c,); all area.

    ``deformed``: the triangles' present areas (m,), of which the touched shares are counted.
    """
    m, c_count = len(triangles), len(segments)
    force, touched, whole = np.zeros((m, 3)), np.zeros(c_count), 0.0
    total, deepest = np.zeros((c_count, 3)), np.zeros(c_count)
    for t in range(m):
        finest = 0
        for c in range(c_count):
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            rule = _choose_rule(area[t], min(ra, rb), starts)
            finest = max(finest, rule)
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = _place(x, triangles[t], shape[q])
                depth, _, _, vx, vy, vz = _find_depth(px, py, pz, a, b, ra, rb)
                if depth <= 0.0 or vx == vy == vz == 0.0:
                    continue
                touched[c] += weight[q] * deformed[t]
                deepest[c] = max(deepest[c], depth)
                _, slope, _ = _press(depth, min(ra, rb))
                push = stiffness[c] * area[t] * weight[q] * slope / math.sqrt(vx * vx + vy * vy + vz * vz)
                for i, v in enumerate((vx, vy, vz)):
                    force[t, i] += push * v
                    total[c, i] += push * v
        for q in range(starts[finest], starts[finest + 1]):
            whole += weight[q] * deformed[t] * _is_pressed(x, triangles[t], shape[q], segments, radii)
    return force, total, deepest, touched, whole


@numba.njit(cache=True)
def _is_pressed(x, nodes, share, segments, radii):
    """Tell whether a point of a triangle lies below the skin of any capsule."""
    px, py, pz = _place(x, nodes, share)
    for c in range(len(segments)):
        if _find_depth(px, py, pz, x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1])[0] > 0.0:
            return True
    return False
