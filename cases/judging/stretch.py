"""Stretch of cords and lines under load, and which of them creep."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from ...hammock.hammock import Hammock
from ...hammock.part import title_part
from ...making import END_TITLES, CordTermination, TerminationType, Workmanship
from ...making.cord_termination import LEAST_BURY, UNCOATED_BURY
from ...making.retained_strength import name_fibre
from ...materials import Cord, Material, Sentence, make_sentence
from ...meshing import HammockModel
from ...solver import State
from ..record import Metres, Record

# Bedding-in of the braid when it is loaded for the first time, over length; from memory: 0.5 to 2 %; looked for in rope
# makers' and riggers' pages on stretch and creep: that it happens, no share of the length.
FIRST_STRETCH = (0.005, 0.02)
# Share of the breaking load beyond which UHMWPE creeps noticeably under a lasting load: fibre literature, unverified.
CREEP_SHARE = 0.15


@dataclass(frozen=True, repr=False)
class CordStretch(Record):
    r"""How much longer one cord or line is under load than it was cut.

    Parameters
    ----------
    length : float
        As cut, :math:`\sum l`, m.
    elastic : float
        Elastic stretch, :math:`\sum T l / EA`, m.
    first_least, first_most : float or None
        By how much a new 12-strand UHMWPE braid settles besides, once: 0.5 to 2 % of its length, m, from memory; None
        of other cords, of which nothing is known.
    """

    length: Metres
    elastic: Metres
    first_least: Metres | None
    first_most: Metres | None

    @property
    def bedding_in(self) -> tuple[float, float] | None:
        """By how much a new cord settles at least and at most, m; None where that is not known."""
        if self.first_least is None or self.first_most is None:
            return None
        return self.first_least, self.first_most


def measure_stretch(model: HammockModel, state: State) -> Mapping[str, CordStretch]:
    """Return how much longer each cord and line is under load than it was cut.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.

    Returns
    -------
    mapping of str to CordStretch
        By part, such as ``left side cord``.
    """
    return {name: _stretch(model, state, name) for name, _, _ in list_cords(model, state)}


def list_cords(model: HammockModel, state: State) -> Iterator[tuple[str, Material, float]]:
    """Yield name, material and largest tension, N, of every cord and line."""
    for part in model.parts:
        if part.name.endswith(("side cord", "leg", "line")):
            most = max(float(np.max(state[model.elements[name]].tension)) for name in _name_elements(model, part.name))
            yield part.name, part.material, most


def _name_elements(model: HammockModel, part: str) -> list[str]:
    """Return the elements a cord consists of: a locked side cord has three, a leg along cloth two."""
    side = part.split()[0]
    beyond = part.removesuffix("leg") + "upper leg"
    names = (f"head {side} lock", part, f"foot {side} lock") if part.endswith("side cord") else (part, beyond)
    return [name for name in names if name in model.elements]


def _stretch(model: HammockModel, state: State, part: str) -> CordStretch:
    """Return length and stretch of one part."""
    length = stretch = 0.0
    for name in _name_elements(model, part):
        element: Any = model.elements[name]
        length += float(np.sum(element.rest_length))
        stretch += float(np.sum(state[element].tension * element.rest_length / element.ea))
    cord = next(each for each in model.parts if each.name == part)
    settles = isinstance(cord.material, Cord) and name_fibre(cord.material) == "UHMWPE"
    first = [share * cord.amount if settles else None for share in FIRST_STRETCH]
    return CordStretch(length, stretch, first[0], first[1])


def note_cords(model: HammockModel, state: State, workmanship: Workmanship, *, lasting: bool) -> list[Sentence]:
    """Return notes about cords that creep, and about splices that may be weaker than they look.

    Parameters
    ----------
    model : HammockModel
        Structure and named parts.
    state : State
        Its equilibrium.
    workmanship : Workmanship
        How the ends of the cords are made.
    lasting : bool
        Whether the load stays for hours; one that lasts a moment makes nothing creep.
    """
    return [*(_note_creep(model, state) if lasting else ()), *_note_splices(model, workmanship)]


def _note_creep(model: HammockModel, state: State) -> Iterator[Sentence]:
    """Yield one note for all UHMWPE cords whose tension is high enough for creep."""
    shares = {
        name: tension / material.breaking_load
        for name, material, tension in (*list_cords(model, state), *_list_slings(model, state))
        if isinstance(material, Cord) and name_fibre(material) == "UHMWPE"
    }
    creeping = {name: share for name, share in shares.items() if share > CREEP_SHARE}
    if creeping:
        yield make_sentence(
            "Creep (a cord grows longer for good): {names}, at up to {share:.0%} of the breaking load; UHMWPE creeps "
            "above {limit:.0%} (fibre literature, unverified). Measure again after some nights.",
            names=", ".join(map(title_part, creeping)),
            share=max(creeping.values()),
            limit=CREEP_SHARE,
        )


def _list_slings(model: HammockModel, state: State) -> Iterator[tuple[str, Material, float]]:
    """Yield name, material and tension, N, of the slings that bear; in the model they are part of their line."""
    for end in model.hammock.ends:
        strap, wrap = end.suspension.strap, end.suspension.wrap
        if strap is not None and strap.slings is not None and wrap is not None and wrap.sling:
            pull = float(np.max(state[model.elements[f"{end.name} line"]].tension))
            yield f"{end.name} slings", strap.slings.cord, pull * wrap.share


def _note_splices(model: HammockModel, workmanship: Workmanship) -> Iterator[Sentence]:
    """Yield a note for every splice that is not locked, or long enough for coated cord only."""
    for name, cord, ending in _list_endings(model.hammock, workmanship):
        if ending is None or ending.bury is None or not isinstance(cord, Cord) or name_fibre(cord) != "UHMWPE":
            continue
        diameters = ending.bury / cord.diameter
        if ending.coated is None and LEAST_BURY <= diameters < UNCOATED_BURY:
            yield make_sentence(
                "{name}: a bury of {bury:length} ({diameters:.0f} diameters) is enough for coated cord ({least:.0f}), "
                "not for uncoated ({most:.0f}). Add coated = true or false.",
                name=name.capitalize(),
                bury=ending.bury,
                diameters=diameters,
                least=LEAST_BURY,
                most=UNCOATED_BURY,
            )
        if ending.method is TerminationType.SPLICE and not ending.locked:
            yield make_sentence(
                "{name}: a splice that is neither locked nor stitched can creep out while it hangs slack. Lock it; "
                "that adds no strength but keeps the bury in place (engineering note).",
                name=name.capitalize(),
            )


def _list_endings(hammock: Hammock, workmanship: Workmanship) -> Iterator[tuple[str, Material, CordTermination | None]]:
    """Yield title, cord and making of every kind of end; head and foot as one where they are alike."""
    head, foot = (_take_endings(hammock, workmanship, end) for end in ("head", "foot"))
    for key, title in END_TITLES.items():
        if head.get(key) == foot.get(key) and key in head:
            yield title, *head[key]
            continue
        for end, found in (("head", head), ("foot", foot)):
            if key in found:
                yield f"{end} {title}", *found[key]


def _take_endings(
    hammock: Hammock, workmanship: Workmanship, end: str
) -> dict[str, tuple[Material, CordTermination | None]]:
    """Return cord and making of every end at head or foot, by field of ``Rigging``."""
    hung, rigging = hammock.suspension.pick(end), workmanship.pick_rigging(end)
    cords: dict[str, Material] = {
        "side_cord": hammock.channel.cord,
        "leg_at_corner": hung.leg,
        "leg_at_apex": hung.leg,
        "line_at_apex": hung.line,
        "line_at_tree": hung.line,
    }
    if hung.strap is not None and hung.strap.slings is not None:
        cords |= dict.fromkeys(("sling_at_strap", "sling_at_joint"), hung.strap.slings.cord)
    return {key: (cord, getattr(rigging, key)) for key, cord in cords.items()}
