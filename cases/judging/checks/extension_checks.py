"""The cloth beyond bars that are set in: the cloth itself, its seam to the body, its darts, its hold on the legs."""

from collections.abc import Iterator

import numpy as np

from ....cutting import draft_pieces
from ....cutting.extension_seams import DART
from ....hammock.arrays import FloatArray
from ....making import find_lock_force
from ....materials import Sentence, make_sentence
from ....meshing import ExtensionMesh
from ..cloth.extension_load import find_hold, find_seam_load
from ..cloth.hot_spot import THREADS, average_line_stress, find_strength
from .case import Case
from .check import TOO_COARSE, Check, Unchecked
from .flat_seam import LAMINATE, check_flat_seam


def check_extensions(case: Case) -> Iterator[Check | Unchecked]:
    """Yield the checks of the cloth beyond each bar that is set in; none of a design without.

    Cloth and seam bear the mean load over 25 mm. A dart bears at most what pulls its cloth hardest in any direction. At
    each far corner one stitch through the leg has to hold what the leg's tension changes by.

    Parameters
    ----------
    case : Case
        What was solved.

    Yields
    ------
    Check
        N per metre of cloth and seams, N of the stitch on the leg.
    Unchecked
        Where the design or the mesh do not tell enough.
    """
    for beyond in case.model.beyond:
        part = f"{beyond.end} extension"
        if case.cloth_utilisation is None:
            yield Unchecked(part, TOO_COARSE)
        else:
            yield from _check_sheet(case, beyond, part)
            yield from _check_seams(case, beyond, part)
        yield from _check_hold(case, beyond, part)


def _check_sheet(case: Case, beyond: ExtensionMesh, part: str) -> Iterator[Check]:
    """Yield the checks of warp and weft where each is pulled hardest."""
    middle, pulls = average_line_stress(case.model, case.state, beyond)
    for thread, pull in zip(THREADS, pulls.T, strict=True):
        worst = int(np.argmax(pull))
        bears = find_strength(case.model, thread, case.workmanship.reductions)
        place = _describe(beyond, middle[worst])
        yield Check(part, f"{thread} tears", float(pull[worst]), bears, case.workmanship.factors["cloth"], place)


def _describe(beyond: ExtensionMesh, flat: FloatArray) -> Sentence:
    """Return where a point (2,) of an extension lies: at the nearest node, along the cloth from the bar."""
    row, line = np.unravel_index(np.hypot(*(beyond.flat - flat).T).T.argmin(), beyond.numbers.shape)
    off = float(beyond.levels[line]) * beyond.width / 2
    return make_sentence(
        "{along:length} beyond the {end} bar, {off:length} {side} of centre",
        along=float(beyond.shares[row, line]) * beyond.find_side(int(line)),
        end=beyond.end,
        off=abs(off),
        side="left" if off > 0 else "right",
    )


def _check_seams(case: Case, beyond: ExtensionMesh, part: str) -> Iterator[Check | Unchecked]:
    """Yield the checks of the seam to the body, or of the darts."""
    load = find_seam_load(case.model, case.state, beyond)
    joins = draft_pieces(case).joins
    if load is None:
        seam, name = next(join for join in joins if join.seam == DART and join.name.startswith(beyond.end)), "dart"
        pull, place = _find_dart_load(case, beyond), make_sentence("beside a dart")
    else:
        seam, name = next(join for join in joins if join.name == part), "seam"
        worst = int(np.argmax(load.pull))
        off = float(load.middle[worst]) - (beyond.width / 2)
        pull = float(load.pull[worst])
        place = make_sentence("{off:length} {side} of centre", off=abs(off), side="left" if off > 0 else "right")
    if seam.stitching is None:
        yield Unchecked(f"{part}, {name}", "the design does not state how it is sewn. Add [channel.fold].")
    elif "laminate" in case.hammock.body.fabric.kind:
        yield Unchecked(f"{part}, {name}", LAMINATE)
    else:
        both = (find_strength(case.model, thread, case.workmanship.reductions) for thread in THREADS)
        yield from check_flat_seam(case, seam, (part, name), pull, min(both, key=lambda each: each.value), place)


def _find_dart_load(case: Case, beyond: ExtensionMesh) -> float:
    """Return the largest line stress of a triangle that touches a dart, N/m: no more can pull across it."""
    touching = np.isin(beyond.triangles, beyond.list_darts()).any(axis=1)
    return float(case.state[case.model.elements[f"{beyond.end} extension"]].nominal[touching, 0].max())


def _check_hold(case: Case, beyond: ExtensionMesh, part: str) -> Iterator[Check | Unchecked]:
    """Yield the check of one stitch that holds a far corner on its leg."""
    lock = case.workmanship.lock
    if lock is None:
        yield Unchecked(
            f"{part}, far corners", "the design does not state a stitching through a cord. Add [channel.lock]."
        )
        return
    holds = {side: find_hold(case.model, case.state, beyond.end, side) for side in ("left", "right")}
    side = max(holds, key=lambda each: holds[each])
    bears = find_lock_force(lock.stitching, lock.stitching.stitch_length, case.workmanship.reductions)
    place = make_sentence("one stitch, {side}", side=side)
    yield Check(part, "stitch on leg tears", holds[side], bears, case.workmanship.factors["seam"], place)
