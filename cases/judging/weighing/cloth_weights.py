"""The weight of the cloth: body, hems, channels and their strips."""

from collections.abc import Iterator

from ....cutting import BODY, PieceEdge, Treatment
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
    """Yield body and extensions as finished, then what is cut beyond: hems, seams, channels and strips.

    Parameters
    ----------
    build : Build
        What is weighed; everything beyond finished edges is that of its pieces, corners and bent edges as they are cut.

    Yields
    ------
    Weight or Unweighed
        Hems always, with a usual allowance where none is given; channels only where they are described.
    """
    body, work = build.hammock.body, build.workmanship
    for part in build.parts:
        if isinstance(part.material, Fabric):
            yield weigh_amount(part.name, part.material, take_finished(part, "area"), part.group)
    yield weigh_amount("hems at both ends", body.fabric, _measure_hems(build), WeightGroup.HAMMOCK)
    if (seams := _measure_seams(build)) is not None:
        yield weigh_amount("seam allowances", body.fabric, seams, WeightGroup.HAMMOCK)
    if work.fold is None:
        yield Unweighed("channels", "their cloth and thread are missing. Add [channel.fold].")
    else:
        yield from _weigh_channels(build)


def _measure_hems(build: Build) -> Amount:
    """Return the hems of all ends: of the pieces as cut, of extensions, which are not drafted, as straight bands."""
    body, work = build.hammock.body, build.workmanship
    used = measure_hem(work.hem, measure_hems(build.hammock), body.layers)
    straight = measure_hem(work.hem, sum(edge.length for edge in _list_edges(build, Treatment.HEM)), body.layers)
    return _cut_to_pieces(used, build, Treatment.HEM, straight.value)


def _measure_seams(build: Build) -> Amount | None:
    """Return what is sewn together beyond finished edges; None where nothing is."""
    edges, layers = _list_edges(build, Treatment.SEAM), build.hammock.body.layers
    if not edges:
        return None
    length = sum(edge.length for edge in edges)
    straight = sum(edge.length * edge.allowance for edge in edges) * layers
    text = make_sentence("beyond {length:length} of edges that are sewn together", length=length)
    used = Amount(straight, "area", (CapacityStep(text, "cutting rules of the design", "stated"),))
    return _cut_to_pieces(used, build, Treatment.SEAM, straight)


def _list_edges(build: Build, treatment: Treatment) -> list[PieceEdge]:
    """Return the edges of the body that are treated like that."""
    return [edge for piece in build.draft.list_panels(BODY) for edge in piece.edges if edge.treatment is treatment]


def _cut_to_pieces(used: Amount, build: Build, treatment: Treatment, straight: float) -> Amount:
    """Return an amount with what the pieces as cut hold more, or less, than straight bands, m2."""
    cut = sum(piece.number * piece.measure_allowances(treatment) for piece in build.draft.list_panels(BODY))
    text = make_sentence("{more:area} for corners, bends and hot cutting, as cut", more=cut - straight)
    return used.add(cut - straight, CapacityStep(text, "the cutting pattern", "derived"))


def _weigh_channels(build: Build) -> Iterator[Weight]:
    """Yield what of the body is folded into the channels, and the strips."""
    body, fold, length = build.hammock.body, build.workmanship.fold, measure_channels(build.hammock)
    assert fold is not None
    wide = cut_fold(fold, body.layers, build.hammock.channel.cord.diameter).body_allowance
    text = make_sentence("{wide:length} beyond {length:length} of finished edges", wide=wide, length=length)
    straight = wide * length * body.layers
    used = Amount(straight, "area", (CapacityStep(text, "the fold of the design", "stated"),))
    used = _cut_to_pieces(used, build, Treatment.CHANNEL, straight)
    yield weigh_amount("body in the channels", body.fabric, used, WeightGroup.HAMMOCK)
    if (strip := fold.strip) is not None:
        pieces = [piece for piece in build.draft.pieces if piece.part != BODY]
        text = make_sentence(
            "{wide:length} wide along {length:length}, ends turned in with the hems", wide=strip.width,
            length=sum(piece.number * piece.size[0] for piece in pieces),
        )  # fmt: skip
        area = sum(piece.number * piece.cut_area for piece in pieces)
        used = Amount(area, "area", (CapacityStep(text, "the cutting pattern", "derived"),))
        yield weigh_amount("channel strips", strip.fabric, used, WeightGroup.HAMMOCK)
