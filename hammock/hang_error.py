"""Trees, straps and lines that do not fit."""

from ..materials import Sentence, make_sentence
from .hammock import Hammock

LINES = ("suspension.head.line_length", "suspension.foot.line_length")
HEIGHTS = (
    "suspension.head.strap_height",
    "suspension.foot.strap_height",
    "suspension.hang_angle",
    *LINES,
)
DISTANCE = ("suspension.tree_distance", *LINES)


class HangError(ValueError):
    """Trees and lines that do not fit; ``sentence`` says why, ``keys`` names the fields in question."""

    def __init__(self, sentence: Sentence, keys: tuple[str, ...]) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.keys = keys


def refuse_heights(hammock: Hammock) -> HangError:
    """Return what is wrong with the heights of the straps."""
    s = hammock.suspension
    sentence = make_sentence(
        "The straps are {s.head.strap_height:length} (head) and {s.foot.strap_height:length} (foot) above the ground. "
        "That difference is too large for this line length and hang angle: one line would not lead upward. "
        "Bring the straps closer to one height or lengthen the lines.",
        s=s,
    )
    return HangError(sentence, HEIGHTS)


def refuse_distance(hammock: Hammock, distance: float, ropes: tuple[float, float], farthest: float) -> HangError:
    """Return why trees at ``distance`` m do not fit ``ropes`` from tree to bar that reach ``farthest``, m."""
    if distance >= farthest:
        sentence = make_sentence(
            "The trees are {distance:length} apart but lines, legs and body together reach only {reach:length}. "
            "Lengthen the lines or choose closer trees.",
            distance=distance,
            reach=farthest,
        )
    else:
        sentence = make_sentence(
            "The trees are {distance:length} apart, too close for lines with legs of {ropes[0]:length} and "
            "{ropes[1]:length} and a body of {body:length}. Shorten the lines or choose trees farther apart.",
            distance=distance,
            ropes=ropes,
            body=hammock.body.length,
        )
    return HangError(sentence, DISTANCE)
