"""A lying person on a flat bed puts the weight where measured people put it.

Measured: 13 men, mean 1.763 m and 80.5 kg, supine on a mattress under a mat of sensors; share of the load between the
heel (s = 0) and s, the occiput at s = 1, and the scatter between the men. M. Baran Pouyan, J. Birjandtalab, M.
Heydarzadeh, M. Nourani, S. Ostadabbas, "A pressure map dataset for in-bed posture classification", IEEE BHI 2017, doi
10.1109/BHI.2017.7897206, data PhysioNet "pmd" 1.0.0, experiment 1, file 1 of each man, worked out as follows: median
over time, first five frames left out; the mattress, a pillow and the unit of the raw numbers are not stated, which
shares do not need. Only these derived numbers are kept here.

The bed: springs of 80 kPa/m under the flesh, no pillow, no friction. Shoulders, blades, calves and hips were chosen
with these rows in view, each for an anatomical reason that stands in ``body_frame`` and ``body_joints``; nothing was
fitted. Springs side by side do not spread a load as a mattress does: the area above 0.7 kPa comes out at 0.20 m2 where
0.337 +- 0.036 was measured, and is not asserted.
"""

import numpy as np
import pytest

from tautlay.hammock import Person, Posture, Sex
from tautlay.meshing.body_frame import make_frame
from tautlay.meshing.occupant import find_stiffness, make_skeleton
from tautlay.solver import Contact, Structure, relax

MAN = Person(1.76, 80.5, Sex.MALE, 0.1, Posture(pillow=0.0))
WINKLER = 80e3  # Pa/m
CELL = 0.03  # m
G = 9.80665  # m/s2, NIST SP 811
SHARES = {  # s: measured share of the load below it, scatter of 13 men
    0.10: (0.034, 0.010),
    0.20: (0.096, 0.017),
    0.30: (0.130, 0.024),
    0.40: (0.162, 0.024),
    0.50: (0.277, 0.050),
    0.60: (0.517, 0.054),
    0.70: (0.644, 0.046),
    0.75: (0.727, 0.037),
    0.80: (0.826, 0.032),
    0.85: (0.913, 0.020),
    0.90: (0.944, 0.015),
    0.95: (0.952, 0.016),
}
FARTHER = {  # rows that a plain body does not reach: by how many times the scatter, and why
    0.10: (2.5, "the foot's weight sits in the ankle, and the heel is no thicker than the ankle"),
    0.20: (3.0, "a calf is one ball at its thickest place"),
    0.30: (2.5, "the same: what the calf carries the thigh does not"),
    0.75: (2.7, "no lower ribs between waist and chest"),
    0.95: (2.0, "head and neck end in the neck's node"),
}


def lay_flat():
    """Return the weight on each triangle of the bed, N, and how far along the body it lies, from heel to occiput."""
    frame = make_frame(MAN)
    x, y = np.meshgrid(np.arange(-0.15, 2.1, CELL), np.arange(-0.48, 0.5, CELL), indexing="ij")
    ids = np.arange(x.size).reshape(x.shape)
    a, b, c, d = ids[:-1, :-1], ids[1:, :-1], ids[1:, 1:], ids[:-1, 1:]
    triangles = np.concatenate([np.stack([a, b, c], -1).reshape(-1, 3), np.stack([a, c, d], -1).reshape(-1, 3)])
    bed = np.column_stack([x.ravel(), y.ravel(), np.zeros(x.size)])
    first = len(bed)
    places = np.vstack([bed, frame.places + [0, 0, 0.003]])
    fixed = np.zeros(places.shape, bool)
    fixed[:first] = True
    hips = [first + frame.index(f"{side} hip") for side in ("left", "right")]
    fixed[hips, 0], fixed[hips[0], 1] = True, True  # nothing else keeps smooth flesh on a smooth bed from turning
    forces = np.zeros_like(places)
    forces[first:, 2] = -G * frame.masses
    contact = Contact(triangles, first + frame.capsules, frame.radii, 1 / (1 / find_stiffness(frame) + 1 / WINKLER))
    elements = [contact, *make_skeleton(frame, first).values()]
    state = relax(Structure(places, elements, fixed=fixed, forces=forces), tolerance=1e-5)
    assert state.converged
    body = state.positions[first:]
    heel = np.mean([body[frame.index(f"{side} ankle"), 0] for side in ("left", "right")]) + 0.024
    along = (heel - bed[triangles].mean(axis=1)[:, 0]) / (heel - body[frame.index("head"), 0])
    return -state[contact].push[:, 2], along


@pytest.fixture(scope="module")
def bed():
    return lay_flat()


def test_bed_carries_the_weight(bed):
    assert bed[0].sum() == pytest.approx(MAN.mass * G, rel=1e-4)


@pytest.mark.parametrize("place", SHARES)
def test_share_of_the_load_is_that_of_measured_men(bed, place):
    load, along = bed
    measured, scatter = SHARES[place]
    off = (load[along < place].sum() / load.sum() - measured) / scatter
    assert abs(off) < FARTHER.get(place, (1.5, ""))[0]


def test_centre_of_the_load_and_the_head_are_those_of_measured_men(bed):
    """Centre 0.588 +- 0.018; head 5.6 +- 1.5 %, of which the neck's load here is part."""
    load, along = bed
    assert (load * along).sum() / load.sum() == pytest.approx(0.588, abs=0.018)
    assert load[along > 0.95].sum() / load.sum() == pytest.approx(0.056, abs=1.5 * 0.015)
