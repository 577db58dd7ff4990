"""How far the loaded hammock hangs above the ground, and whether that is enough.

The person is a weight without a body, so that only cloth, cords and bars count; an elbow may hang lower.
"""

from dataclasses import dataclass

from ...materials import Sentence, make_sentence

# Engineering judgement, no source. The person is computed lying still. Sitting down can double the load, which alone
# lowers larch_ridge.toml by 3 cm, and puts all of it in one place, which sags deeper than a body lying down; straps
# slip, knots settle, trees lean, new cords bed in, none of which is computed. Creep is, by `tautlay morning`: a night
# lowers it by 1 to 2 cm.
MARGIN = 0.30  # m


@dataclass(frozen=True)
class Clearance:
    """Height of the lowest point of the loaded shape.

    Parameters
    ----------
    height : float
        Above the ground, m; negative below it.
    least : float
        What is asked, m.

    Examples
    --------
    >>> Clearance(0.42).passed, Clearance(0.42).sentence
    (True, None)
    >>> Clearance(-0.05).verdict
    'BELOW GROUND'
    """

    height: float
    least: float = MARGIN

    @property
    def passed(self) -> bool:
        """Whether the height is at least what is asked."""
        return self.height >= self.least

    @property
    def verdict(self) -> str:
        """Two words for a table; empty if nothing is wrong."""
        if self.passed:
            return ""
        return "BELOW GROUND" if self.height < 0.0 else "TOO LOW"

    @property
    def sentence(self) -> Sentence | None:
        """What is wrong and what to do; None if nothing is."""
        if self.passed:
            return None
        if self.height < 0.0:
            return make_sentence(
                "BELOW GROUND: the lowest point is {depth:length} under the ground, which is not computed. Raise the "
                "straps or shorten the lines.",
                depth=-self.height,
            )
        return make_sentence(
            "TOO LOW: the lowest point is {height:length} above the ground, less than {margin:length}. Raise the "
            "straps or shorten the lines.",
            height=self.height,
            margin=self.least,
        )
