"""Cloth beyond a bar that cannot be cut or sewn."""

from collections.abc import Iterator
from math import pi, tan

from ..materials import make_sentence
from .cone import Cone, draw_cone
from .extension import ExtensionMake
from .facet import list_darts, list_facets
from .geometry_issue import GeometryIssue
from .hammock import Hammock, HammockEnd

_WIDEST_DART = pi / 3  # rad: as wide as its edges are long


def check_extensions(hammock: Hammock) -> Iterator[GeometryIssue]:
    """Yield what is wrong with the cloth beyond bars that are set in.

    Parameters
    ----------
    hammock : Hammock
        Whose bars and legs are without issues.
    """
    for end in hammock.ends:
        if end.bar.set_in > 0:
            cone = draw_cone(end)
            issue = _check_opening(end, cone)
            if issue is None and end.bar.extension.made is ExtensionMake.RUNS_ON:
                issue = _check_darts(end, cone)
            if issue is not None:
                yield issue


def _check_opening(end: HammockEnd, cone: Cone) -> GeometryIssue | None:
    """Return what is wrong with the openings at the corners, if something is."""
    name, extension = end.name, end.bar.extension
    if 2 * extension.opening >= end.bar.length:
        sentence = make_sentence(
            "The openings of {opening:length} from both corners leave nothing to sew: the {name} bar is "
            "{bar:length.4} long. Make opening shorter than {most:length}.",
            opening=extension.opening,
            name=name,
            bar=end.bar.length,
            most=end.bar.length / 2,
        )
        return GeometryIssue(sentence, (f"{name}_extension.opening", f"{name}_bar.length"))
    if extension.corner_room >= cone.side:
        sentence = make_sentence(
            "The {name} extension is {side:length} long at the legs, too short for the {room:length} left free at its "
            "corners. Reduce corner_room or increase set_in.",
            name=name,
            side=cone.side,
            room=extension.corner_room,
        )
        return GeometryIssue(sentence, (f"{name}_extension.corner_room", f"{name}_bar.set_in"))
    return None


def _check_darts(end: HammockEnd, cone: Cone) -> GeometryIssue | None:
    """Return what is wrong with the darts of an extension that runs on, if something is."""
    name, extension = end.name, end.bar.extension
    keys = (f"{name}_extension.darts", f"{name}_bar.set_in")
    try:
        facets = list_facets(cone, extension.darts)
    except ValueError:
        return GeometryIssue(
            f"The {name} extension cannot be laid flat with {extension.darts} darts. Change darts, or cut it sewn on.",
            keys,
        )
    if (widest := max(list_darts(facets))) >= _WIDEST_DART:
        number = extension.darts
        length = float((1 - cone.scale) * cone.distance.max())
        sentence = make_sentence(
            "The widest of {number} {darts} of the {name} extension is {wide:length} wide, more than its edges of "
            "{length:length} are long. Add darts, or cut the extension sewn on.",
            number=number,
            darts="dart" if number == 1 else "darts",
            name=name,
            wide=2 * length * tan(min(widest, 0.9 * pi) / 2),
            length=length,
        )
        return GeometryIssue(sentence, keys)
    if extension.opening >= facets[0].base[1]:
        sentence = make_sentence(
            "The openings of {opening:length} from the corners run into the darts of the {name} extension, the first "
            "{dart:length} from the corner. Make opening shorter.",
            opening=extension.opening,
            name=name,
            dart=facets[0].base[1],
        )
        return GeometryIssue(sentence, (f"{name}_extension.opening", *keys[:1]))
    return None
