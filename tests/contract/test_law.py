"""Every law of cloth keeps the contract of ``solver/law.py``; strains and stresses are rows 11, 22, 2*12 and 11, 22, 12."""

import pickle

import numpy as np
import pytest

import tautlay.solver
from tautlay.solver import Law, Membrane, StiffnessModel

from ._laws import LAWS

SLACK, WRINKLED, TAUT = 0, 1, 2
CORNERS = np.array([[0.0, 0.0], [1.0, 0.1], [0.2, 0.9]])
FIRST = np.pad(CORNERS, ((0, 0), (0, 1)))
SIZES = 1e-3 * 0.5 ** np.arange(5)  # of the largest strain
ROUNDING = 1e-12


@pytest.fixture(params=LAWS.values(), ids=LAWS)
def row(request):
    return request.param


@pytest.fixture(params=[row for row in LAWS.values() if row.relaxed], ids=[n for n, row in LAWS.items() if row.relaxed])
def field(request):
    return request.param


def draw_strains(row, count, seed=1):
    """Return strains (m, 3) by principal values, a third of them nearly uniaxial, and direction."""
    rng = np.random.default_rng(seed)
    first, second = rng.uniform(*row.strains, (2, count))
    second[::3] *= 0.02
    angle = rng.uniform(0, np.pi, count)
    mean, half = (first + second) / 2, (first - second) / 2
    turned = half * np.cos(2 * angle)
    return np.column_stack([mean + turned, mean - turned, 2 * half * np.sin(2 * angle)])


def draw_steps(row, count):
    """Return changes of strain (m, 3) as large as the largest strain."""
    return row.strains[1] * np.random.default_rng(2).uniform(-1, 1, (count, 3))


def find_size(row):
    """Return the size of stress, N/m: what the taut stiffness makes of the largest strain."""
    none = np.zeros((1, 3))
    stiffness = row.law.find_tangents(none, row.law.respond(none), StiffnessModel.TAUT)
    return np.abs(stiffness).max() * row.strains[1]


def find_tangents(row, strain, model):
    return row.law.find_tangents(strain, row.law.respond(strain), model)


def split_principal(stress):
    """Return the smaller and the larger principal stress (m,)."""
    mean, radius = (stress[:, 0] + stress[:, 1]) / 2, np.hypot((stress[:, 0] - stress[:, 1]) / 2, stress[:, 2])
    return mean - radius, mean + radius


def check_decay(remainders, rate, size):
    """Remainders (5, m) fall with the power ``rate`` of SIZES, or there is nothing but rounding of ``size``."""
    largest = remainders.max(axis=1)
    if largest.max() > ROUNDING * size:
        assert np.polyfit(np.log(SIZES), np.log(largest), 1)[0] == pytest.approx(rate, abs=0.12)


def test_every_law_that_is_offered_is_held_to_the_contract():
    offered = {getattr(tautlay.solver, name) for name in tautlay.solver.__all__}
    kinds = {kind for kind in offered if isinstance(kind, type) and issubclass(kind, Law)} - {Law}
    assert kinds <= {type(row.law) for row in LAWS.values()}


def test_answers_have_their_shapes_and_types(row):
    strain = draw_strains(row, 50)
    kept = strain.copy()
    found = row.law.respond(strain)
    shapes = {"kind": (50,), "stress": (50, 3), "energy": (50,), "angle": (50,)}
    for name, shape in shapes.items():
        array = getattr(found, name)
        assert array.shape == shape
        assert array.dtype == (np.int64 if name == "kind" else np.float64)
        assert array.flags.c_contiguous
    for model in StiffnessModel:
        tangents = row.law.find_tangents(strain, found, model)
        assert (tangents.shape, tangents.dtype, tangents.flags.writeable) == ((50, 3, 3), np.float64, True)
        assert tangents.flags.c_contiguous
    np.testing.assert_array_equal(strain, kept)


def test_each_row_stands_for_itself(row):
    """A strain gets the same answer to 1e-14 whatever is asked with it."""
    strain, size = draw_strains(row, 60), find_size(row)
    whole, alone = row.law.respond(strain), [row.law.respond(strain[k : k + 1]) for k in range(60)]
    for name in whole._fields:
        single = np.concatenate([getattr(found, name) for found in alone])
        np.testing.assert_allclose(single, getattr(whole, name), rtol=1e-13, atol=1e-14 * size)


def test_a_law_can_be_sent_to_another_process(row):
    strain = draw_strains(row, 20)
    row.law.respond(strain)
    sent = pickle.loads(pickle.dumps(row.law))
    np.testing.assert_array_equal(sent.respond(strain).stress, row.law.respond(strain).stress)


@pytest.mark.parametrize("kind", [SLACK, WRINKLED, TAUT])
def test_stress_is_the_slope_of_energy_and_the_tangent_that_of_stress(row, kind):
    """Taylor remainders, away from the borders of kinds: of the energy 2 and 3, of the stress 1 and 2."""
    strain, steps, size = draw_strains(row, 600), draw_steps(row, 600), find_size(row)
    ways = [row.law.respond(strain + share * steps) for share in (-SIZES[0], *SIZES)]
    here = row.law.respond(strain)
    inside = (here.kind == kind) & np.all([way.kind == kind for way in ways], axis=0)
    assert inside.any() == (row.relaxed or kind == TAUT)
    if not inside.any():
        return
    tangents = row.law.find_tangents(strain, here, StiffnessModel.EXACT)
    pull = np.einsum("mij,mj->mi", tangents, steps)
    first, second = np.einsum("mi,mi->m", here.stress, steps), np.einsum("mi,mi->m", pull, steps)
    energy = np.array([way.energy - here.energy for way in ways[1:]])
    h, work = SIZES[:, None], size * row.strains[1]
    check_decay(np.abs(energy - h * first)[:, inside], 2, work)
    check_decay(np.abs(energy - h * first - h**2 * second / 2)[:, inside], 3, work)
    change = np.array([way.stress - here.stress for way in ways[1:]])
    check_decay(np.linalg.norm(change, axis=2)[:, inside], 1, size)
    check_decay(np.linalg.norm(change - h[:, :, None] * pull, axis=2)[:, inside], 2, size)


def test_tangents_are_symmetric_and_as_definite_as_their_model(row):
    strain = draw_strains(row, 500)
    found = {model: find_tangents(row, strain, model) for model in StiffnessModel}
    size = np.abs(found[StiffnessModel.TAUT]).max()
    for tangents in found.values():
        np.testing.assert_allclose(tangents, np.swapaxes(tangents, 1, 2), atol=1e-12 * size)
    positive, taut = found[StiffnessModel.POSITIVE], found[StiffnessModel.TAUT]
    assert np.linalg.eigvalsh(positive).min() >= -1e-9 * size
    assert np.linalg.eigvalsh(taut).min() >= -1e-9 * size
    assert np.linalg.eigvalsh(taut - positive).min() >= -1e-9 * size
    assert np.linalg.eigvalsh(taut).max(axis=1).min() > 0


def test_tension_field_pulls_and_never_pushes(field):
    strain = draw_strains(field, 2000)
    low, _ = split_principal(field.law.respond(strain).stress)
    assert low.min() >= -ROUNDING * find_size(field)
    exact = find_tangents(field, strain, StiffnessModel.EXACT)
    assert np.linalg.eigvalsh(exact).min() >= -1e-9 * np.abs(exact).max()


def test_kinds_say_what_is_carried(field):
    """Slack: nothing; wrinkled: a pull along the line at ``angle`` alone; taut: a pull both ways."""
    strain = draw_strains(field, 2000)
    found, size = field.law.respond(strain), find_size(field)
    low, high = split_principal(found.stress)
    assert set(found.kind.tolist()) == {SLACK, WRINKLED, TAUT}
    slack, wrinkled, taut = (found.kind == kind for kind in (SLACK, WRINKLED, TAUT))
    assert not found.stress[slack].any()
    assert not found.energy[slack].any()
    assert not field.law.find_tangents(strain, found, StiffnessModel.EXACT)[slack].any()
    assert (high[wrinkled] > 0).all()
    c, s = np.cos(found.angle[wrinkled]), np.sin(found.angle[wrinkled])
    along = high[wrinkled, None] * np.column_stack([c * c, s * s, c * s])
    np.testing.assert_allclose(found.stress[wrinkled], along, atol=1e-9 * size)
    assert (low[taut] > 0).all()


def test_energy_of_a_tension_field_is_convex(field):
    """Between any two strains the stress does not fall along the way: dS.dE >= 0."""
    start, end = draw_strains(field, 3000), draw_strains(field, 3000, seed=3)
    stress = [field.law.respond(strain).stress for strain in (start, end)]
    assert ((stress[1] - stress[0]) * (end - start)).sum(axis=1).min() >= -ROUNDING * find_size(field)


def test_energy_is_the_work_of_the_stress_across_changes_of_kind(row):
    """Along straight ways the energy gained is the work done, by five Gauss points in each of 400 parts."""
    nodes, weights = np.polynomial.legendre.leggauss(5)
    cuts = np.linspace(0, 1, 401)
    share = (cuts[:-1, None] + (nodes + 1) / 2 * np.diff(cuts)[:, None]).ravel()
    ends, kinds = draw_strains(row, 40).reshape(20, 2, 3), set()
    for start, end in ends:
        found = row.law.respond(start + share[:, None] * (end - start))
        kinds |= set(found.kind.tolist())
        work = (found.stress @ (end - start) * np.tile(weights, 400)).sum() / 800
        energy = row.law.respond(np.stack([start, end])).energy
        assert energy[1] - energy[0] == pytest.approx(work, abs=1e-6 * find_size(row) * row.strains[1])
    assert kinds == ({SLACK, WRINKLED, TAUT} if row.relaxed else {TAUT})


def make_cloth(row):
    return Membrane([[0, 1, 2]], CORNERS[None], row.law)


def find_force(cloth, positions):
    force = np.zeros_like(positions)
    cloth.add_force(positions, force)
    return force


def test_cloth_as_it_lies_flat_stores_nothing(row):
    """A membrane counts its energy from ``flat_energy``."""
    assert make_cloth(row).energy(FIRST) == pytest.approx(0, abs=ROUNDING * find_size(row))


def test_membrane_of_the_law_turns_with_its_nodes(row):
    """Frame indifference: a rigid motion leaves energy and kind, and turns force and stiffness."""
    rng = np.random.default_rng(5)
    rotation = np.linalg.qr(rng.normal(size=(3, 3)))[0]
    cloth, kinds = make_cloth(row), set()
    for _ in range(40):
        x = FIRST * (1 + row.strains[1] * np.append(rng.uniform(-0.5, 1, 2), 0)) + 0.05 * rng.normal(size=(3, 3))
        moved = x @ rotation.T + [3.0, -2.0, 5.0]
        force, scale = find_force(cloth, x), find_size(row)
        assert cloth.energy(moved) == pytest.approx(cloth.energy(x), abs=1e-10 * scale)
        np.testing.assert_allclose(find_force(cloth, moved), force @ rotation.T, atol=1e-9 * scale)
        np.testing.assert_allclose(force.sum(axis=0), 0, atol=1e-12 * scale)
        np.testing.assert_allclose(np.cross(x, force).sum(axis=0), 0, atol=1e-12 * scale)
        turn = np.kron(np.eye(3), rotation)
        for model in StiffnessModel:
            blocks = cloth.blocks(x, model)[0]
            close = 1e-7 * np.abs(blocks).max() + 1e-9 * scale
            np.testing.assert_allclose(cloth.blocks(moved, model)[0], turn @ blocks @ turn.T, atol=close)
        kinds.add(int(cloth.result(x).kind[0]))
    assert WRINKLED in kinds or not row.relaxed


def test_membrane_of_the_law_is_stiff_within_its_bound(row):
    """At random states 0 <= K <= diag(bound), which keeps fictitious masses safe; the force is the energy's slope."""
    rng, cloth, scale = np.random.default_rng(6), make_cloth(row), find_size(row)
    for _ in range(40):
        x = FIRST * (1 + row.strains[1] * np.append(rng.uniform(-0.5, 1, 2), 0)) + 0.02 * rng.normal(size=(3, 3))
        K, bound = cloth.blocks(x, StiffnessModel.POSITIVE)[0], np.zeros(3)
        cloth.add_bound(x, bound)
        assert np.linalg.eigvalsh(K).min() >= -1e-9 * bound.max()
        assert np.linalg.eigvalsh(np.diag(np.repeat(bound, 3)) - K).min() >= -1e-9 * bound.max()
        step, h = rng.normal(size=(3, 3)), 1e-6
        slope = (cloth.energy(x + h * step) - cloth.energy(x - h * step)) / (2 * h)
        assert slope == pytest.approx(-np.vdot(find_force(cloth, x), step), rel=1e-4, abs=1e-6 * scale)


def settle(row, strain, mu):
    """Return what smoothed cloth answers when it has come to rest at ``strain``."""
    found = row.law.smooth(strain, mu, None)
    for _ in range(3):
        found = row.law.smooth(strain, mu, found)
    return found


def test_without_smoothing_the_answer_is_exact(row):
    strain = draw_strains(row, 200)
    found, wanted = row.law.smooth(strain, 0.0, None), row.law.respond(strain)
    np.testing.assert_array_equal(found.stress, wanted.stress)
    np.testing.assert_array_equal(found.energy, wanted.energy)
    for model in StiffnessModel:
        tangents, lead = row.law.linearise(strain, 0.0, found, model)
        np.testing.assert_array_equal(tangents, row.law.find_tangents(strain, wanted, model))
        assert not lead.any()


def test_smoothed_answers_tend_to_the_exact_ones(row):
    """From a thousandth of the work down by 1e3 twice: energy with mu and its logarithm, stress with the root at worst."""
    strain, work = draw_strains(row, 500), find_size(row) * row.strains[1]
    exact, kept = row.law.respond(strain), strain.copy()
    for share in (1e-3, 1e-6, 1e-9):
        found = settle(row, strain, share * work)
        assert np.abs(found.energy - exact.energy).max() <= 60 * share * work
        assert np.abs(found.stress - exact.stress).max() <= 10 * np.sqrt(share) * find_size(row)
    np.testing.assert_array_equal(strain, kept)


@pytest.mark.parametrize("share", [1e-2, 1e-4])
def test_smooth_stress_is_the_slope_of_smooth_energy(row, share):
    """At rest; by central differences, 1e-4 of the size."""
    strain, size = draw_strains(row, 300), find_size(row)
    mu, step = share * size * row.strains[1], 1e-5 * row.strains[1] * np.random.default_rng(4).normal(size=(300, 3))
    here = settle(row, strain, mu)
    ends = [settle(row, strain + way * step, mu) for way in (1, -1)]
    slope = (ends[0].energy - ends[1].energy) / 2
    size_of_step = size * np.linalg.norm(step, axis=1)
    assert np.abs(slope - (here.stress * step).sum(axis=1)).max() <= 1e-4 * size_of_step.max()
    tangents, lead = row.law.linearise(strain, mu, here, StiffnessModel.EXACT)
    change = (ends[0].stress - ends[1].stress) / 2 - np.einsum("mij,mj->mi", tangents, step)
    assert np.median(np.linalg.norm(change, axis=1)) <= 1e-4 * size_of_step.max()
    assert np.abs(lead).max() <= 1e-6 * size


def test_smooth_tangents_are_symmetric_and_positive(row):
    strain, size = draw_strains(row, 300), find_size(row)
    mu = 1e-4 * size * row.strains[1]
    tangents, _ = row.law.linearise(strain, mu, settle(row, strain, mu), StiffnessModel.POSITIVE)
    np.testing.assert_allclose(tangents, np.swapaxes(tangents, 1, 2), atol=1e-9 * size)
    assert np.linalg.eigvalsh(tangents).min() >= -1e-9 * size / row.strains[1]


def test_one_smoothed_step_follows_the_strain(field):
    """From rest a small change of strain is met by tangent and lead alone: to its square."""
    strain, size = draw_strains(field, 300), find_size(field)
    mu = 1e-2 * size * field.strains[1]
    here = settle(field, strain, mu)
    for share in (1e-4, 1e-5):
        step = share * field.strains[1] * np.random.default_rng(4).normal(size=(300, 3))
        tangents, lead = field.law.linearise(strain, mu, here, StiffnessModel.POSITIVE)
        met = here.stress + lead + np.einsum("mij,mj->mi", tangents, step)
        found = field.law.smooth(strain + step, mu, here)
        np.testing.assert_allclose(found.stress, met, atol=1e-6 * size)
