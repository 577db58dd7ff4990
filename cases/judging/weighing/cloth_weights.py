"""The weight of the cloth: body, hems, channels and their strips."""

from collections.abc import Iterator

from ....hammock.hammock import Hammock
from ....hammock.outline import draw_outline
from ....making import Amount, CapacityStep, WeightGroup, cut_fold, measure_hem
from ....materials import Fabric, make_sentence
from .build import Build, take_finished
from .weight import Unweighed, Weight, weigh_amount


def measure_channels(hammock: Hammock) -> float:
    """Return the length of both channels along the cut edges, m."""
    outline = draw_outline(hammock.body)
    return outline.left.length + outline.right.length


def measure_hems(hammock: Hammock) -> float:
    """Return the length of the hems, m: across both ends, and along both sides of what lies beyond a bar."""
    return sum(end.width + 2 * end.bar.set_in for end in hammock.ends)


def weigh_cloth(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield body and extensions as finished, then hem allowances and channels.

    Parameters
    ----------
    build : Build
        What is weighed.

    Yields
    ------
    Weight or Unweighed
        Hems always, with a usual allowance where none is given; channels only where they are described.
    """
    body, work = build.hammock.body, build.workmanship
    for part in build.parts:
        if isinstance(part.material, Fabric):
            yield weigh_amount(part.name, part.material, take_finished(part, "area"), part.group)
    used = measure_hem(work.hem, measure_hems(build.hammock), body.layers)
    yield weigh_amount("hems at both ends", body.fabric, used, WeightGroup.HAMMOCK)
    if work.fold is None:
        yield Unweighed("channels", "their cloth and thread are missing. Add [channel.fold].")
    else:
        yield from _weigh_channels(build)


def _weigh_channels(build: Build) -> Iterator[Weight]:
    """Yield what of the body is folded into the channels, and the strips."""
    body, fold, length = build.hammock.body, build.workmanship.fold, measure_channels(build.hammock)
    assert fold is not None
    wide = cut_fold(fold, body.layers, build.hammock.channel.cord.diameter).body_allowance
    text = make_sentence("{wide:length} beyond {length:length} of finished edges", wide=wide, length=length)
    used = Amount(wide * length * body.layers, "area", (CapacityStep(text, "the fold of the design", "stated"),))
    yield weigh_amount("body in the channels", body.fabric, used, WeightGroup.HAMMOCK)
    if (strip := fold.strip) is not None:
        text = make_sentence("{wide:length} wide along {length:length} of edges", wide=strip.width, length=length)
        used = Amount(strip.width * length, "area", (CapacityStep(text, "the fold of the design", "stated"),))
        yield weigh_amount("channel strips", strip.fabric, used, WeightGroup.HAMMOCK)
