"""Parts of a design and lighter materials for them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ....materials import LINES, SECTIONS, TomlFile
from ....materials.short_repr import write_repr, write_value
from ...design import Design, compose_design
from ...design_issue import DesignError, InputError, suggest_name
from ...judging.weighing import weigh_design
from ..sweep.setting import apply_settings, read_key
from ..sweep.sweep_variable import Option, SweepVariable

_BOTH = (
    "suspension.line",
    "suspension.head_line",
    "suspension.foot_line",
)  # a line may be cord or webbing; sections of bars are tubes or rods
_LEAST = 5e-5  # kg: a kitchen scale does not show less


@dataclass(frozen=True)
class Swap:
    """Another material for a part.

    Parameters
    ----------
    material : str
        Its name.
    saved : float
        By how much the design becomes lighter, kg; dual-use parts do not count.
    refusal : str
        Why no hammock can be made like this; empty if it can.
    """

    material: str
    saved: float
    refusal: str = ""

    def __repr__(self) -> str:
        return write_repr(self, self.material, f"saves {write_value(self.saved, 'mass')}", self.refusal)


@dataclass(frozen=True)
class ReplaceablePart:
    """A part of a design that could be made of another material.

    Parameters
    ----------
    key : str
        That names its material in the design file, such as ``body.fabric``.
    material : str
        What it is made of.
    swaps : tuple of Swap
        What makes it lighter, the most first.
    """

    key: str
    material: str
    swaps: tuple[Swap, ...]

    def __repr__(self) -> str:
        return write_repr(self, self.key, self.material, f"{len(self.swaps)} swaps")

    @property
    def feasible(self) -> tuple[int, ...]:
        """Numbers of the swaps that can be made, from 1."""
        return tuple(number for number, swap in enumerate(self.swaps, 1) if not swap.refusal)

    @property
    def choice(self) -> SweepVariable:
        """What it is made of and every swap, as what varies in a sweep."""
        path, names = read_key(self.key), (self.material, *(swap.material for swap in self.swaps))
        return SweepVariable(self.key, (path,), tuple(Option(name, ((path, name),)) for name in names))


def name_swaps(parts: Sequence[ReplaceablePart], selection: Sequence[int]) -> Iterator[str]:
    """Yield each part that is swapped with its new material.

    Parameters
    ----------
    parts : sequence of ReplaceablePart
        What may change.
    selection : sequence of int
        For each part 0 for its present material, or the number of a swap.

    Examples
    --------
    >>> list(name_swaps([ReplaceablePart("suspension.leg", "2 mm", (Swap("1.75 mm", 0.003),))], [1]))
    ['suspension.leg = 1.75 mm']
    """
    for part, index in zip(parts, selection, strict=True):
        if index:
            yield f"{part.key} = {part.swaps[index - 1].material}"


class PartError(InputError):
    """A part that a design does not have; the message says which there are."""


def list_keys(design: Design, content: TomlFile) -> dict[str, str]:
    """Return the keys of a design that name a material, each with the name."""
    found = {}
    for key in design.sources:
        bar, part, number = (*key.split("."), "", "")[:3]
        if part == "part":
            table = content.data[bar]["part"][int(number) - 1]
            word = "section" if "section" in table else "like"
            found[f"{key}.{word}"] = table[word]
        else:
            found[key] = design.sources[key].name
    return found


def list_parts(design: Design, content: TomlFile, keys: Sequence[str] = ()) -> tuple[ReplaceablePart, ...]:
    """Return the parts of a design with all materials of the library that would make it lighter.

    Parameters
    ----------
    design : Design
        Unchanged.
    content : TomlFile
        Its file.
    keys : sequence of str
        Keys of the parts that may change; empty is all that name a material.

    Returns
    -------
    tuple of ReplaceablePart
        Those without a lighter material are missing.

    Raises
    ------
    PartError
        For a key at which the design names no material.
    """
    known = list_keys(design, content)
    for key in keys:
        if key not in known:
            near = suggest_name(key, list(known))
            raise PartError(
                f"{design.path}: {key} names no material in this design. {near}There are {', '.join(known)}."
            )
    mass = weigh_design(design).packed.mass
    parts = []
    for key in dict.fromkeys(keys or known):
        found = [_try(design, content, key, name, mass) for name in _list_others(design, key, known[key])]
        swaps = sorted((swap for swap in found if swap.saved > _LEAST or swap.refusal), key=lambda swap: -swap.saved)
        parts.append(ReplaceablePart(key, known[key], tuple(swaps)))
    return tuple(part for part in parts if part.feasible)


def _list_others(design: Design, key: str, now: str) -> Iterator[str]:
    """Yield the names of the other materials of the library that the key takes."""
    source = design.sources.get(key) or design.sources[key.rpartition(".")[0]]
    both = key in _BOTH or key.endswith("section")
    kinds = next(group for group in (LINES, SECTIONS) if type(source) in group) if both else (type(source),)
    for kind in kinds:
        yield from (name for name in design.library.names(kind.category) if name != now)


def _try(design: Design, content: TomlFile, key: str, name: str, mass: float) -> Swap:
    """Return the weight another material saves, or why it cannot be used."""
    try:
        tables = apply_settings(content.data, [(read_key(key), name)])
        swapped = compose_design(content._replace(data=tables), design.path, mesh_size=design.mesh_size)
    except DesignError as error:
        return Swap(name, 0.0, " ".join(fault.message for fault in error.faults))
    return Swap(name, mass - weigh_design(swapped).packed.mass)
