"""Metal, wood or laminate: what decides how a section fails and which factor is required."""

from typing import Literal

from ..materials import BarSection

Substance = Literal["metal", "wood", "laminate"]

_WORDS: dict[Substance, tuple[str, ...]] = {
    "laminate": ("carbon", "glass", "epoxy", "laminate", "composite", "aramid"),
    "metal": ("aluminium", "aluminum", "titanium", "steel", "alloy", "brass", "magnesium"),
    "wood": (
        "wood", "birch", "maple", "ash", "oak", "beech", "poplar", "cherry", "hickory", "walnut", "fir", "pine",
        "spruce", "bamboo", "dowel",
    ),
}  # fmt: skip


def find_substance(section: BarSection) -> Substance:
    """Return whether a section is metal, wood or laminate, by the words of its kind.

    A kind without a word that is known counts as laminate, of which the largest factor is required.

    Parameters
    ----------
    section : BarSection
        Tube or rod.

    Returns
    -------
    {"metal", "wood", "laminate"}
        Metal yields before it breaks, wood crushes, a laminate breaks without warning.

    Examples
    --------
    >>> from tautlay.materials import RodSection, Tube, read_library
    >>> library = read_library()
    >>> find_substance(library.find(RodSection, "white ash dowel 1/2 in"))
    'wood'
    >>> find_substance(library.find(Tube, "carbon 12 x 1 mm"))
    'laminate'
    """
    words = section.kind.lower().replace("-", " ").replace("/", " ").split()
    return next((name for name, known in _WORDS.items() if any(word in known for word in words)), "laminate")
