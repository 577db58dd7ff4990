"""The thrust path through a bar, in words."""

from collections.abc import Iterator

from ..materials import Sentence, make_sentence
from .bar import BarBuild, BarPart, ThrustPath

_SEATS = {
    ThrustPath.PLUG: "against a plug",
    ThrustPath.RIM: "against the rim",
    ThrustPath.LOCK: "through a pole lock or a tight fit",
    None: "rests_on not given",
}


def describe_path(bar: BarBuild) -> Sentence:
    r"""Return the thrust path from the left cord to the right one.

    Parameters
    ----------
    bar : BarBuild
        Without errors.

    Returns
    -------
    Sentence
        Its parts with their lengths, and what the thrust goes through between them.

    Examples
    --------
    >>> from tautlay.materials import RodSection, Tube
    >>> pole = Tube("18 x 1 mm", "aluminium", 0.018, 0.001, 71.7e9, 2800.0, 455e6)
    >>> rod = RodSection("birch 15.5 mm", "yellow birch", 0.0155, 13.86e9, 694.0, 39.4e6)
    >>> bar = BarBuild((BarPart(pole, 0.84), BarPart(rod, 0.12, 0.06, rests_on=ThrustPath.RIM)))
    >>> print(str(describe_path(bar)).replace(" - 6", " -\n6").replace(". No", ".\nNo"))
    cord - tube (18 x 1 mm, 84.0 cm) -
    6.00 cm inside, against the rim - rod (birch 15.5 mm, 12.0 cm) - cord.
    No pole lock carries the thrust.
    """
    path = make_sentence("cord - {part}", part=_describe_part(bar.parts[0]))
    for place, joint in enumerate(bar.joints, 1):
        part = bar.parts[place]
        link = make_sentence("end to end")
        if part.overlap:
            over = "inside" if joint.inner == place else "over it"
            link = make_sentence(
                "{overlap:length} {over}, {seat}", overlap=part.overlap, over=over, seat=_SEATS[part.rests_on]
            )
        path = make_sentence("{path} - {link} - {part}", path=path, link=link, part=_describe_part(part))
    locks = [place for place, part in enumerate(bar.parts, 1) if part.rests_on is ThrustPath.LOCK]
    stated = all(part.rests_on is not None or not part.overlap for part in bar.parts[1:])
    end = "No pole lock carries the thrust." if stated else "A pole lock may carry the thrust: rests_on is missing."
    if locks:
        end = f"The thrust goes through the pole lock of part {' and of part '.join(map(str, locks))}."
    return make_sentence("{path} - cord. {end}", path=path, end=end)


def _describe_part(part: BarPart) -> Sentence:
    """Return a part in words."""
    return make_sentence("{noun} ({name}, {length:length})", noun=part.noun, name=part.section.name, length=part.length)


def list_untold(bar: BarBuild) -> Iterator[Sentence]:
    """Yield what the design does not state about the joints of a bar, and what to add.

    Parameters
    ----------
    bar : BarBuild
        Without errors.

    Yields
    ------
    Sentence
        One for each joint about which too little is known.
    """
    for place, part in enumerate(bar.parts[1:], 2):
        if part.overlap and part.rests_on is None:
            yield make_sentence(
                "thrust path where part {number} joins part {before} is missing. Add "
                'rests_on = "plug", "rim" or "lock".',
                number=place,
                before=place - 1,
            )
        elif part.rests_on in (ThrustPath.LOCK, ThrustPath.PLUG) and part.holding_force is None:
            yield make_sentence(
                "holding force of the {seat} of part {number} is missing. Test it with weights and add holding_force. "
                "A German certification mark for poles requires {certified:force}; other poles hold {low:force} to "
                "{high:force} [unverified].",
                seat=part.rests_on,
                number=place,
                certified=1400.0,
                low=550.0,
                high=1000.0,
            )
