"""Capacity of a part in one failure mode, and its derivation, step by step."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple, get_args

from ..materials import Material
from ..materials.short_repr import write_repr, write_value

# From the most certain to the least. "stated" is the maker's own value in the design.
Basis = Literal["seen", "stated", "second hand", "derived", "memory", "judgement"]
BASES: tuple[str, ...] = get_args(Basis)


class Multiplier(NamedTuple):
    """What a step multiplies a capacity with, and how well that is known.

    Parameters
    ----------
    noun : str
        What it is, in a few words, such as ``girth hitch, share kept``.
    test : str
        What would have to be tested to know it: ``"end"``, ``"bend"``, ``"seam"``, ``"stitch"``, ``"lock"``, ``"wet"``
        or ``"age"``.
    value : float
        Nominal value.
    range : (float, float) or None
        Smallest and largest likely value; None is not known.
    """

    noun: str
    test: str
    value: float
    range: tuple[float, float] | None = None


class CapacityStep(NamedTuple):
    """One step towards a capacity.

    Parameters
    ----------
    text : str
        What is used, such as ``breaking load`` or ``a sewn splice keeps 95 %``; may be a ``Sentence``.
    source : str
        Document, formula, or ``common practice, no source``.
    basis : str
        How certain it is, one of ``BASES``.
    times : Multiplier or None
        What it multiplies the capacity with; None where it is something else.
    """

    text: str
    source: str
    basis: Basis
    times: Multiplier | None = None

    def __repr__(self) -> str:
        return write_repr(self, self.text, self.basis, self.source)


def find_weakest(bases: Iterable[Basis]) -> Basis:
    """Return the weakest of some bases.

    Examples
    --------
    >>> find_weakest(["memory", "seen"])
    'memory'
    """
    return max(bases, key=BASES.index)


@dataclass(frozen=True)
class Capacity:
    """Capacity of a part in one failure mode.

    Parameters
    ----------
    value : float
        SI.
    dimension : str
        Of the value: ``"force"``, ``"line_load"``, ``"stress"``, ``"length"``, ...
    steps : tuple of CapacityStep
        How the value is derived.

    Examples
    --------
    >>> cord = Capacity(4448.0, "force", (CapacityStep("breaking load", "a rope table", "memory"),))
    >>> spliced = cord.keep(0.9, "a buried splice keeps 90 %", "common practice, no source", "judgement")
    >>> round(spliced.value), spliced.basis
    (4003, 'judgement')
    """

    value: float
    dimension: str
    steps: tuple[CapacityStep, ...]

    def __repr__(self) -> str:
        return write_repr(self, write_value(self.value, self.dimension), f"steps: {len(self.steps)}")

    @property
    def basis(self) -> Basis:
        """Basis of the weakest step."""
        return find_weakest(step.basis for step in self.steps)

    def keep(
        self, share: float, text: str, source: str, basis: Basis, *, times: Multiplier | None = None
    ) -> "Capacity":
        """Return the capacity of which only ``share`` is left.

        Parameters
        ----------
        share : float
            Above 0 and up to 1.
        text, source, basis : str
            The step that takes the rest.
        times : Multiplier or None
            How well the share is known; None where it is not a question of knowledge.

        Raises
        ------
        ValueError
            For a share outside its bounds.
        """
        if not 0 < share <= 1:
            raise ValueError(f"a part cannot keep {share} of its strength. The share must be above 0, at most 1.")
        return replace(self, value=self.value * share, steps=(*self.steps, CapacityStep(text, source, basis, times)))


def find_capacity(material: Material, field: str, dimension: str, title: str) -> Capacity:
    """Return a number of a material as a capacity that remembers where it comes from.

    Parameters
    ----------
    material : Material
        From the library or the maker's own file.
    field : str
        Name of the number, such as ``breaking_load``.
    dimension : str
        Its dimension.
    title : str
        What it is, in words.

    Returns
    -------
    Capacity
        With one step.

    Examples
    --------
    >>> from tautlay.materials import Cord, read_library
    >>> cord = read_library().find(Cord, "12-strand UHMWPE 2 mm")
    >>> find_capacity(cord, "breaking_load", "force", "breaking load").steps[0].basis
    'memory'
    """
    origin = material.provenance.get(field)
    name = f"{title} of {material.name}"
    if origin is None:
        return Capacity(getattr(material, field), dimension, (CapacityStep(name, "given by the caller", "stated"),))
    source = f"{origin.source}; {origin.note}" if origin.note else origin.source
    return Capacity(getattr(material, field), dimension, (CapacityStep(name, source, origin.status),))
