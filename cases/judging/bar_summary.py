"""How each bar is assembled, in numbers and words."""

from collections.abc import Iterator
from dataclasses import dataclass

from ...hammock import Hammock
from ...hammock.hammock import Bar
from ...making import describe_path
from ..record import Kilograms, Metres, Newtons, Record


@dataclass(frozen=True, repr=False)
class BarRecord(Record):
    r"""How one bar is put together.

    Parameters
    ----------
    parts : int
        How many pieces it has.
    path : str
        The way of the thrust from cord to cord, in words; a ``Sentence``.
    length : float
        From tip to tip, m.
    mass : float
        Of all parts, kg.
    carried_anyway : float
        What of that is carried anyway, as a walking pole is, kg.
    axial_stiffness : float
        EA of a uniform bar that shortens as much, :math:`L / \sum_i L_i / (E A)_i`, N.
    """

    parts: int
    path: str
    length: Metres
    mass: Kilograms
    carried_anyway: Kilograms
    axial_stiffness: Newtons


@dataclass(frozen=True, repr=False)
class Bars(Record):
    """Both spreader bars."""

    head_bar: BarRecord
    foot_bar: BarRecord

    def list_ends(self) -> Iterator[tuple[str, BarRecord]]:
        """Yield name and record of each."""
        yield "head bar", self.head_bar
        yield "foot bar", self.foot_bar


def find_bars(hammock: Hammock) -> Bars:
    """Return how both bars of a hammock are put together.

    Parameters
    ----------
    hammock : Hammock
        Without faults.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> find_bars(example_hammock()).head_bar.parts
    1
    """
    head, foot = (_find_bar(end.bar) for end in hammock.ends)
    return Bars(head, foot)


def _find_bar(bar: Bar) -> BarRecord:
    """Return how one bar is put together."""
    build = bar.build
    return BarRecord(
        parts=len(build.parts),
        path=describe_path(build),
        length=build.length,
        mass=build.mass,
        carried_anyway=build.carried_mass,
        axial_stiffness=bar.ea,
    )
