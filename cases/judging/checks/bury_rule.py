"""Splices whose bury is too short: they slip whatever they carry, so that nothing needs to be solved to tell."""

from collections.abc import Iterator

from ....hammock import Hammock
from ....making import END_TITLES, Workmanship, measure_bury, name_fibre
from ....materials import Cord, Sentence, Webbing, make_sentence


def has_ends(hammock: Hammock, end: str, key: str) -> bool:
    """Return whether there are ends of a kind at head or foot, and bear: a strap, or slings that are not idle.

    Parameters
    ----------
    hammock : Hammock
        What is hung.
    end : str
        ``"head"`` or ``"foot"``.
    key : str
        Field of ``Rigging``.
    """
    wrap = hammock.suspension.pick(end).wrap
    if key.startswith("sling"):
        return wrap is not None and wrap.sling > 0.0
    return key != "strap" or wrap is not None


def find_material(hammock: Hammock, end: str, key: str) -> Cord | Webbing:
    """Return what the ends of a kind are made in; parameters as for :func:`has_ends`."""
    hung = hammock.suspension.pick(end)
    if key == "side_cord":
        return hammock.channel.cord
    if hung.strap is not None and key == "strap":
        return hung.strap.webbing
    if hung.strap is not None and hung.strap.slings is not None and key.startswith("sling"):
        return hung.strap.slings.cord
    return hung.leg if key.startswith("leg") else hung.line


def note_buries(hammock: Hammock, work: Workmanship) -> Iterator[Sentence]:
    """Yield a sentence for every kind of ends whose splices are too short, once where head and foot are alike.

    Parameters
    ----------
    hammock : Hammock
        With its cords.
    work : Workmanship
        How their ends are made.
    """
    seen = set()
    for key, title in END_TITLES.items():
        for end in ("head", "foot"):
            ending = getattr(work.pick_rigging(end), key)
            if ending is None or ending.bury is None or not has_ends(hammock, end, key):
                continue
            cord = find_material(hammock, end, key)
            if not isinstance(cord, Cord) or name_fibre(cord) != "UHMWPE" or (key, cord, ending) in seen:
                continue
            seen.add((key, cord, ending))
            needed, made, rule = measure_bury(ending, cord)
            if made.value < needed:
                yield make_sentence(
                    "{title}: the splices slip. Bury {needed:length} or more, not {made:length} (bury, "
                    "{meaning}); a thicker cord needs more still.",
                    title=title.capitalize(),
                    needed=needed,
                    made=made.value,
                    meaning=rule.meaning,
                )
