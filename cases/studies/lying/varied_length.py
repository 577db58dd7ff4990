"""Lengths that may change to meet a target, by the name a user writes; the first is the default."""

from collections.abc import Mapping
from typing import NamedTuple

from ....hammock.suspension import Suspension


class VariedLength(NamedTuple):
    """A length of the suspension.

    Parameters
    ----------
    title : str
        In words.
    field : str
        Of each end that changes.
    ends : tuple of str
        At which ends it changes, alike.
    """

    title: str
    field: str
    ends: tuple[str, ...]

    def read(self, suspension: Suspension) -> float:
        """Return the length, m; of both ends that of the head."""
        return float(getattr(suspension.pick(self.ends[0]), self.field))

    def set(self, suspension: Suspension, value: float) -> Suspension:
        """Return a suspension with another length, m; lines of different length change by as much at both ends."""
        first = self.read(suspension)
        changes: dict[str, Mapping[str, float]] = {}
        for end in self.ends:
            before = getattr(suspension.pick(end), self.field)
            changes[end] = {self.field: value if before == first else before + value - first}
        return suspension.change(changes.get("head", {}), changes.get("foot", {}))


VARIED = {
    "foot_strap_height": VariedLength("foot strap height", "strap_height", ("foot",)),
    "head_strap_height": VariedLength("head strap height", "strap_height", ("head",)),
    "line_length": VariedLength("line length", "line_length", ("head", "foot")),
    "foot_line_length": VariedLength("foot line length", "line_length", ("foot",)),
    "head_line_length": VariedLength("head line length", "line_length", ("head",)),
}
