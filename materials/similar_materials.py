"""Materials that resemble a text: by its words, and by the quantities in it."""

import re
from collections.abc import Iterable
from math import log
from typing import NamedTuple

from .material import Material
from .quantity import QuantityError, parse_quantity
from .units import find_dimension

_SHORT = {"areal_mass": {"oz": "oz/yd2"}, "linear_mass": {"D": "den", "d": "den"}}  # trade's short forms
_TRADE = {  # words makers use -> words of names, kinds and notes
    "sil": "silicone",
    "silnylon": "silicone nylon",
    "silpoly": "silicone polyester",
    "siliconised": "silicone",
    "siliconized": "silicone",
    "pu": "polyurethane",
}
_NUMBER = r"(?<![A-Za-z0-9.])(?:(?:[0-9]+[ -])?[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_YARN = re.compile(r"([0-9]+)(?: to ([0-9]+))? den\b")
_SAME = log(1.1)  # within a tenth it is what was asked for, the accuracy of a trade name
_NEAR = log(1.5)  # further off it is something else
_MISSING = 0.5  # a word that is missing counts as much as a quantity off by a factor of 1.6
_FEW = 3


class _Clues(NamedTuple):
    """Quantities by field, SI, and the words that are left."""

    values: dict[str, float]
    words: tuple[str, ...]


def find_alike(text: str, materials: Iterable[Material]) -> tuple[Material, ...]:
    """Return the materials whose quantities are nearest to those in ``text`` and which have all its words.

    Parameters
    ----------
    text : str
        Such as ``"1.1 oz"``, ``"70 den nylon"``, ``"UHMWPE 5/64 in"``, or words of the trade: ``"silnylon 1.3"``; a
        number without a unit at the end is one of oz/yd2.
    materials : iterable of Material
        What to choose from.

    Returns
    -------
    tuple of Material
        Those within a tenth, nearest first; if there are none, up to three within a factor of 1.5. For a text without
        a quantity those whose name, kind or notes have all its words.
    """
    known = tuple(materials)
    rated = [(_rate_noted(text, material), material) for material in known]
    if all(away is None for (away, _), _ in rated):
        if re.search(rf"{_NUMBER}$", text.strip()):
            return find_alike(f"{text.strip()} oz", known)
        return tuple(material for (_, missing), material in rated if missing == 0) if text.strip() else ()
    fit = [(away, material) for (away, missing), material in rated if away is not None and missing == 0]
    fit.sort(key=lambda item: item[0])
    same = [material for away, material in fit if away <= _SAME]
    return tuple(same or [material for away, material in fit if away <= _NEAR][:_FEW])


def find_likeliest(text: str, materials: Iterable[Material]) -> Material | None:
    """Return the most probable material for a name with a quantity in it, or None if none is near.

    Parameters
    ----------
    text : str
        A name that does not exist, such as ``"ripstop nylon 1.6 oz"``.
    materials : iterable of Material
        What to choose from.
    """
    rated = [
        (away + _MISSING * missing, away, m)
        for m in materials
        for away, missing in [_rate(text, m)]
        if away is not None
    ]
    near = [(score, material) for score, away, material in rated if away <= _NEAR]
    return min(near, key=lambda item: item[0])[1] if near else None


def _rate(text: str, material: Material) -> tuple[float | None, int]:
    """Return how far off the quantities are (sum of logarithms; None without any) and how many words are missing."""
    clues = _read_clues(text, material.called_by)
    own = f"{material.name} {material.kind}".casefold()
    missing = sum(word not in own for word in clues.words)
    if not clues.values:
        return None, missing
    return sum(_measure(material, key, value) for key, value in clues.values.items()), missing


def _rate_noted(text: str, material: Material) -> tuple[float | None, int]:
    """Return the same for the trade's words, which may also begin a word of the notes: uncoated cloth is not coated."""
    clues = _read_clues(text, material.called_by)
    own = f"{material.name} {material.kind}".casefold()
    notes = " ".join(dict.fromkeys(origin.note for origin in material.provenance.values())).casefold()
    plain = [part for word in clues.words for part in word.split("-")]
    words = [each for part in plain for each in _TRADE.get(part, part).split()]
    missing = sum(not re.search(rf"(?<![a-z]){re.escape(word)}", f"{own} {notes}") for word in words)
    if not clues.values:
        return None, missing
    return sum(_measure(material, key, value) for key, value in clues.values.items()), missing


def _measure(material: Material, key: str, value: float) -> float:
    """Return how far a quantity is from that of a material, as a logarithm of their ratio; infinite if not known."""
    if key == "yarn":
        return _measure_yarn(material, value)
    known = getattr(material, key)
    return abs(log(value / known)) if known else float("inf")


def _measure_yarn(material: Material, value: float) -> float:
    """Return how far a yarn is from those named in the notes of a fabric, which has no field for it."""
    notes = " ".join(dict.fromkeys(origin.note for origin in material.provenance.values()))
    spans = [
        [parse_quantity(f"{end} den", "linear_mass") for end in match.groups() if end]
        for match in _YARN.finditer(notes)
    ]
    return min((max(log(ends[0] / value), log(value / ends[-1]), 0.0) for ends in spans), default=float("inf"))


def _read_clues(text: str, called_by: tuple[tuple[str, str], ...]) -> _Clues:
    """Take the quantities a kind is called by out of a text."""
    rest = re.sub(r"(?<=[0-9nm]) ?x ?(?=[0-9.])", " x ", text.strip())
    values: dict[str, float] = {}
    for key, dimension in called_by:
        short = _SHORT.get(dimension, {})
        names = sorted({*find_dimension(dimension).units, *short}, key=len, reverse=True)
        units = "|".join(re.escape(name) for name in names if name)
        match = re.search(rf"(?P<number>{_NUMBER}) ?(?P<unit>{units})(?![A-Za-z0-9/^])", rest)
        if key == "outer_diameter" and (
            pair := re.search(rf"({_NUMBER})(?= x {_NUMBER} ?({units})(?![A-Za-z0-9]))", rest)
        ):
            written, span = f"{pair[1]} {pair[2]}", pair.span()
        elif match is not None:
            written, span = f"{match['number']} {short.get(match['unit'], match['unit'])}", match.span()
        else:
            continue
        try:
            value = parse_quantity(written, dimension)
        except QuantityError:
            continue  # no quantity after all, such as 1/0 in: it stays a word
        if value > 0:
            values[key], rest = value, f"{rest[: span[0]]} {rest[span[1] :]}"
    return _Clues(values, tuple(word for word in rest.casefold().split() if word != "x"))
