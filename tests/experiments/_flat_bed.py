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

from dataclasses import replace

import numpy as np

from tautlay.hammock import Person, Posture, Sex
from tautlay.meshing.body_frame import make_frame
from tautlay.meshing.occupant import find_stiffness, make_skeleton
from tautlay.solver import Contact, Structure, relax

from ._comparison import Band, Comparison

MAN = Person(1.76, 80.5, Sex.MALE, 0.1, Posture(pillow=0.0))
WINKLER = 80e3  # Pa/m
CELL = 0.03  # m
OTHERS = (  # who and what else: the slightest and the heaviest of the men, a bed half and twice as stiff (judgement)
    {"man": Person(1.86, 63.0, Sex.MALE, 0.1, Posture(pillow=0.0))},
    {"man": Person(1.83, 100.0, Sex.MALE, 0.1, Posture(pillow=0.0))},
    {"bed_stiffness": WINKLER / 2},
    {"bed_stiffness": WINKLER * 2},
)
CENTRE = (0.588, 0.018)
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
REASONS = {place: why for place, (_, why) in FARTHER.items()} | {0.90: FARTHER[0.95][1]}


def lay_flat(man=MAN, bed_stiffness=WINKLER):
    """Return the weight on each triangle of the bed, N, and how far along the body it lies, from heel to occiput."""
    frame = make_frame(man)
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
    contact = Contact(
        triangles, first + frame.capsules, frame.radii, 1 / (1 / find_stiffness(frame) + 1 / bed_stiffness)
    )
    elements = [contact, *make_skeleton(frame, first).values()]
    state = relax(Structure(places, elements, fixed=fixed, forces=forces), tolerance=1e-5)
    assert state.converged
    body = state.positions[first:]
    heel = np.mean([body[frame.index(f"{side} ankle"), 0] for side in ("left", "right")]) + 0.024
    along = (heel - bed[triangles].mean(axis=1)[:, 0]) / (heel - body[frame.index("head"), 0])
    return -state[contact].push[:, 2], along


def compare():
    """Yield the share of the load below each row, and the centre of the load."""
    beds = [lay_flat(), *(lay_flat(**other) for other in OTHERS)]
    told = {
        "experiment": "13 men on their backs on a mattress with a mat of sensors",
        "unit": "1",
        "inputs": "a man of 1.76 m and 80.5 kg, the mean, on springs of 80 kPa/m. Not stated and varied: mattress (40 to 160 "
        "kPa/m); besides the slightest and the heaviest of the men. Scatter: one standard deviation of the men.",
        "source": '"A pressure map dataset for in-bed posture classification", IEEE BHI 2017, doi '
        '10.1109/BHI.2017.7897206, data PhysioNet "pmd" 1.0.0, worked out as the test says.',
        "sureness": "seen, shares worked out",
    }
    for place, (share, scatter) in SHARES.items():
        found = [float(load[along < place].sum() / load.sum()) for load, along in beds]
        row = Comparison(
            quantity=f"share of the load below {place:.2f} of heel to occiput",
            measured=Band.around(share, scatter),
            computed=Band(min(found), found[0], max(found)),
            **told,
        )
        yield row if row.agrees else replace(row, reason=f"{REASONS[place]}.")
    found = [float((load * along).sum() / load.sum()) for load, along in beds]
    yield Comparison(
        quantity="centre of the load, from heel to occiput",
        measured=Band.around(*CENTRE),
        computed=Band(min(found), found[0], max(found)),
        **told,
    )
