"""The weight of the cloth: body, hems, channels and their strips."""

from collections.abc import Iterator

from ....cutting import ClothPiece, PieceEdge, Treatment
from ....cutting.strip import PAIR
from ....hammock.hammock import Hammock
from ....hammock.outline import draw_outline
from ....making import Amount, CapacityStep, WeightGroup, cut_fold, measure_hem
from ....materials import Fabric, make_sentence
from .build import Build, take_finished
from .weight import Unweighed, Weight, weigh_amount

HEMMED = (Treatment.HEM, Treatment.LEG, Treatment.ROLLED)


def measure_channels(hammock: Hammock) -> float:
    """Return the length of both channels along the cut edges, m."""
    outline = draw_outline(hammock.body)
    return outline.left.length + outline.right.length


def measure_hems(build: Build) -> float:
    """Return the length of the hems, m, of one layer: across free ends, round what lies beyond a bar, legs in them."""
    return sum(edge.length * piece.number for piece, edge in _list_edges(build, *HEMMED)) / build.hammock.body.layers


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
    """Return the hems of all ends as they are cut."""
    used = measure_hem(build.workmanship.hem, measure_hems(build), build.hammock.body.layers)
    return _cut_to_pieces(used, build, *HEMMED)


def _measure_seams(build: Build) -> Amount | None:
    """Return what is sewn together beyond finished edges; None where nothing is."""
    edges = _list_edges(build, Treatment.SEAM)
    if not edges:
        return None
    length = sum(edge.length * piece.number for piece, edge in edges)
    straight = sum(edge.length * edge.allowance * piece.number for piece, edge in edges)
    text = make_sentence("beyond {length:length} of edges that are sewn together", length=length)
    used = Amount(straight, "area", (CapacityStep(text, "cutting rules of the design", "stated"),))
    return _cut_to_pieces(used, build, Treatment.SEAM)


def _list_pieces(build: Build) -> list[ClothPiece]:
    """Return the pieces of body and extensions."""
    return [piece for piece in build.draft.pieces if not piece.name.endswith(PAIR)]


def _list_edges(build: Build, *treatments: Treatment) -> list[tuple[ClothPiece, PieceEdge]]:
    """Return the edges of body and extensions that are treated like that, with their pieces."""
    return [(piece, edge) for piece in _list_pieces(build) for edge in piece.edges if edge.treatment in treatments]


def _cut_to_pieces(used: Amount, build: Build, *treatments: Treatment) -> Amount:
    """Return an amount, straight bands, with what the pieces as cut hold more, or less, m2."""
    cut = sum(piece.number * piece.measure_allowances(each) for piece in _list_pieces(build) for each in treatments)
    text = make_sentence("{more:area} for corners, bends, narrow hems and hot cutting, as cut", more=cut - used.value)
    return used.add(cut - used.value, CapacityStep(text, "the cutting pattern", "derived"))


def _weigh_channels(build: Build) -> Iterator[Weight]:
    """Yield what of the body is folded into the channels, and the strips."""
    body, fold, length = build.hammock.body, build.workmanship.fold, measure_channels(build.hammock)
    assert fold is not None
    wide = cut_fold(fold, body.layers, build.hammock.channel.cord.diameter).body_allowance
    text = make_sentence("{wide:length} beyond {length:length} of finished edges", wide=wide, length=length)
    straight = wide * length * body.layers
    used = Amount(straight, "area", (CapacityStep(text, "the fold of the design", "stated"),))
    used = _cut_to_pieces(used, build, Treatment.CHANNEL)
    yield weigh_amount("body cloth in the channels", body.fabric, used, WeightGroup.HAMMOCK)
    if (strip := fold.strip) is not None:
        pieces = [piece for piece in build.draft.pieces if piece.name.endswith(PAIR)]
        text = make_sentence(
            "{wide:length} wide along {length:length}, ends turned in with the hems", wide=strip.width,
            length=sum(piece.number * piece.size[0] for piece in pieces),
        )  # fmt: skip
        area = sum(piece.number * piece.cut_area for piece in pieces)
        used = Amount(area, "area", (CapacityStep(text, "the cutting pattern", "derived"),))
        yield weigh_amount("channel strips", strip.fabric, used, WeightGroup.HAMMOCK)
