"""Bars that cannot be assembled."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from ..materials import RodSection, Sentence, make_sentence
from ..materials.short_repr import write_repr
from .bar import BarBuild, BarJoint, BarPart, find_outer

_TOLERANCE = 1e-6  # m: a micrometre is not an error
_MISMATCH = 1e-3  # m between the sum of the parts and the stated length: accuracy of a tape measure
_LIGHTEST = 0.5  # of its computed mass; engineering judgement, no source: wood varies by a third, walls less


class BarIssue(NamedTuple):
    """What is wrong with a bar.

    Parameters
    ----------
    sentence : Sentence
        What is wrong and what to do.
    part : int or None
        Which part, counted from 0; None is the bar as a whole.
    key : str
        Which of its values.
    """

    sentence: Sentence
    part: int | None
    key: str

    def __repr__(self) -> str:
        return write_repr(self, self.key, self.sentence)


def find_bar_issues(bar: BarBuild, length: float) -> list[BarIssue]:
    """Return everything that keeps a bar from being assembled.

    Parameters
    ----------
    bar : BarBuild
        Parts from left to right.
    length : float
        That it should have from cord to cord, m.

    Returns
    -------
    list of BarIssue
        All at once; empty for a good bar.

    Examples
    --------
    >>> from tautlay.materials import Tube
    >>> pole = Tube("demo pole", "aluminium", 0.018, 0.001, 71.7e9, 2800.0, 455e6)
    >>> print(find_bar_issues(BarBuild((BarPart(pole, 0.84),)), 0.9)[0].sentence)
    The parts together are 84.00 cm long, but the bar is 90.00 cm from cord to cord. Change a length or an overlap.
    """
    if not bar.parts:
        return [BarIssue(make_sentence("A bar needs at least one part."), None, "part")]
    shapes = [*_check_tapers(bar), *_check_lengths(bar)]
    if shapes:
        return shapes
    found = list(_check_weights(bar))
    found += [fault for place, joint in enumerate(bar.joints, 1) for fault in _check_joint(bar, place, joint)]
    if abs(bar.length - length) > _MISMATCH:
        sentence = make_sentence(
            "The parts together are {found:length.4} long, but the bar is {wanted:length.4} from cord to cord. "
            "Change a length or an overlap.",
            found=bar.length,
            wanted=length,
        )
        found.append(BarIssue(sentence, None, "length"))
    return found


def _check_tapers(bar: BarBuild) -> Iterator[BarIssue]:
    """Yield parts that taper to nothing."""
    for place, part in enumerate(bar.parts):
        least = 0.0 if isinstance(part.section, RodSection) else 2 * part.section.wall
        if part.taper_to is not None and part.taper_to <= least:
            sentence = make_sentence(
                "Part {number} cannot taper to {to:length}: twice its wall is already {least:length}.",
                number=place + 1,
                to=part.taper_to,
                least=least,
            )
            yield BarIssue(sentence, place, "taper_to")


def _check_lengths(bar: BarBuild) -> Iterator[BarIssue]:
    """Yield overlaps for which a part is too short."""
    overlaps = [part.overlap for part in bar.parts] + [0.0]
    for place, part in enumerate(bar.parts):
        taken = overlaps[place] + overlaps[place + 1]
        if taken > part.length + _TOLERANCE or part.overlap >= part.length:
            sentence = make_sentence(
                "Part {number} is {length:length.4} long, but {taken:length.4} of it overlaps its neighbours. "
                "Lengthen it or shorten the overlaps.",
                number=place + 1,
                length=part.length,
                taken=taken,
            )
            yield BarIssue(sentence, place, "length")


def _check_weights(bar: BarBuild) -> Iterator[BarIssue]:
    """Yield parts that cannot be as light as stated: grips, locks and tips only add."""
    for place, part in enumerate(bar.parts):
        computed = replace(part, weighed=None).mass
        if part.weighed is not None and part.weighed < _LIGHTEST * computed:
            sentence = make_sentence(
                "Part {number} has weighed = {weighed:mass}, but its section and length give "
                "{computed:mass}. Weigh it again, or change section or length.",
                number=place + 1,
                weighed=part.weighed,
                computed=computed,
            )
            yield BarIssue(sentence, place, "weighed")


def _check_joint(bar: BarBuild, place: int, joint: BarJoint) -> Iterator[BarIssue]:
    """Yield what is wrong where a part joins the one before it."""
    part = bar.parts[place]
    if part.overlap == 0.0:
        yield from _check_butt(part, place)
        return
    if joint.clearance < -_TOLERANCE:
        yield _refuse_fit(bar, place, joint)
    elif part.play is not None and part.play > joint.clearance + _TOLERANCE:
        sentence = make_sentence(
            "Part {number} cannot have a play of {play:length}: the diameters give {clearance:length}.",
            number=place + 1,
            play=part.play,
            clearance=joint.clearance,
        )
        yield BarIssue(sentence, place, "play")


def _check_butt(part: BarPart, place: int) -> Iterator[BarIssue]:
    """Yield what is wrong with two parts that meet end to end."""
    if part.joint_stiffness is None:
        sentence = make_sentence(
            "Part {number} meets part {before} end to end: the joint is a hinge, and the bar folds. Add an overlap, or "
            "the joint_stiffness of the connector.",
            number=place + 1,
            before=place,
        )
        yield BarIssue(sentence, place, "overlap")
    for key in ("play", "rests_on", "holding_force"):
        if getattr(part, key) is not None:
            sentence = make_sentence(
                "Part {number} has no overlap, so {key} has no meaning. Remove it.", number=place + 1, key=key
            )
            yield BarIssue(sentence, place, key)


def _refuse_fit(bar: BarBuild, place: int, joint: BarJoint) -> BarIssue:
    """Return why two parts do not go together."""
    inner, outer = bar.parts[joint.inner], bar.parts[joint.outer]
    if isinstance(outer.section, RodSection):
        sentence = make_sentence(
            "Part {inner} cannot go into part {outer}, which is solid. Put one of them into a tube.",
            inner=joint.inner + 1,
            outer=joint.outer + 1,
        )
        return BarIssue(sentence, place, "overlap")
    thick = max(find_outer(inner.section), inner.taper_to or 0.0)
    sentence = make_sentence(
        "Part {inner}, up to {thick:length.4} thick, does not fit into part {outer}: it is {excess:length} thicker "
        "than the bore. Change one of the diameters.",
        inner=joint.inner + 1,
        thick=thick,
        outer=joint.outer + 1,
        excess=-joint.clearance,
    )
    return BarIssue(sentence, place, "overlap")
