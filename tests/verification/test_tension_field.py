"""The tension-field law of orthotropic cloth against its definition: least energy over all wrinkle strains.

W(E) = min over positive semi-definite wrinkle strains Ew of (E + Ew):D:(E + Ew)/2. A. C. Pipkin, IMA J. Appl.
Math. 36 (1986) 85-99 (relaxed energy; from memory). The optimality conditions of this convex problem are
S >= 0, Ew = C:S - E >= 0 and S:Ew = 0 (S. Boyd and L. Vandenberghe, Convex Optimization, 2004, ch. 5).
Strain vectors are 11, 22, 2*12.
"""

import numpy as np
import pytest
from scipy.optimize import minimize

from tautlay.solver import FabricLaw, Membrane, StiffnessModel

LARGEST = 0.05  # strain
SHARE = 1e-4  # of the stress at the largest strain
CORNERS = np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]])


def draw_laws(rng, count):
    """Draw cloth from fishing-net soft to stiff: 1e3 to 1e5 N/m, shear from 3 N/m, any admissible Poisson ratio."""
    for _ in range(count):
        warp, weft = 10 ** rng.uniform(3, 5, 2)
        shear = 10 ** rng.uniform(np.log10(3), 4.5)
        yield FabricLaw(warp, weft, rng.uniform(-0.9, 0.9) * np.sqrt(warp / weft), shear)


def draw_strains(rng, count):
    """Draw strains of up to 5 %, by principal values and direction; a third of them nearly uniaxial."""
    first, second = rng.uniform(-LARGEST, LARGEST, (2, count))
    second[::3] *= 0.02
    angle = rng.uniform(0, np.pi, count)
    mean, half = (first + second) / 2, (first - second) / 2
    return np.column_stack(
        [mean + half * np.cos(2 * angle), mean - half * np.cos(2 * angle), 2 * half * np.sin(2 * angle)]
    )


def place(strain):
    """Place one triangle for each strain, in a random attitude, so that its Green strain is just that."""
    e1, e2, g = strain.T
    metric = np.stack([np.stack([1 + 2 * e1, g], -1), np.stack([g, 1 + 2 * e2], -1)], axis=1)
    F = np.linalg.cholesky(metric).swapaxes(1, 2)
    rotation = np.linalg.qr(np.random.default_rng(5).normal(size=(3, 3)))[0]
    return (np.einsum("mij,aj->mai", F, CORNERS) @ rotation[:2]).reshape(-1, 3)


def find_stress(law, strain):
    """Return kind (m,) and PK2 stress (m, 3) of strains (m, 3) through cloth triangles."""
    count = len(strain)
    cloth = Membrane(np.arange(3 * count).reshape(-1, 3), np.tile(CORNERS, (count, 1, 1)), law)
    found = cloth.result(place(strain))
    assert found.strain * [1, 1, 2] == pytest.approx(strain, abs=1e-14)
    return found.kind, found.pk2


def find_energy(law, strain):
    """Return energy per flat area, J/m2, of one strain (3,)."""
    return Membrane([[0, 1, 2]], CORNERS[None], law).energy(place(strain[None])) / 0.5


def scale_stress(law):
    return LARGEST * max(law.warp, law.weft)


def least_eigenvalue(a, b, c):
    """Smaller eigenvalue of [[a, c], [c, b]]."""
    return (a + b) / 2 - np.hypot((a - b) / 2, c)


def minimise_energy(law, strain):
    """Return the least energy over all wrinkle strains L L^T, and its stress, by descent from many starts."""
    root = np.linalg.cholesky(law.stiffness())
    size = 0.5 * max(law.warp, law.weft) * LARGEST**2

    def energy(p):
        wrinkle = LARGEST * np.array([p[0] ** 2, p[1] ** 2 + p[2] ** 2, 2 * p[0] * p[1]])
        part = root.T @ (strain + wrinkle)
        stress = root @ part
        slope = LARGEST * np.array(
            [
                2 * p[0] * stress[0] + 2 * p[1] * stress[2],
                2 * p[1] * stress[1] + 2 * p[0] * stress[2],
                2 * p[2] * stress[1],
            ]
        )
        return 0.5 * part @ part / size, slope / size

    starts = [(1.0, 0.0, 1.0), (1.0, 1.0, 0.3), (1.0, -1.0, 0.3), (0.1, 0.0, 1.0), (1.0, 0.0, 0.1)]
    runs = [minimize(energy, s, jac=True, method="BFGS", options={"gtol": 1e-12, "maxiter": 2000}) for s in starts]
    p = min(runs, key=lambda run: run.fun).x
    wrinkle = LARGEST * np.array([p[0] ** 2, p[1] ** 2 + p[2] ** 2, 2 * p[0] * p[1]])
    return energy(p)[0] * size, law.stiffness() @ (strain + wrinkle)


@pytest.mark.slow
def test_energy_is_the_least_over_all_wrinkle_strains():
    rng = np.random.default_rng(11)
    kinds = set()
    for law in draw_laws(rng, 100):
        strain = draw_strains(rng, 1)[0]
        kind, stress = find_stress(law, strain[None])
        energy, wanted = minimise_energy(law, strain)
        top = 0.5 * max(law.warp, law.weft) * LARGEST**2
        assert find_energy(law, strain) == pytest.approx(energy, rel=1e-6, abs=1e-9 * top)
        assert stress[0] == pytest.approx(wanted, abs=SHARE * scale_stress(law))
        kinds.add(int(kind[0]))
    assert kinds == {0, 1, 2}


@pytest.mark.slow
def test_global_direction_in_100000_random_states():
    """The optimality conditions prove each stress the global solution: no second local maximum slips in."""
    rng = np.random.default_rng(12)
    counts = np.zeros(3, dtype=int)
    for law in draw_laws(rng, 1000):
        strain = draw_strains(rng, 100)
        kind, stress = find_stress(law, strain)
        counts += np.bincount(kind, minlength=3)
        top = scale_stress(law)
        wrinkle = stress @ law.compliance() - strain
        assert (least_eigenvalue(*stress.T) >= -1e-12 * top).all()
        assert (least_eigenvalue(wrinkle[:, 0], wrinkle[:, 1], wrinkle[:, 2] / 2) >= -1e-8 * LARGEST).all()
        assert (stress * wrinkle).sum(axis=1) == pytest.approx(0, abs=1e-10 * top * LARGEST)
        assert (
            kind == np.where(np.abs(stress).max(axis=1) == 0, 0, np.where(np.abs(wrinkle).max(1) > 1e-12, 1, 2))
        ).all()
    assert counts.sum() == 100_000
    assert counts.min() > 5_000


def scan_directions(law, strain, angles):
    """Return the angle of the largest (t.E.t)^2 / C_tt among t.E.t > 0, by brute force on a fine circle."""
    compliance = law.compliance()

    def gain(a):
        pick = np.stack([np.cos(a) ** 2, np.sin(a) ** 2, np.cos(a) * np.sin(a)])
        return np.maximum(strain @ pick, 0) ** 2 / np.einsum("i...,ij,j...->...", pick, compliance, pick)

    best = angles[gain(angles).argmax()]
    for width in (1e-3, 1e-6):
        near = best + np.linspace(-width, width, 2001)
        best = near[gain(near).argmax()]
    return best


@pytest.mark.slow
def test_wrinkled_stress_follows_the_best_direction_of_a_scan():
    """Two thousand wrinkled states against a scan of 20,000 angles, refined: within 1e-4 of a 5 % strain's stress."""
    rng = np.random.default_rng(13)
    angles = np.arange(20_000) * np.pi / 20_000
    scanned = 0
    for law in draw_laws(rng, 400):
        strain = draw_strains(rng, 16)
        kind, stress = find_stress(law, strain)
        for e, s in zip(strain[kind == 1], stress[kind == 1], strict=True):
            t = scan_directions(law, e, angles)
            pick = np.array([np.cos(t) ** 2, np.sin(t) ** 2, np.cos(t) * np.sin(t)])
            wanted = pick * (e @ pick) / (pick @ law.compliance() @ pick)
            assert s == pytest.approx(wanted, abs=SHARE * scale_stress(law))
            scanned += 1
    assert scanned > 2000


def test_two_local_maxima_occur_and_the_higher_one_is_taken():
    """Shear-soft cloth that widens as it is pulled has a hill at the warp and another at the weft; a climb
    from the principal direction of D:E alone can end on the lower one.
    """
    rng = np.random.default_rng(14)
    angles = np.arange(2000) * np.pi / 2000
    pick = np.stack([np.cos(angles) ** 2, np.sin(angles) ** 2, np.cos(angles) * np.sin(angles)])
    twins = 0
    for _ in range(40):
        warp, weft = 10 ** rng.uniform(4, 5, 2)
        law = FabricLaw(warp, weft, rng.uniform(-0.9, -0.1) * np.sqrt(warp / weft), rng.uniform(3, 30))
        strain = draw_strains(rng, 200)
        stretch = np.maximum(strain @ pick, 0)
        gain = stretch**2 / np.einsum("ia,ij,ja->a", pick, law.compliance(), pick)
        peaks = (gain > np.roll(gain, 1, 1)) & (gain >= np.roll(gain, -1, 1)) & (gain > 0)
        kind, stress = find_stress(law, strain)
        chosen = (peaks.sum(axis=1) > 1) & (kind == 1)
        twins += chosen.sum()
        twice = np.einsum("mi,ij,mj->m", stress, law.compliance(), stress)  # twice the energy is the gain
        assert (twice[chosen] >= gain.max(axis=1)[chosen] * (1 - 1e-9)).all()
    assert twins > 500


def test_jump_between_taut_and_wrinkled():
    """F = diag(1.02, 0.999): taut at nu = 0.3, wrinkled at nu = 0 (derived here)."""
    strain = np.array([[(1.02**2 - 1) / 2, (0.999**2 - 1) / 2, 0]])
    kind, stress = find_stress(FabricLaw(1e4, 1e4, 0.3, 1e4 / 2.6), strain)
    assert kind[0] == 2
    assert stress[0] == pytest.approx([218.683, 55.6099, 0], abs=1e-3)
    kind, stress = find_stress(FabricLaw(1e4, 1e4, 0.0, 5e3), strain)
    assert kind[0] == 1
    assert stress[0] == pytest.approx([202.0, 0, 0], abs=1e-9)


def test_poisson_ratio_is_contraction_along_the_weft_per_stretch_along_the_warp():
    """Uniaxial pull along warp, weft and in shear, orthotropic compliance: R. M. Jones, Mechanics of Composite
    Materials, 2nd ed. 1999, ch. 2 (from memory).
    """
    law = FabricLaw(30e3, 12e3, 0.25, 40.0)
    pull = 300.0
    along_warp = [pull / 30e3, -0.25 * pull / 30e3, 0]
    along_weft = [-0.25 * pull / 30e3, pull / 12e3, 0]
    both_sheared = [(1 - 0.25) * pull / 30e3, pull / 12e3 - 0.25 * pull / 30e3, 0.02]
    _, stress = find_stress(law, np.array([along_warp, along_weft, both_sheared]))
    assert stress == pytest.approx(np.array([[pull, 0, 0], [0, pull, 0], [pull, pull, 0.8]]), abs=1e-9)


def test_energy_is_convex_and_stress_does_not_jump():
    """Stress is the gradient of a convex energy whose stiffness is at most D: for any two strains
    dS:C:dS <= dS:dE (J.-B. Baillon and G. Haddad, Israel J. Math. 26 (1977) 137-150), also close together.
    """
    rng = np.random.default_rng(15)
    for law in draw_laws(rng, 300):
        near = draw_strains(rng, 100)
        far = near + draw_strains(rng, 100) * 10 ** rng.uniform(-5, 0, (100, 1))
        step = find_stress(law, far)[1] - find_stress(law, near)[1]
        work = (step * (far - near)).sum(axis=1)
        stiff = np.einsum("mi,ij,mj->m", step, law.compliance(), step)
        size = np.einsum("mi,ij,mj->m", far - near, law.stiffness(), far - near)
        assert (stiff <= work + 1e-9 * size + 1e-13 * scale_stress(law)).all()


def test_energy_is_the_work_of_the_stress_across_changes_of_state():
    """Along straight ways from slack to taut the energy gained is the work done (Gauss points between kinks)."""
    rng = np.random.default_rng(16)
    nodes, weights = np.polynomial.legendre.leggauss(5)
    crossed = set()
    for law in draw_laws(rng, 20):
        start, end = draw_strains(rng, 1)[0], draw_strains(rng, 1)[0]
        cuts = np.linspace(0, 1, 401)
        share = (cuts[:-1, None] + (nodes + 1) / 2 * np.diff(cuts)[:, None]).ravel()
        kind, stress = find_stress(law, start + share[:, None] * (end - start))
        work = (stress @ (end - start) * np.tile(weights, 400)).sum() / 800
        crossed |= set(zip(kind[:-1].tolist(), kind[1:].tolist(), strict=True))
        top = 0.5 * max(law.warp, law.weft) * LARGEST**2
        assert find_energy(law, end) - find_energy(law, start) == pytest.approx(work, abs=1e-6 * top)
    assert {(0, 1), (1, 2)} <= crossed | {(b, a) for a, b in crossed}


@pytest.mark.parametrize("model", [StiffnessModel.EXACT, StiffnessModel.POSITIVE])
def test_stiffness_is_the_change_of_force(model):
    """Block stiffness against central differences of the force; as stress >= 0 both models are the same."""
    rng = np.random.default_rng(17)
    kinds = set()
    for law in draw_laws(rng, 60):
        position = place(draw_strains(rng, 1))
        cloth = Membrane([[0, 1, 2]], CORNERS[None], law)
        step = 1e-7
        numeric = np.empty((9, 9))
        for k in range(9):
            change = np.zeros(9)
            change[k] = step
            sides = []
            for sign in (1, -1):
                force = np.zeros((3, 3))
                cloth.add_force(position + sign * change.reshape(3, 3), force)
                sides.append(-force.ravel())
            numeric[:, k] = (sides[0] - sides[1]) / (2 * step)
        found = cloth.blocks(position, model)[0]
        assert found == pytest.approx(numeric, abs=2e-5 * max(law.warp, law.weft))
        assert np.linalg.eigvalsh(found).min() > -1e-9 * max(law.warp, law.weft)
        kinds.add(int(cloth.result(position).kind[0]))
    assert kinds == {0, 1, 2}
