"""Seams between the panels of a body that is wider than its cloth."""

from collections.abc import Iterator

import numpy as np

from ....cutting import BODY, Draft, Join, draft_pieces
from ....hammock.arrays import FloatArray
from ..cloth.gauge_square import GAUGE
from ..cloth.hot_spot import average_line_stress, find_strength
from ..cloth.place import describe_place
from .case import Case
from .check import TOO_COARSE, Check, Unchecked
from .flat_seam import LAMINATE, check_flat_seam

PART = "seams of the body"


def check_panels(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the checks of stitches and cloth of every seam between panels, under the pull of the weft over 25 mm.

    The seam is taken where the pattern puts it without a result; both layers of a seam are sewn like the channel, in
    two rows.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check
        N per metre of seam.
    Unchecked
        Where the design or the mesh do not tell enough; nothing for a body in one piece.
    """
    draft = draft_pieces(case)
    if not draft.panel_seams:
        return
    if case.cloth_utilisation is None:
        yield Unchecked(PART, TOO_COARSE)
    elif case.workmanship.fold is None:
        yield Unchecked(PART, "the design does not state how they are sewn. Add [channel.fold].")
    elif "laminate" in case.hammock.body.fabric.kind:
        yield Unchecked(PART, LAMINATE)
    else:
        middle, line_stress = average_line_stress(case.model, case.state)
        for seam in draft.panel_seams:
            yield from _check_seam(case, draft, seam, (middle, line_stress[:, 1]))


def _check_seam(
    case: Case, draft: Draft, seam: Join, gauges: tuple[FloatArray, FloatArray]
) -> Iterator[Check | Unchecked]:
    """Yield the checks of one seam."""
    middle, pull = gauges
    near = np.flatnonzero(_measure_distances(draft, seam, middle) < GAUGE / 2)
    if len(near) == 0:
        yield Unchecked(f"{BODY} {seam.name}", "no gauge square lies on it. Solve with a finer mesh.")
        return
    worst = near[np.argmax(pull[near])]
    cloth = find_strength(case.model, "weft", case.workmanship.reductions)
    place = describe_place(case.model, middle[worst])
    yield from check_flat_seam(case, seam, (f"{BODY} {seam.name}", "seam"), float(pull[worst]), cloth, place)


def _measure_distances(draft: Draft, seam: Join, points: FloatArray) -> FloatArray:
    """Return how far points (n, 2) of the flat cloth lie from a seam (n,), m."""
    start, end = next(e.points for p in draft.list_panels(BODY) for e in p.edges if e.name == seam.first.edge)
    way = end - start
    share = np.clip((points - start) @ way / (way @ way), 0.0, 1.0)
    return np.asarray(np.hypot(*(start + share[:, None] * way - points).T))
