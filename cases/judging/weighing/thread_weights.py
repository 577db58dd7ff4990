"""The weight of the thread in seams, hems and stitching through the cord."""

from collections.abc import Iterator
from dataclasses import replace

from ....cutting import Join
from ....hammock.hammock import Attachment
from ....making import Stitching, WeightGroup, measure_thread
from .build import Build
from .cloth_weights import measure_channels, measure_hems
from .weight import Unweighed, Weight, weigh_amount


def weigh_thread(build: Build) -> Iterator[Weight | Unweighed]:
    """Yield the thread of all seams.

    Parameters
    ----------
    build : Build
        What is weighed.

    Yields
    ------
    Weight or Unweighed
        Rows that are not described are not weighed.
    """
    work = build.workmanship
    if work.fold is not None:
        length = measure_channels(build.hammock)
        yield _weigh_rows("thread of the channels", work.fold.seam, length)
        if (strip := work.fold.strip) is not None and strip.rows is None:
            yield Unweighed("seams of the strips", "their rows are missing. Add strip_rows to [channel.fold].")
        elif strip is not None and strip.rows is not None:
            yield _weigh_rows("thread of the strips", replace(work.fold.seam, rows=strip.rows), length)
    for join in build.draft.panel_seams:
        yield from _weigh_seam(f"thread of {join.name}", (join,), build)
    if beyond := build.draft.seams_beyond:
        yield from _weigh_seam("thread of the extensions", beyond, build)
    if (length := _measure_locks(build)) > 0.0 and work.lock is None:
        yield Unweighed("stitching through the cord", "its thread is missing. Add [channel.lock].")
    elif work.lock is not None:
        yield _weigh_rows("thread through the cords", work.lock.stitching, length)
    if work.hem is None:
        yield Unweighed("seams of the hems", "their thread is missing. Add [body.hem].")
    else:
        yield _weigh_rows("thread of the hems", work.hem.seam, measure_hems(build))


def _weigh_seam(part: str, joins: tuple[Join, ...], build: Build) -> Iterator[Weight | Unweighed]:
    """Yield the thread of seams between pieces of cloth, which are sewn alike, in every layer."""
    if (stitching := joins[0].stitching) is None:
        yield Unweighed(part, "its thread is missing. Add [channel.fold].")
    else:
        length = sum(join.measure(build.draft.pieces)[0] for join in joins) * build.hammock.body.layers
        yield _weigh_rows(part, stitching, length)


def _measure_locks(build: Build) -> float:
    """Return the length over which cloth and cords are sewn together, m: of a sewn channel its whole edge."""
    channel = build.hammock.channel
    if channel.attachment is Attachment.SEWN:
        return measure_channels(build.hammock)
    return 4 * channel.lock_length if channel.attachment is Attachment.LOCKED else 0.0


def _weigh_rows(part: str, stitching: Stitching, length: float) -> Weight:
    """Return the thread of rows of one length."""
    return weigh_amount(part, stitching.thread, measure_thread(stitching, length), WeightGroup.HAMMOCK)
