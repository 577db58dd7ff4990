"""Round bodies pressed into cloth, against closed forms and an independent solution."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tautlay.solver import Contact, FabricLaw, Joint, Membrane, Rod, Structure, relax

EH, POISSON = 20e3, 0.3  # N/m
HARD = 2e8  # Pa/m: depths of some micrometres


def isotropic(stiffness=EH, poisson=POISSON):
    return FabricLaw(stiffness, stiffness, poisson, stiffness / (2 * (1 + poisson)))


class PressedSheet:
    """Exact: a rigid frictionless ball of radius R pressed into a round sheet of radius 1 held at its rim.

    Derived. rho is the flat radius, phi the slope, P the force along the meridian per flat angle. Where the
    ball touches, r = R sin phi and tangential balance is P' = N_hoop cos phi; beyond it V = P sin phi stays the same and
    (P cos phi)' = N_hoop. Stresses by the same law of Green strain as the cloth.
    """

    def __init__(self, R, touching):
        self.R, self.touching = R, touching
        self.stretch = brentq(lambda s: self._shoot(s)[0], 1.0001, 1.5, xtol=1e-13)
        _, self.force, self.sink = self._shoot(self.stretch)

    def _hoop(self, along, across):
        """Nominal hoop tension at both stretches."""
        return across * EH / (1 - POISSON**2) * ((across**2 - 1) + POISSON * (along**2 - 1)) / 2

    def _along(self, tension, across):
        """Stretch along the meridian at a nominal tension."""
        K = EH / (1 - POISSON**2)
        return brentq(lambda s: s * K * ((s**2 - 1) + POISSON * (across**2 - 1)) / 2 - tension, 0.5, 3.0, xtol=1e-14)

    def _touch(self, rho, y):
        phi, P = y
        across = self.R * np.sin(phi) / rho
        along = self._along(P / rho, across)
        return [along / self.R, self._hoop(along, across) * np.cos(phi)]

    def _free(self, rho, y, V):
        r, _, H = y
        across, P = r / rho, np.hypot(H, V)
        along = self._along(P / rho, across)
        return [along * H / P, along * V / P, self._hoop(along, across)]

    def _shoot(self, stretch):
        """Miss of the rim, force on the ball and how far it sinks, from the stretch at the pole."""
        first = 1e-4
        tension = stretch * EH / (1 - POISSON) * (stretch**2 - 1) / 2
        options = {"rtol": 1e-9, "atol": 1e-11}
        inner = solve_ivp(self._touch, (first, self.touching), [stretch * first / self.R, tension * first], **options)
        phi, P = inner.y[:, -1]
        V = P * np.sin(phi)
        start = [self.R * np.sin(phi), self.R * (1 - np.cos(phi)), P * np.cos(phi)]
        outer = solve_ivp(self._free, (self.touching, 1.0), start, args=(V,), **options)
        r, z, _ = outer.y[:, -1]
        return r - 1.0, 2 * np.pi * V, z


@pytest.mark.parametrize(("R", "touching"), [(0.6, 0.3), (0.5, 0.2)])
def test_ball_pressed_into_a_clamped_sheet(make_quarter_disc, R, touching):
    """Force and pressed area at the exact depth, 2 % with about ten elements across the contact (derived)."""
    exact = PressedSheet(R, touching)
    mesh = make_quarter_disc(round(5 / touching))
    points = np.vstack([mesh.raised, [0, 0, R - exact.sink]])
    x, y, _ = points.T
    rim, ball = np.hypot(x, y) > 1 - 1e-9, np.arange(len(points)) == len(mesh.points)
    fixed = np.stack([rim | (x < 1e-9) | ball, rim | (y < 1e-9) | ball, rim | ball], axis=1)
    cloth = Membrane(mesh.triangles, mesh.flat, isotropic())
    contact = Contact(mesh.triangles, [[len(mesh.points)] * 2], [[R, R]], HARD)
    start = points - [0, 0, 1] * np.where(ball, 0.0, 1.001 * exact.sink * np.clip(1 - np.hypot(x, y), 0, 1))[:, None]
    state = relax(Structure(points, [cloth, contact], fixed=fixed), start=start)
    assert state.converged, state.message
    found = state[contact]
    assert -4 * found.force[2] == pytest.approx(exact.force, rel=0.02)
    assert state.reactions[-1, 2] == pytest.approx(found.force[2], rel=1e-9)
    edge = np.hypot(*state.positions[mesh.triangles[found.pressure > 0]].mean(axis=1)[:, :2].T).max()
    flat = np.hypot(*mesh.flat[found.pressure > 0].mean(axis=1).T).max()
    assert flat == pytest.approx(touching, abs=1 / round(5 / touching))
    assert edge < R


def press_belt(columns):
    """Belt of 0.5 m round a roller of 0.2 m over 120 degrees, each end pulled by 400 N along its tangent."""
    R, width, T, arm = 0.2, 0.5, 400.0, 0.15
    arc = 2 * np.pi / 3 * R
    xs = np.linspace(-arc / 2 - arm, arc / 2 + arm, columns + 1)
    ys = np.linspace(-width / 2, width / 2, 5)
    nx, ny = len(xs), len(ys)
    i, j = (a.ravel() for a in np.meshgrid(np.arange(nx - 1), np.arange(ny - 1), indexing="ij"))
    a, b, c, d = i * ny + j, (i + 1) * ny + j, (i + 1) * ny + j + 1, i * ny + j + 1
    triangles = np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)])
    flat = np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1).reshape(-1, 2)
    angle = np.clip(flat[:, 0] / R, -np.pi / 3, np.pi / 3)
    beyond = flat[:, 0] - angle * R
    x = R * np.sin(angle) + beyond * np.cos(angle)
    z = -R * np.cos(angle) + beyond * np.sin(angle)
    count = len(flat)
    points = np.vstack([np.stack([x, flat[:, 1], z], 1), [[0, -0.5, 0], [0, 0.5, 0]]])
    forces = np.zeros_like(points)
    ends = np.minimum(np.minimum(flat[:, 1] + width / 2, width / 2 - flat[:, 1]) / 0.125 + 0.5, 1.0) / (ny - 1)
    for side in (-1, 1):
        rim = np.flatnonzero(np.isclose(side * flat[:, 0], xs[-1]))
        forces[rim] = np.outer(ends[rim], T * np.array([side * 0.5, 0, np.sqrt(0.75)]))
    law = FabricLaw(1e6, 1e6, 0.0, 5e5)
    cloth = Membrane(triangles, flat[triangles], law)
    contact = Contact(triangles, [[count, count + 1]], [[R, R]], 4e6)  # a millimetre deep
    fixed = np.zeros(points.shape, dtype=bool)
    fixed[count:] = True
    fixed[:count, 1] = True
    held = np.isclose(flat[:, 0], 0.0)
    fixed[np.flatnonzero(held), 0] = True
    state = relax(Structure(points, [cloth, contact], fixed=fixed, forces=forces))
    assert state.converged, state.message
    return state, contact, flat[triangles].mean(axis=1)


def test_belt_over_a_cylinder():
    """T = 400 N, R = 0.2 m, b = 0.5 m, 120 deg: pressure T/(R b) = 4000 Pa, resultant 692.820323 N (textbook)."""
    state, contact, middle = press_belt(24)
    found = state[contact]
    assert -found.force[2] == pytest.approx(692.820323, rel=1e-3)
    assert abs(found.force[0]) < 1e-3 * 692.8
    inside = np.abs(middle[:, 0]) < 0.75 * np.pi / 3 * 0.2
    assert found.pressure[inside].mean() == pytest.approx(4000, rel=0.02)
    assert np.abs(found.pressure[inside] / 4000 - 1).max() < 0.1
    assert found.area == pytest.approx(2 * np.pi / 3 * 0.2 * 0.5, rel=0.08)  # it leaves a soft skin gradually


def test_capsule_without_length_is_a_ball(make_quarter_disc):
    """One node twice, two nodes at one place, and a small ball inside a large one: the same contact."""
    mesh = make_quarter_disc(8)
    points = np.vstack([mesh.raised, [[0.2, 0.1, 0.35], [0.2, 0.1, 0.35], [0.25, 0.12, 0.37]]])
    n = len(mesh.points)
    kinds = [([[n, n]], [[0.4, 0.4]]), ([[n, n + 1]], [[0.4, 0.4]]), ([[n, n + 2]], [[0.4, 0.3]])]
    found = [Contact(mesh.triangles, *kind, 1e5).attach(points).result(points) for kind in kinds]
    assert np.linalg.norm(found[0].force) > 1.0
    for other in found[1:]:
        np.testing.assert_allclose(other.push, found[0].push, atol=1e-12 * np.abs(found[0].push).max())
        np.testing.assert_allclose(other.by_segment, found[0].by_segment, rtol=1e-12)


def test_tapered_capsule_is_the_hull_of_its_balls():
    """Depth below a tapered capsule is that below the deepest of many balls along its axis, to 1e-6 m (definition)."""
    rng = np.random.default_rng(5)
    a, b, radii = np.array([0.1, -0.2, 0.0]), np.array([0.5, 0.3, 0.2]), np.array([0.3, 0.12])
    shares = np.linspace(0, 1, 20001)[:, None]
    axis, thickness = (1 - shares) * a + shares * b, ((1 - shares) * radii[0] + shares * radii[1])[:, 0]
    side = 1e-6
    for point in rng.uniform(-0.4, 0.8, size=(60, 3)):
        corners = point + side * np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0]])
        places = np.vstack([corners, a, b])
        contact = Contact([[0, 1, 2]], [[3, 4]], [radii], 1.0).attach(places)
        expected = max(0.0, float((thickness - np.linalg.norm(axis - corners.mean(0), axis=1)).max()))
        assert contact.result(places).depth[0] == pytest.approx(expected, abs=3e-6)


def rest_body(mesh, gear):
    """Two limbs with a joint between them, lying in a sheet and held only against sliding."""
    n = len(mesh.points)
    body = np.array([[0.25, 0.3, 0.16], [0.4, 0.35, 0.14], [0.52, 0.42, 0.16]])
    points = np.vstack([mesh.raised, body])
    cloth = np.arange(len(points)) < n
    fixed = np.repeat((cloth & np.append(mesh.boundary(), [False] * 3))[:, None], 3, axis=1)
    fixed[n:, :2] = True
    weight = np.zeros_like(points)
    weight[n:, 2] = [-60.0, -20.0, -40.0]
    limbs = [[n, n + 1], [n + 1, n + 2]]
    contact = Contact(mesh.triangles, limbs, [[0.1, 0.08], [0.08, 0.06]], 1e6)
    rods = Rod(limbs, 1e5, np.linalg.norm(np.diff(body, axis=0), axis=1))
    sheet = Membrane(mesh.triangles, mesh.flat, isotropic())
    elements = [sheet, contact, rods, Joint([[n, n + 1, n + 2]], 5.0)]
    state = relax(Structure(points, elements, fixed=fixed, forces=weight), gear=gear)
    assert state.converged, state.message
    return state[contact]


def test_free_body_rests_in_the_sheet(make_quarter_disc):
    """Contact carries the body's 120 N to 1e-4; explicit and implicit method agree to 0.1 %."""
    mesh = make_quarter_disc(10)
    found, other = (rest_body(mesh, gear) for gear in ("implicit", "explicit"))
    assert -found.force[2] == pytest.approx(120.0, rel=1e-4)
    np.testing.assert_allclose(found.by_segment.sum(axis=0), found.force, atol=1e-9)
    np.testing.assert_allclose(other.by_segment, found.by_segment, atol=0.12)
    np.testing.assert_allclose(other.depth, found.depth, rtol=1e-2)
    assert (found.depth > 0).all()
    assert (found.depth < np.array([0.08, 0.06]) / 3).all()


def move_four(count):
    """Return places before and after a step of a triangle and of an axis, at random."""
    rng = np.random.default_rng(8)
    before = rng.normal(size=(count, 5, 3))
    return before, before + 0.7 * rng.normal(size=before.shape)


def test_axis_that_goes_through_the_cloth_on_its_way_is_found():
    """Against many looks on the way (definition), and the same backwards."""
    contact = Contact([[0, 1, 2]], [[3, 4]], [[0.1, 0.1]], 1e4)
    found = {True: 0, False: 0}
    for before, after in zip(*move_four(400), strict=True):
        if contact.find_pierced(before)[0] or contact.find_pierced(after)[0]:
            continue
        ways = (before + share * (after - before) for share in np.linspace(0, 1, 2001))
        crosses = any(contact.find_pierced(place)[0] for place in ways)
        assert contact.forbids(before, after) == contact.forbids(after, before) == crosses
        found[crosses] += 1
    assert min(found.values()) > 20


def test_ball_that_jumps_through_the_cloth_is_found():
    contact = Contact([[0, 1, 2]], [[3, 3]], [[0.02, 0.02]], 1e4)
    above, below, beside = (
        np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], ball])
        for ball in ([0.2, 0.2, 0.5], [0.2, 0.2, -0.5], [2.2, 0.2, -0.5])
    )
    assert contact.forbids(above, below)
    assert contact.forbids(below, above)
    assert not contact.forbids(above, beside)  # past the corner
    assert not contact.find_pierced(below).any()


def press_small_ball(mesh, **options):
    """A ball half as thick as the triangles are wide, pressed straight down; its contact and how far it is above."""
    count = len(mesh.points)
    middle = mesh.points[mesh.triangles[9]].mean(axis=0)
    points = np.vstack([mesh.raised, [*middle, 0.05]])
    cloth = np.arange(len(points)) < count
    fixed = np.repeat((cloth & np.append(mesh.boundary(), False))[:, None], 3, axis=1)
    fixed[count:, :2] = True
    weight = np.zeros_like(points)
    weight[count, 2] = -100.0
    contact = Contact(mesh.triangles, [[count, count]], [[0.045, 0.045]], 6e5)
    sheet = Membrane(mesh.triangles, mesh.flat, isotropic())
    state = relax(Structure(points, [sheet, contact], fixed=fixed, forces=weight), **options)
    corners = state.positions[mesh.triangles]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    away = state.positions[count] - corners.mean(axis=1)
    nearest = np.argmin(np.linalg.norm(away, axis=1))
    return state, state[contact], away[nearest] @ normal[nearest] * np.sign(normal[nearest, 2])


def test_small_ball_does_not_come_through_large_triangles(make_quarter_disc):
    """Its flesh is pressed to where it stiffens, yet gives by less than two fifths of its radius."""
    state, found, above = press_small_ball(make_quarter_disc(6), gear="implicit")
    assert state.converged, state.message
    assert -found.force[2] == pytest.approx(100.0, rel=1e-4)
    assert 0.25 * 0.045 < found.depth[0] < 0.4 * 0.045
    assert above > 0


def test_small_ball_rests_alike_by_explicit_steps(make_quarter_disc):
    """Stiff flesh throws it back many times before it rests, and never lets it through."""
    state, found, above = press_small_ball(make_quarter_disc(6), gear="explicit", max_iterations=2000)
    assert state.converged, state.message
    assert found.depth[0] == pytest.approx(
        press_small_ball(make_quarter_disc(6), gear="implicit")[1].depth[0], rel=1e-5
    )
    assert above > 0
