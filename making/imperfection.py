"""Assumed imperfections of a bar."""

from collections.abc import Iterator
from typing import NamedTuple

from ..materials import make_sentence
from ..materials.short_repr import write_repr, write_value
from .bar import BarBuild, find_outer
from .capacity import CapacityStep
from .material_class import Substance, find_substance

STRAIGHT: dict[Substance, float] = {"metal": 500.0, "laminate": 500.0, "wood": 300.0}  # length over bow
_OFF_CENTRE = 0.1  # eccentricity over diameter at the tip


class Imperfections(NamedTuple):
    """Bow and eccentricity of a bar, m, and how they and the play of its joints are derived."""

    bow: float
    eccentricity: float
    steps: tuple[CapacityStep, ...]

    def __repr__(self) -> str:
        return write_repr(
            self, f"bow {write_value(self.bow, 'length')}", f"eccentricity {write_value(self.eccentricity, 'length')}"
        )


def find_imperfections(bar: BarBuild) -> Imperfections:
    """Return the assumed imperfections of a bar.

    Parameters
    ----------
    bar : BarBuild
        What it does not give is a share of its length or diameter.
    """
    bow, bow_step = _find_bow(bar)
    eccentricity, off_step = _find_eccentricity(bar)
    return Imperfections(bow, eccentricity, (bow_step, off_step, *_list_play(bar)))


def _find_bow(bar: BarBuild) -> tuple[float, CapacityStep]:
    """Return the bow of a bar and its derivation."""
    if bar.bow is not None:
        return bar.bow, CapacityStep(
            make_sentence("bow of {bow:length} in the middle", bow=bar.bow), "the design", "stated"
        )
    share = min(STRAIGHT[find_substance(part.section)] for part in bar.parts)
    text = make_sentence("bow of {bow:length} in the middle, length / {share:.0f}", bow=bar.length / share, share=share)
    if share == STRAIGHT["wood"]:
        return bar.length / share, CapacityStep(text, "engineering judgement for dowels", "judgement")
    return bar.length / share, CapacityStep(text, "straightness of tubes, EN 1090, unverified", "memory")


def _find_eccentricity(bar: BarBuild) -> tuple[float, CapacityStep]:
    """Return how far beside the axis the thrust enters, and its derivation."""
    words = "thrust {off:length} beside the axis at both tips"
    if bar.eccentricity is not None:
        return bar.eccentricity, CapacityStep(make_sentence(words, off=bar.eccentricity), "the design", "stated")
    thin = min(find_outer(bar.parts[0].cut(0.0)), find_outer(bar.parts[-1].cut(1.0)))
    off = _OFF_CENTRE * thin
    return off, CapacityStep(
        make_sentence(words, off=off), "a tenth of the diameter of the thinner end; engineering judgement", "judgement"
    )


def _list_play(bar: BarBuild) -> Iterator[CapacityStep]:
    """Yield how far the parts of a bar can lean in each other."""
    for number, joint in enumerate(bar.joints, 2):
        if joint.play > 0.0:
            text = make_sentence(
                "play of {play:length.2} over {overlap:length} lets part {number} lean",
                play=joint.play,
                overlap=joint.end - joint.start,
                number=number,
            )
            given = bar.parts[number - 1].play is not None
            yield (
                CapacityStep(text, "the design", "stated")
                if given
                else CapacityStep(text, "difference of the diameters", "derived")
            )
