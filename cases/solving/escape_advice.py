"""What to change about a person who leaves the cloth."""

from types import MappingProxyType

from ...hammock.person import Posture

_SIDE = "{0}."
_WIDER = ("Widen the body (body.head_width)", "make its arcs shallower (body.arc.depth)")
_MIDDLE = ("lie nearer the middle (person.offset)",)
_BACK = ("lie on the back (person.lie)",)
_ADVICE = MappingProxyType(
    {
        "slid out": "Level the straps (strap_height), or lie farther from that bar (person.head_from_bar).",
        "rolled out": _SIDE,
        "hangs out over the left side": _SIDE,
        "hangs out over the right side": _SIDE,
        "hangs out": (
            "The loaded cloth draws in from its ends, most where it is cut off the warp. Leave more room to the bar "
            "(person.head_from_bar, body.length), or cut nearer the warp (body.grain)."
        ),
        "lies in the head bar": (
            "Nothing holds bar and body apart: the bar would press there. Move the head bar away from the body "
            "(person.head_from_bar), or hang the cloth deeper under it (body.head_width)."
        ),
        "lies in the foot bar": (
            "Nothing holds bar and body apart: the bar would press there. Move the feet away from the bar "
            "(person.head_from_bar), or hang the cloth deeper under it (body.foot_width)."
        ),
        "slipped through the cloth: head": (
            "It lies too near the end of the loaded cloth, which draws in, most where it is cut off the warp. Leave "
            "more room to the bar (person.head_from_bar, body.length), or cut nearer the warp (body.grain)."
        ),
        "slipped through": (
            "Change where and how the person lies, or the body: it may be too short, too flat or too narrow for this "
            "person."
        ),
    }
)  # against each way to leave the cloth, by how it begins; those of the ends were tried on cloth cut at 30 and 45 deg


def advise_escape(escape: str, posture: Posture) -> str:
    """Return what to change, in words.

    Parameters
    ----------
    escape : str
        How the person has left the cloth, from :func:`~tautlay.meshing.check_containment`.
    posture : Posture
        How the person was to lie.

    Examples
    --------
    >>> from tautlay.hammock import Posture
    >>> advise_escape("rolled out over the left side", Posture())
    'Widen the body (body.head_width) or make its arcs shallower (body.arc.depth).'
    """
    advice = next(advice for start, advice in _ADVICE.items() if escape.startswith(start))
    ways = [*_WIDER, *(_MIDDLE if _is_off_the_middle(escape, posture) else ()), *(_BACK if posture.on_side else ())]
    return advice.format(f"{', '.join(ways[:-1])} or {ways[-1]}")


def _is_off_the_middle(escape: str, posture: Posture) -> bool:
    """Check whether an offset led there: it goes to the left, and who lies on the side is held in the middle."""
    return posture.offset > 0.0 and not posture.on_side and "left side" in escape
