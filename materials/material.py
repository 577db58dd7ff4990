"""Base of all materials."""

from collections.abc import Callable, Mapping
from dataclasses import Field, dataclass, field, fields
from math import isfinite, prod
from types import MappingProxyType
from typing import Any, ClassVar, NamedTuple

from .printable import escape_text, join_sentences
from .provenance import Provenance
from .sentence import Sentence
from .short_repr import write_repr, write_value

HomeTest = Callable[[], Sentence]


class MaterialError(ValueError):
    """Materials that cannot be read or found; ``faults`` has one sentence for each error."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__(faults)
        self.faults = [escape_text(fault) for fault in faults]

    def __str__(self) -> str:
        return join_sentences(self.faults)


class ListColumn(NamedTuple):
    """A number that a maker chooses by: its name in the record, what a list is headed with, its dimension."""

    name: str
    heading: str
    dimension: str


def quantity(dimension: str, plausible: str, *, optional: bool = False, test: HomeTest | None = None) -> Any:  # noqa: ANN401 - as field
    """Declare a quantity of a material.

    Parameters
    ----------
    dimension : str
        Of its values.
    plausible : str
        Its meaning, a key of ``PLAUSIBLE``.
    optional : bool
        Whether it may be unknown.
    test : callable or None
        Tells how it could be measured at home; called late, since sentences look at units.
    """
    metadata = {"dimension": dimension, "plausible": plausible, "optional": optional, "test": test}
    return field(default=None, metadata=metadata) if optional else field(metadata=metadata)


def list_quantities(material: "type[Material] | Material") -> tuple[Field[Any], ...]:
    """Return the fields of a material that hold a quantity, in order."""
    return tuple(item for item in fields(material) if "dimension" in item.metadata)


def _no_provenance() -> Mapping[str, Provenance]:
    return MappingProxyType({})


@dataclass(frozen=True)
class Material:
    """A named material; numbers in SI.

    Parameters
    ----------
    name : str
        Name it is called by, unique in its category.
    kind : str
        Generic type, such as ``ripstop nylon``.
    provenance : mapping of str to Provenance
        Origin of each number by the name of its field; every number of the library has one. It does
        not count when two materials are compared.
    """

    category: ClassVar[str]  # the name of the kind, in files, commands and messages
    columns: ClassVar[tuple[ListColumn, ...]]  # of a list of the kind; the rest is shown for a single material
    called_by: ClassVar[tuple[tuple[str, str], ...]]  # number and dimension, in the order in which names have them
    mass_from: ClassVar[tuple[str, ...]] = ("linear_mass",)  # numbers that the mass of a unit is proportional to
    sizes: ClassVar[tuple[str, ...]] = ()  # numbers that a maker may have otherwise

    name: str
    kind: str
    provenance: Mapping[str, Provenance] = field(
        default_factory=_no_provenance, compare=False, repr=False, kw_only=True
    )

    def __repr__(self) -> str:
        known = ((item, getattr(self, item.name)) for item in list_quantities(self))
        return write_repr(
            self,
            self.name,
            *(
                f"{item.name.replace('_', ' ')} {write_value(value, item.metadata['dimension'])}"
                for item, value in known
                if value is not None
            ),
        )

    def __post_init__(self) -> None:
        """Refuse numbers no material can have.

        Raises
        ------
        ValueError
            One sentence with category, name, field, value and what is allowed.
        """
        object.__setattr__(self, "provenance", MappingProxyType(dict(self.provenance)))
        for item in list_quantities(self):
            value = getattr(self, item.name)
            if value is None and item.metadata["optional"]:
                continue
            zero_allowed = item.name == "poisson"
            if not isfinite(value) or value < 0.0 or (value == 0.0 and not zero_allowed):
                limit = "zero or a positive" if zero_allowed else "a positive"
                raise ValueError(f"{self.label}: {item.name} = {value} must be {limit} finite number")

    @property
    def unit_mass(self) -> float:
        """Mass of a unit: kg/m2 of cloth and sheet, kg/m of everything else."""
        return prod(float(getattr(self, name)) for name in self.mass_from)

    @property
    def label(self) -> str:
        """Category and name, as used in messages."""
        return f'{self.category} "{self.name}"'

    def __getstate__(self) -> dict[str, Any]:
        # A mapping proxy cannot be pickled; sweeps send materials to worker processes.
        return {**self.__dict__, "provenance": dict(self.provenance)}

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.__dict__.update(state, provenance=MappingProxyType(state["provenance"]))
