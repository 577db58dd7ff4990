"""Loops over contact between cloth triangles and round bodies: energy, force, stiffness, depth.

Arrays: x (n, 3) positions; triangles (m, 3); area (m,) first areas; segments (c, 2); radii (c, 2);
stiffness k (c,);
shape (q, 3) corner shares of the quadrature points, weight (q,) their shares of the area, rule after rule, each
finer than the one before, begun at starts (l + 1,). At one point p
with the place s on a capsule's axis from a to b: v = p - (1-s) a - s b, n = v/|v|, depth
d = max over s of (1-s) r_a + s r_b - |v|, energy k A w e(d) where d > 0.

With the smaller radius D of a capsule, e = d^2/2 up to a quarter of D; from there on flesh resists ever more,
e = d^2/2 + (d - D/4)^3 D/(2D/5 - d)^2, so that the axis cannot come near the cloth; from 0.37 D it goes on as
a parabola, lest numbers overflow.
"""

import math

import numba
import numpy as np

# Of the smaller radius: where flesh begins to stiffen, where it would give no more, and where that law ends.
_SOFT, _HARD, _LAST = 0.25, 0.4, 0.37
_APART = 0.25  # of the smaller radius: how far points may be apart, lest an axis come through between them


@numba.njit(cache=True)
def _press(d, D):
    """Return e(d), its slope and its curvature for depth d > 0."""
    if d <= _SOFT * D:
        return 0.5 * d * d, d, 1.0
    u = min(d, _LAST * D)
    a, b = u - _SOFT * D, _HARD * D - u
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
def _list_axes(x, segments, radii, times):
    """Return start, direction, its square and the reach of each capsule (c, 8), and the box (2, 3) round them all."""
    axes, box = np.empty((len(segments), 8)), np.empty((2, 3))
    for i in range(3):
        box[0, i], box[1, i] = math.inf, -math.inf
    for c in range(len(segments)):
        a, b = segments[c]
        reach = times * max(radii[c, 0], radii[c, 1])
        axes[c, 6], axes[c, 7] = 0.0, reach
        for i in range(3):
            axes[c, i], axes[c, 3 + i] = x[a, i], x[b, i] - x[a, i]
            axes[c, 6] += axes[c, 3 + i] ** 2
            box[0, i] = min(box[0, i], x[a, i] - reach, x[b, i] - reach)
            box[1, i] = max(box[1, i], x[a, i] + reach, x[b, i] + reach)
    return axes, box


@numba.njit(cache=True)
def _find_near(x, triangles, segments, radii, times):
    """Return which capsules (m, c) a triangle may touch, with radii so many times as large.

    The ball round the triangle is compared with each axis, where it reaches into the box round all of them.
    """
    near = np.zeros((len(triangles), len(segments)), np.bool_)
    axes, box = _list_axes(x, segments, radii, times)
    middle = np.empty(3)
    for t in range(len(triangles)):
        nodes, ball = triangles[t], 0.0
        for i in range(3):
            middle[i] = (x[nodes[0], i] + x[nodes[1], i] + x[nodes[2], i]) / 3.0
        for j in range(3):
            k = nodes[j]
            square = (x[k, 0] - middle[0]) ** 2 + (x[k, 1] - middle[1]) ** 2 + (x[k, 2] - middle[2]) ** 2
            ball = max(ball, square)
        ball = math.sqrt(ball)
        apart = False
        for i in range(3):
            apart |= middle[i] + ball < box[0, i] or middle[i] - ball > box[1, i]
        if apart:
            continue
        for c in range(len(segments)):
            ux, uy, uz = middle[0] - axes[c, 0], middle[1] - axes[c, 1], middle[2] - axes[c, 2]
            ex, ey, ez, ee = axes[c, 3], axes[c, 4], axes[c, 5], axes[c, 6]
            s = min(max((ux * ex + uy * ey + uz * ez) / ee, 0.0), 1.0) if ee > 0.0 else 0.0
            square = (ux - s * ex) ** 2 + (uy - s * ey) ** 2 + (uz - s * ez) ** 2
            near[t, c] = square < (axes[c, 7] + ball) ** 2
    return near


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
    near = _find_near(x, triangles, segments, radii, 1.0)
    for t in range(len(triangles)):
        for c in range(len(segments)):
            if not near[t, c]:
                continue
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
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
    near = _find_near(x, triangles, segments, radii, 1.0)
    for t in range(len(triangles)):
        for c in range(len(segments)):
            if not near[t, c]:
                continue
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
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
def _add_product(S, factor, row):
    """Add factor row row^T to the upper half of S (15, 15)."""
    for r in range(15):
        value = factor * row[r]
        if value != 0.0:
            for k in range(r, 15):
                S[r, k] += value * row[k]


@numba.njit(cache=True)
def _add_point(v, e, s, share, law, inside, exact, S, row):
    """Add the second derivative of e(d) at one point to the upper half of S (15, 15): its corners, then a and b.

    ``law``: slope and curvature of e, each times k A w. With the shares w = (N, s-1, -s) of the corners, a and b the
    gradient of d is -w n. Its change, taken where ``exact``: at a fixed s -w w^T (1 - n n^T)/|v|; where s can follow,
    plus g g^T/(e.(1 - n n^T).e/|v|) with g = w (1 - n n^T) e/|v| - (0, 1, -1) n. ``row`` (15,) is room to work in.
    """
    length = math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2])
    w = (share[0], share[1], share[2], s - 1.0, -s)
    n = (v[0] / length, v[1] / length, v[2] / length)
    for k in range(5):
        for i in range(3):
            row[3 * k + i] = w[k] * n[i]
    round_off = law[0] / length if exact else 0.0
    _add_product(S, law[1] + round_off, row)
    if not exact:
        return
    for k in range(5):
        for m in range(k, 5):
            for i in range(3):
                S[3 * k + i, 3 * m + i] -= round_off * w[k] * w[m]
    along = n[0] * e[0] + n[1] * e[1] + n[2] * e[2]
    across = ((e[0] - along * n[0]) / length, (e[1] - along * n[1]) / length, (e[2] - along * n[2]) / length)
    bent = e[0] * across[0] + e[1] * across[1] + e[2] * across[2]
    if inside and bent > 0.0:
        for k in range(5):
            turn = (0.0, 0.0, 0.0, 1.0, -1.0)[k]
            for i in range(3):
                row[3 * k + i] = w[k] * across[i] - turn * n[i]
        _add_product(S, law[0] / bent, row)


@numba.njit(cache=True)
def _scatter(S, nodes, ends, local, K, C, B):
    """Add S (15, 15), filled above its diagonal, to a triangle's K (9, 9) and to C and B, if those have rows."""
    for r in range(15):
        for k in range(r):
            S[r, k] = S[k, r]
    K += S[:9, :9]
    if len(C) == 0:
        return
    for end in range(2):
        first = 3 * local[ends[end]]
        for j in range(3):
            column = 9 + 3 * end + j
            for k in range(3):
                for i in range(3):
                    C[local[nodes[k]], i, first + j] += S[3 * k + i, column]
            for other in range(2):
                for i in range(3):
                    B[3 * local[ends[other]] + i, first + j] += S[9 + 3 * other + i, column]


@numba.njit(cache=True)
def find_stiffness(x, triangles, area, segments, radii, stiffness, shape, weight, starts, local, model, moves):
    """Return stiffness cloth-cloth (m, 9, 9), cloth-body (l, 3, 3h) and body-body (3h, 3h), N/m.

    ``local``: number (n,) of each node among the l cloth nodes or the h body nodes. ``model`` 0 keeps the
    positive semi-definite part, 1 is the second derivative, 2 counts everything within twice the radius as
    pressed. Unless a body ``moves``, only the first is found and the others are empty.
    """
    cloth = local[triangles].max() + 1 if moves else 0
    body = local[segments].max() + 1 if moves else 0
    K = np.zeros((len(triangles), 9, 9))
    C = np.zeros((cloth, 3, 3 * body))
    B = np.zeros((3 * body, 3 * body))
    near = _find_near(x, triangles, segments, radii, 2.0 if model == 2 else 1.0)
    v, e, S, row = np.empty(3), np.empty(3), np.empty((15, 15)), np.empty(15)
    for t in range(len(triangles)):
        for c in range(len(segments)):
            if not near[t, c]:
                continue
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            least = -max(ra, rb) if model == 2 else 0.0
            rule, touched = _choose_rule(area[t], min(ra, rb), starts), False
            for i in range(3):
                e[i] = b[i] - a[i]
            for q in range(starts[rule], starts[rule + 1]):
                px, py, pz = _place(x, triangles[t], shape[q])
                depth, s, inside, v[0], v[1], v[2] = _find_depth(px, py, pz, a, b, ra, rb)
                if depth <= least or v[0] == v[1] == v[2] == 0.0:
                    continue
                if not touched:
                    S[:], touched = 0.0, True
                _, slope, bend = _press(max(depth, 0.0), min(ra, rb))
                whole = stiffness[c] * area[t] * weight[q]
                _add_point(v, e, s, shape[q], (whole * slope, whole * bend), inside, model == 1, S, row)
            if touched:
                _scatter(S, triangles[t], segments[c], local, K[t], C, B)
    return K, C, B


@numba.njit(cache=True)
def find_pressing(x, triangles, area, segments, radii, stiffness, shape, weight, starts, deformed):
    """Return force on each triangle (m, 3) and, by capsule, force on the cloth (c, 3), depth and area (c,); all area.

    ``deformed``: the triangles' present areas (m,), of which the touched shares are counted.
    """
    m, c_count = len(triangles), len(segments)
    force, touched, whole = np.zeros((m, 3)), np.zeros(c_count), 0.0
    total, deepest = np.zeros((c_count, 3)), np.zeros(c_count)
    near = _find_near(x, triangles, segments, radii, 1.0)
    for t in range(m):
        finest = 0
        for c in range(c_count):
            a, b, ra, rb = x[segments[c, 0]], x[segments[c, 1]], radii[c, 0], radii[c, 1]
            rule = _choose_rule(area[t], min(ra, rb), starts)
            finest = max(finest, rule)
            if not near[t, c]:
                continue
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
