"""Cautions that go with every result."""

from typing import NamedTuple


class Caution(NamedTuple):
    """One caution and its source."""

    text: str
    source: str


# The README quotes this list word for word; a test compares them.
CAUTIONS = (
    Caution(
        "Computed, not proven: load the hammock with weights before anyone lies in it.",
        "common practice, no source",
    ),
    Caution(
        "Local codes and the advice of licensed professionals come before anything printed here.",
        "common practice, no source",
    ),
    Caution(
        "No conformity is claimed: no product standard for adult hammocks was found.",
        "search of public catalogues of standards, November 2026",
    ),
    Caution(
        "Hang it low over clear, soft ground: a fall of more than 600 mm (24 in) needs ground that gives.",
        "EN 1176-1, unverified",
    ),
    Caution(
        "Do not drop into it: a weight let go while just touching the cloth pulls twice as hard as one at rest, one "
        "dropped from higher harder still.",
        "energy of a falling weight on a spring, textbook statics, unverified",
    ),
    Caution(
        "Do not stand or swing in it, and hang no second hammock above or below it.",
        "common practice, no source",
    ),
    Caution(
        "A bar that breaks or slips out can strike the person's head: try the bars under weights first.",
        "common practice, no source",
    ),
    Caution(
        "Inspect cloth, seams, cords, bars and straps before each use; retire what is cut, worn, burnt, melted or "
        "unstitched.",
        "US OSHA 29 CFR 1926.251(e)",
    ),
    Caution(
        "Sun and age weaken cloth and cord unseen: retire what is bleached, stiff or of unknown age.",
        "sun: Web Sling and Tie Down Association WSTDA-WS-1, 2004, 5.3.5, secondary source; age: common practice, no "
        "source",
    ),
    Caution(
        "Use living trees, thicker than 305 mm (12 in) at the strap, with wide straps, and keep to local rules.",
        "Three Rivers Park District; Hutchinson MN; City of Madison",
    ),
    Caution(
        "Keep children away: not for unattended children, and not for any under 6, since cords can strangle.",
        "US CPSC release 96-125, 1996; Health Canada, 26 Aug 2010, secondary source",
    ),
)


DROPPING = 4  # place of the one that a sudden load computes
VITAL = (0, DROPPING)  # places of those that the first screen prints in full: weights first, no dropping in


def list_cautions() -> list[str]:
    """Return each caution with its source, as it is printed.

    Returns
    -------
    list of str
        One paragraph each.

    Examples
    --------
    >>> list_cautions()[5]
    'Do not stand or swing in it, and hang no second hammock above or below it. [common practice, no source]'
    """
    return [f"{caution.text} [{caution.source}]" for caution in CAUTIONS]
