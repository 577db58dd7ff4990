"""The parts of a hammock, for lists and weights."""

from collections.abc import Iterator
from dataclasses import dataclass

from ..making import BarBuild, TreeStrap, WeightGroup
from ..materials import Cord, Material, Webbing
from ..materials.short_repr import write_repr, write_value
from .extension_areas import measure_extensions
from .hammock import Hammock
from .outline import draw_outline
from .suspension_line import compose_line


@dataclass(frozen=True)
class Part:
    """One part of the hammock as it is cut.

    Parameters
    ----------
    name : str
        Name of the part; the name of its element where the model has one. Of a bar of several parts they are
        counted from the left.
    material : Material
        What it is made of.
    amount : float
        Finished size: m2 of cloth in all layers, m of everything else.
    mass : float
        kg, without seam allowance, stitching, knots and splices.
    group : WeightGroup
        What it counts to in the weight list.
    carried : bool
        Whether it is dual-use, as a walking pole is.
    weighed : bool
        Whether its mass was weighed and not computed.
    """

    name: str
    material: Material
    amount: float
    mass: float
    group: WeightGroup
    carried: bool = False
    weighed: bool = False

    def __repr__(self) -> str:
        return write_repr(self, self.name, self.material.name, f"{write_value(self.mass, 'mass')}", str(self.group))


def title_part(name: str) -> str:
    """Return the name of a part as it is shown: the side first.

    Parameters
    ----------
    name : str
        Of a part or of its element.

    Examples
    --------
    >>> title_part("head left leg"), title_part("left side cord"), title_part("foot bar")
    ('left head leg', 'left side cord', 'foot bar')
    """
    end, _, rest = name.partition(" ")
    side, _, noun = rest.partition(" ")
    return f"{side} {end} {noun}" if side in ("left", "right") and noun else name


def list_parts(hammock: Hammock) -> tuple[Part, ...]:
    """Return the parts of ``hammock``, whole, even where the model is only a half.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> [part.name for part in list_parts(example_hammock())][:4]
    ['body', 'left side cord', 'right side cord', 'head left leg']
    """
    return (*_list_cloth(hammock), *_list_lines(hammock))


def _list_cloth(hammock: Hammock) -> list[Part]:
    """Return the body and what lies beyond its bars; what is not there is left out."""
    body = hammock.body
    areas = {"body": draw_outline(body).area}
    for (end, *_), beyond in zip(hammock.ends, measure_extensions(hammock), strict=True):
        areas |= {
            f"{end} extension": beyond.sheet,
            f"{end} closing triangles": beyond.triangles,
            f"{end} end cap": beyond.cap,
        }
    return [
        Part(name, body.fabric, area * body.layers, area * body.layers * body.fabric.areal_mass, WeightGroup.HAMMOCK)
        for name, area in areas.items()
        if area > 0
    ]


def _list_lines(hammock: Hammock) -> list[Part]:
    """Return cords, legs, lines and bars."""
    outline, channel = draw_outline(hammock.body), hammock.channel
    parts = []
    for side, edge in (("left", outline.left), ("right", outline.right)):
        length = channel.cord_length or edge.length
        parts.append(_measure(f"{side} side cord", channel.cord, length, WeightGroup.HAMMOCK))
    for end, bar, _, hung in hammock.ends:
        parts += [
            _measure(f"{end} {side} leg", hung.leg, hung.leg_length, WeightGroup.SUSPENSION)
            for side in ("left", "right")
        ]
        group = WeightGroup.STRAPS if isinstance(hung.line, Webbing) else WeightGroup.SUSPENSION
        parts.append(_measure(f"{end} line", hung.line, compose_line(hung).cord, group))
        if hung.strap is not None:
            parts += _list_strap(end, hung.strap)
        parts += _list_bar(f"{end} bar", bar.build)
    return parts


def _list_strap(end: str, strap: TreeStrap) -> Iterator[Part]:
    """Yield a strap round a tree and its slings, as long as they can be set."""
    yield _measure(f"{end} strap", strap.webbing, strap.length, WeightGroup.STRAPS)
    if strap.slings is not None:
        for side in ("left", "right"):
            yield _measure(f"{end} {side} sling", strap.slings.cord, strap.slings.longest, WeightGroup.STRAPS)


def _measure(name: str, material: Cord | Webbing, length: float, group: WeightGroup) -> Part:
    """Return a length of cord or webbing."""
    return Part(name, material, length, length * material.linear_mass, group)


def _list_bar(name: str, bar: BarBuild) -> Iterator[Part]:
    """Yield the parts of a bar."""
    for place, part in enumerate(bar.parts, 1):
        number = f", part {place}" if len(bar.parts) > 1 else ""
        yield Part(
            f"{name}{number}",
            part.section,
            part.length,
            part.mass,
            WeightGroup.BARS,
            part.carried,
            part.weighed is not None,
        )
