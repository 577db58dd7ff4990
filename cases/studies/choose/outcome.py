"""What a search for the lightest design ended with."""

from collections import Counter
from dataclasses import dataclass, field
from typing import NamedTuple

from ....materials.short_repr import write_repr, write_value
from ...design import Design
from ..sweep.sweep_row import SweepRow
from .open_design import OpenDesign


class ChosenDesign(NamedTuple):
    """The lightest design that was found.

    Parameters
    ----------
    row : SweepRow
        What was found, on its own mesh where it is confirmed.
    packed : float
        Added pack weight, kg.
    confirmed : bool
        Whether it earns the verdict on the mesh of the design.
    sweep : str
        Name under which the file of results has it.
    design : Design
        As a design, on its own mesh.
    """

    row: SweepRow
    packed: float
    confirmed: bool
    sweep: str
    design: Design

    def __repr__(self) -> str:
        return write_repr(self, write_value(self.packed, "mass"), "confirmed" if self.confirmed else "", self.row.title)


class NextLighter(NamedTuple):
    """The next lighter value of one thing that is open, and why it is not taken.

    Parameters
    ----------
    choice, chosen, instead : str
        What is open, what was chosen, and the next lighter value.
    saves : float
        By how much the design would be lighter, kg.
    reason : str
        What fails, and by how much.
    """

    choice: str
    chosen: str
    instead: str
    saves: float
    reason: str

    def __repr__(self) -> str:
        return write_repr(self, self.choice, self.instead, f"saves {write_value(self.saves, 'mass')}", self.reason)


class StartEnd(NamedTuple):
    """Where a search from one start ended: its weight, kg, what was chosen, and how many designs it solved."""

    packed: float | None
    title: str
    solved: int

    def __repr__(self) -> str:
        return write_repr(self, "nothing" if self.packed is None else write_value(self.packed, "mass"), self.title)


@dataclass(frozen=True)
class ChooseResult:
    """What a search ended with.

    Parameters
    ----------
    open_design : OpenDesign
        What was open.
    chosen : ChosenDesign or None
        None if nothing passes, or nothing was found yet.
    combinations, refused, solved : int
        How many there are, how many of them cannot be made, and how many were solved.
    excluded : Counter
        How many were excluded without a solve, by reason.
    proven : bool
        Whether everything lighter was solved and fails, or is excluded.
    floor : float or None
        Weight below which nothing passes, kg, where the search of a finite set ended early.
    stopped : bool
        Whether it was stopped.
    refuted : tuple of (SweepRow, str)
        What passes on the mesh of the search and not on that of the design, and why.
    starts : tuple of StartEnd
        Of sizes: where each start ended.
    lighter : tuple of NextLighter
        Why nothing lighter was chosen, by what is open.
    front : tuple of SweepRow
        Of another goal than the least weight: what nothing that passes beats, the chosen first.
    compared : int
        How many passed and were compared for that.
    exclusion : str
        Where nothing passes: which two requirements exclude each other, and the nearest design.
    """

    open_design: OpenDesign
    chosen: ChosenDesign | None
    combinations: int = 0
    refused: int = 0
    solved: int = 0
    excluded: Counter[str] = field(default_factory=Counter)
    proven: bool = False
    floor: float | None = None
    stopped: bool = False
    refuted: tuple[tuple[SweepRow, str], ...] = ()
    starts: tuple[StartEnd, ...] = ()
    lighter: tuple[NextLighter, ...] = ()
    front: tuple[SweepRow, ...] = ()
    compared: int = 0
    exclusion: str = ""

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.open_design.sweep.name,
            repr(self.chosen),
            "proven" if self.proven else "",
            f"{self.solved} solved",
        )
