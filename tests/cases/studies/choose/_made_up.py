"""A made-up hammock for searches: two sizes and a list, whose weight and strength are formulas."""

from dataclasses import dataclass, field
from types import SimpleNamespace

from tautlay.cases.studies.choose.frozen_shape import Foretold, Rung
from tautlay.cases.studies.choose.shortfall_list import add_shortfalls
from tautlay.cases.studies.sweep.sweep_row import RowStatus, SweepRow

MASS, STRENGTH = (0.10, 0.02, 0.05), (1.6, 0.5, 1.0)  # of a list, in no order
CHOICES = tuple(SimpleNamespace(name=name, options=options) for name, options in (("a", ()), ("b", ()), ("cord", MASS)))


@dataclass(frozen=True)
class MadeUpSweep:
    """What a search needs of a sweep."""

    name: str
    cases: tuple[str, ...] = ()
    choices: tuple[SimpleNamespace, ...] = CHOICES
    hot_spots: bool = False
    base: None = None

    def list_cases(self, base):
        return ("light", "heavy")


@dataclass
class MadeUp:
    """Two sizes and a list: it weighs the sum of both and bears their product, times what was chosen from the list."""

    sizes = (0, 1)
    listed = (2,)
    sweep: MadeUpSweep = field(default_factory=lambda: MadeUpSweep("made up"))

    def weigh(self, point):
        return 0.1 + (point[0] + point[1]) / 1000 + MASS[point[2]]

    def order(self, begin, place):
        return sorted(range(3), key=MASS.__getitem__)

    def plan(self, point, start):
        return SimpleNamespace(key=point, start_key=start, design=point, cases=())

    def make_variant(self, point):
        return point

    def label(self, point, place):
        return f"{point[place]}"

    def list_near(self, point, place):
        lower = point[place] - (2 if place < 2 else 1)
        return [(*point[:place], lower, *point[place + 1 :])] if lower >= 0 else []


def answer(points, strength=STRENGTH):
    """Return rows of the law; nothing rests below a tenth of a size."""
    return [make_row(point, strength[point[2]]) for point, _ in points]


def make_row(point, strength):
    """Return a row of the law; None where nothing rests."""
    if min(point[:2]) < 10:
        return None
    reserve = point[0] * point[1] / 2500 * strength
    figures = {"reserve_cord": reserve, "lay_used": point[0] / 90, "plainly_unmet": 0.0, "least_margin": reserve}
    failed = (*(["cord"] if reserve < 1.0 else []), *(["back sag"] if point[0] > 90 else []))
    choices = {each.name: f"{pick}" for each, pick in zip(CHOICES, point, strict=True)}
    return SweepRow(1, choices, RowStatus.SOLVED, figures=figures, failed=failed)


def find_rung(rows, offsets):
    """Return the first of a list that bears enough, of rows from the lightest up."""
    fits = (place for place, row in enumerate(rows) if row and add_shortfalls(row, offsets) == 0.0)
    place = next(fits, None)
    return None if place is None else Rung(place, frozenset({"cord"}))


def foretell(asked):
    """Return the lightest of the list that bears enough at the sizes of the first."""
    rows = answer([(point, asked.begin) for point in asked.lists[0]])
    return Foretold((find_rung(rows, asked.offsets),), ())
