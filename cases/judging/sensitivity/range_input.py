"""Inputs of the checks: numbers of materials and shares, each with its range if one is known."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from ....hammock.hammock import Hammock
from ....making import CapacityStep, Multiplier, Workmanship
from ....materials import Material, make_sentence
from ....materials.material import list_quantities
from .material_replacement import list_materials

_TITLES = {
    "warp": "warp stiffness",
    "weft": "weft stiffness",
    "poisson": "Poisson ratio",
    "shear": "shear stiffness",
    "strength_warp": "warp strength",
    "strength_weft": "weft strength",
    "ea": "stiffness",
}
_OF_CLOTH = ("warp", "weft", "poisson", "shear")
_MASSES = ("areal_mass", "linear_mass", "density")  # a hammock weighs a hundredth of the person


@dataclass(frozen=True)
class Input:
    """One number that the checks are based on.

    Parameters
    ----------
    title : str
        What it is, in words; may be a ``Sentence``.
    value : float
        Nominal value, SI.
    range : (float, float) or None
        Smallest and largest likely value, SI; None is not known.
    dimension : str
        Of the value.
    test : str
        How it could be measured, a key of ``TESTS``.
    """

    title: str
    value: float
    range: tuple[float, float] | None
    dimension: str
    test: str

    def __repr__(self) -> str:
        """Return what it is, and what is taken; a material with all its sources is long."""
        return f"{type(self).__name__}({str(self.title)!r:.120}, {self.value:.4g})"

    @property
    def ends(self) -> tuple[float, ...]:
        """Ends of the range that differ from the nominal value."""
        return tuple(end for end in self.range or () if end != self.value)


@dataclass(frozen=True, repr=False)
class MaterialInput(Input):
    """A number of a material.

    Parameters
    ----------
    material : Material
        Whose it is.
    field : str
        Its name there.
    """

    material: Material
    field: str

    def take(self, value: float) -> Material:
        """Return the material with another value; raises ValueError where that conflicts with its other numbers."""
        changed: Any = {self.field: value}  # one field of many kinds
        return replace(self.material, **changed)


def list_mechanical(hammock: Hammock) -> tuple[MaterialInput, ...]:
    """Return the stiffnesses that decide about shape and forces: a change needs a solve.

    Parameters
    ----------
    hammock : Hammock
        What is solved.

    Returns
    -------
    tuple of MaterialInput
        Of cloth, cords, lines and straps. A bar barely shortens: its modulus affects its strength alone.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> [str(each.title) for each in list_mechanical(example_hammock())][3:]
    ['shear stiffness, invented ripstop', 'stiffness, invented cord', 'stiffness, invented strap']
    """
    ropes = list_materials(hammock.channel.cord, hammock.suspension)
    return (
        *_list_fields(hammock.body.fabric, _OF_CLOTH),
        *(each for rope in ropes for each in _list_fields(rope, ("ea",))),
    )


def list_capacities(hammock: Hammock, workmanship: Workmanship) -> tuple[MaterialInput, ...]:
    """Return every other number of the materials but masses: a change needs new checks, but no solve.

    Parameters
    ----------
    hammock : Hammock
        What is solved.
    workmanship : Workmanship
        How its parts are made.

    Returns
    -------
    tuple of MaterialInput
        Whether or not a check depends on them.
    """
    known = set(list_mechanical(hammock))
    return tuple(
        each
        for material in list_materials(hammock, workmanship)
        for each in _list_fields(material, tuple(item.name for item in list_quantities(material)))
        if each not in known and each.dimension not in _MASSES
    )


def _list_fields(material: Material, names: tuple[str, ...]) -> Iterator[MaterialInput]:
    """Yield some numbers of a material as inputs."""
    for item in list_quantities(material):
        value, dimension = getattr(material, item.name), item.metadata["dimension"]
        if item.name not in names or value is None:
            continue
        origin = material.provenance.get(item.name)
        title = make_sentence(
            "{title}, {name}", title=_TITLES.get(item.name, item.name.replace("_", " ")), name=material.name
        )
        test = f"{material.category}.{item.name}"
        yield MaterialInput(title, value, origin.range if origin else None, dimension, test, material, item.name)


def list_multipliers(steps: tuple[CapacityStep, ...]) -> tuple[Input, ...]:
    """Return the shares and factors that a capacity was multiplied with, each once.

    Parameters
    ----------
    steps : tuple of CapacityStep
        Of one capacity, or of several.

    Examples
    --------
    >>> from tautlay.making import CordTermination, TerminationType, RetainedStrength, find_share
    >>> from tautlay.making import Capacity
    >>> from tautlay.materials import Webbing, read_library
    >>> webbing = read_library().find(Webbing, "polyester 1 in, 25 g/m")
    >>> share = find_share(webbing, CordTermination(TerminationType.HITCH))
    >>> hitched = share.leave(Capacity(1000.0, "force", ()), "girth hitch")
    >>> [(each.title, each.range) for each in list_multipliers(hitched.steps)]
    [('girth hitch, share kept', (0.66, 0.8))]
    """
    found = dict.fromkeys(step.times for step in steps if step.times is not None)
    return tuple(name_multiplier(times) for times in found)


def name_multiplier(times: Multiplier) -> Input:
    """Return what a step multiplies with as an input."""
    return Input(times.noun, times.value, times.range, "ratio", times.test)
