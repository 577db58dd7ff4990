"""Base of all materials."""

from collections.abc import Mapping
from dataclasses import Field, dataclass, field, fields
from math import isfinite
from types import MappingProxyType
from typing import Any, ClassVar

from .printable import escape_text, join_sentences
from .provenance import Provenance


class MaterialError(ValueError):
    """Materials that cannot be read or found; ``faults`` has one sentence for each error."""

    def __init__(self, faults: list[str]) -> None:
        super().__init__(faults)
        self.faults = [escape_text(fault) for fault in faults]

    def __str__(self) -> str:
        return join_sentences(self.faults)


def quantity(dimension: str, plausible: str, *, optional: bool = False) -> Any:  # noqa: ANN401 - as dataclasses.field
    """Declare a quantity of a material: its dimension, its meaning in ``PLAUSIBLE``, whether it may be unknown."""
    metadata = {"dimension": dimension, "plausible": plausible, "optional": optional}
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

    category: ClassVar[str]

    name: str
    kind: str
    provenance: Mapping[str, Provenance] = field(
        default_factory=_no_provenance, compare=False, repr=False, kw_only=True
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
    def label(self) -> str:
        """Category and name, as used in messages."""
        return f'{self.category} "{self.name}"'

    def __getstate__(self) -> dict[str, Any]:
        # A mapping proxy cannot be pickled; sweeps send materials to worker processes.
        return {**self.__dict__, "provenance": dict(self.provenance)}

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.__dict__.update(state, provenance=MappingProxyType(state["provenance"]))
