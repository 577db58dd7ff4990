"""What to buy for a design, and what of it is cut to length."""

from collections.abc import Iterator, Mapping, Sequence
from math import ceil
from typing import NamedTuple

from ...cutting.lay import Lay
from ...hammock.hammock import Hammock
from ...hammock.part import list_parts, title_part
from ...making import CapacityStep, WeightGroup
from ...materials import System, make_sentence, parse_quantity
from ...materials.short_repr import write_repr, write_value
from ..judging.checks.check import name_part
from ..judging.weighing import WeightList
from ..judging.weighing.weight import Weight

SQUARING = 0.05  # m of every cloth, to cut both ends square; engineering judgement, no source
_THREAD = "thread"  # first word of its parts on the scales
_SPARE = 1.1  # times the thread of the rows: ends, trials, bobbins; engineering judgement, no source
_STEPS: dict[System, tuple[float, str]] = {"metric": (0.1, "m"), "imperial": (0.25, "yd")}


class ClothLength(NamedTuple):
    """Cloth that is bought by its length.

    Parameters
    ----------
    fabric : str
        Which cloth.
    width : float
        Cuttable, m.
    used : float
        That the lay takes, m.
    share : float
        Of it that is in the pieces, 1.
    """

    fabric: str
    width: float
    used: float
    share: float

    def __repr__(self) -> str:
        return write_repr(self, self.fabric, f"{write_value(self.needed, 'length')} needed")

    @property
    def needed(self) -> float:
        """With both ends cut square, m."""
        return self.used + SQUARING

    def buy(self, system: System) -> str:
        """Return the length to buy: rounded up to 10 cm, or to a quarter of a yard."""
        step, unit = _STEPS[system]
        count = ceil(self.needed / parse_quantity(f"1 {unit}", "length") / step - 1e-9) * step
        return f"{count:.{1 if system == 'metric' else 2}f} {unit}"

    @property
    def reason(self) -> str:
        """Return why so much."""
        return make_sentence(
            "{used:length.4} for the pieces and {square:length} to cut both ends square, rounded up",
            used=self.used,
            square=SQUARING,
        )


class CutLength(NamedTuple):
    """Cord, strap or bar that is cut to length.

    Parameters
    ----------
    part, material : str
        What, of what.
    number : int
        How many.
    length, finished : float
        Of each as cut, and as finished, m.
    steps : tuple of CapacityStep
        What else is in it: buries, laps, tails.
    is_bar : bool
        Whether it is a part of a bar.
    """

    part: str
    material: str
    number: int
    length: float
    finished: float
    steps: tuple[CapacityStep, ...]
    is_bar: bool

    def __repr__(self) -> str:
        return write_repr(self, f"{self.number} x {self.part}", self.material, write_value(self.length, "length"))


class SpoolLength(NamedTuple):
    """Cord, webbing or thread of one kind in all, m."""

    material: str
    length: float


class CountedItem(NamedTuple):
    """Hardware that is counted."""

    part: str
    material: str
    number: int


class ShoppingList(NamedTuple):
    """Everything that goes into a hammock; thread has a tenth to spare."""

    cloth: tuple[ClothLength, ...]
    lengths: tuple[CutLength, ...]
    threads: tuple[SpoolLength, ...]
    items: tuple[CountedItem, ...]

    def __repr__(self) -> str:
        counts = ((self.cloth, "cloths"), (self.lengths, "lengths"), (self.threads, "threads"), (self.items, "items"))
        return write_repr(self, *(f"{len(each)} {noun}" for each, noun in counts))

    @property
    def spools(self) -> tuple[SpoolLength, ...]:
        """Every kind of cord and strap in all."""
        names = dict.fromkeys(cut.material for cut in self.lengths if not cut.is_bar)
        return tuple(
            SpoolLength(name, sum(cut.number * cut.length for cut in self.lengths if cut.material == name))
            for name in names
        )


def list_shopping(lays: Sequence[Lay], scales: WeightList, hammock: Hammock) -> ShoppingList:
    """Return what to buy.

    Parameters
    ----------
    lays : sequence of Lay
        Of all cloth.
    scales : WeightList
        Everything else, as it is weighed.
    hammock : Hammock
        With the finished lengths.
    """
    cloth = tuple(ClothLength(lay.fabric.name, lay.width, lay.length, lay.used) for lay in lays)
    threads: dict[str, float] = {}
    for weight in scales.weights:
        if weight.part.startswith(_THREAD) and weight.amount is not None:
            threads[weight.material] = threads.get(weight.material, 0.0) + _SPARE * weight.amount.value
    finished = {title_part(part.name): part.amount for part in list_parts(hammock)}
    counted = [CountedItem(w.part, w.material, w.count) for w in scales.weights if _is_counted(w)]
    spools = tuple(SpoolLength(*each) for each in threads.items())
    return ShoppingList(cloth, tuple(_join_lengths(scales.weights, finished)), spools, tuple(counted))


def _is_counted(weight: Weight) -> bool:
    """Return whether a part is bought by number."""
    return weight.amount is None or weight.count > 1


def _join_lengths(weights: Sequence[Weight], finished: Mapping[str, float]) -> Iterator[CutLength]:
    """Yield what is cut to length, left and right of the same length as one."""
    joined: dict[tuple[str, str, float], list[Weight]] = {}
    for weight in weights:
        amount = weight.amount
        if amount is not None and amount.dimension == "length" and not weight.part.startswith(_THREAD):
            joined.setdefault((name_part(weight.part), weight.material, round(amount.value, 6)), []).append(weight)
    for (part, material, length), same in joined.items():
        first = same[0]
        assert first.amount is not None
        title = part if len(same) > 1 else first.part
        steps = first.amount.steps[1:]  # the first one is the finished size
        yield CutLength(
            title, material, len(same), length, finished[first.part], steps, first.group is WeightGroup.BARS
        )
