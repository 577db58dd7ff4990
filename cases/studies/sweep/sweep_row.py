"""One design of a sweep with its results."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from ....materials.short_repr import write_repr
from ...judging.checks.check import NEVER_CHECKED


class RowStatus(StrEnum):
    """How a design of a sweep ended; the value is what stands in the file of results."""

    SOLVED = "solved"
    REFUSED = "refused"  # no hammock can be made or hung like this
    NO_REST = "no rest"  # no equilibrium was found
    BROKEN = "broken"  # the program failed, which is a fault of the program
    LOST = "lost"  # the process that solved it ended, again and again
    OPEN = "open"  # not solved yet

    @property
    def is_owed(self) -> bool:
        """Whether the program or the machine still owes an answer."""
        return self in (RowStatus.BROKEN, RowStatus.LOST, RowStatus.OPEN)


@dataclass(frozen=True)
class SweepRow:
    """One design of a sweep and its result.

    Parameters
    ----------
    number : int
        In the order of the sweep file, from 1.
    choices : mapping of str to str
        The choices, by the name of each thing that varies.
    status : RowStatus
        How it ended.
    reason : str
        Why it is not solved; empty if it is.
    figures : mapping of str to float
        Values by key, SI, of several loads or people the worst; those that do not apply are missing. Keys are those
        that ``tautlay rank FILE --columns`` lists: ``packed_kg``, ``least_margin`` (lowest reserve factor, factor of
        safety found over required), ``side_cord_N`` (largest tension along either side cord), ``line_N`` and
        ``tree_pull_N`` (the larger of both ends), ``head_bar_thrust_N``, measures of the lay and so on; and, for
        searches, shares used of what is required: ``worst_used``, ``ground_used``, ``lay_used``, ``size_used``, and
        ``plainly_unmet``, how many requirements without a share are not met.
    governs : str
        Governing check; empty if nothing was checked.
    failed, unchecked : tuple of str
        Requirements that are not met, and parts that could not be checked: a row that ``holds`` may still have some.
    judged, unjudged : tuple of str
        Loads, and people if there are several, that were looked at, and those that are required and were not.
    """

    number: int
    choices: Mapping[str, str]
    status: RowStatus
    reason: str = ""
    figures: Mapping[str, float] = field(default_factory=dict)
    governs: str = ""
    failed: tuple[str, ...] = ()
    unchecked: tuple[str, ...] = ()
    judged: tuple[str, ...] = ()
    unjudged: tuple[str, ...] = ()

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{self.number}",
            self.title,
            str(self.status),
            "holds" if self.holds else "",
            self.governs,
            self.reason,
        )

    @property
    def holds(self) -> bool:
        """Whether it is solved and meets every requirement that was looked at: strength, lay, ground, limits."""
        return self.status is RowStatus.SOLVED and not self.failed

    @property
    def earned(self) -> bool:
        """Whether it meets every requirement, and all of them were looked at."""
        return self.holds and not self.unjudged

    def list_lost(self, known: frozenset[str]) -> list[str]:
        """Return the parts that it leaves unchecked beyond those that are known to be, in order.

        Those that no design file gets checked, ``NEVER_CHECKED``, are left out.

        Examples
        --------
        >>> SweepRow(1, {}, RowStatus.SOLVED, unchecked=("seam", "cord", "bar tips")).list_lost(frozenset({"cord"}))
        ['seam']
        """
        return sorted(set(self.unchecked) - known - NEVER_CHECKED)

    @property
    def title(self) -> str:
        """The choices in one line.

        Examples
        --------
        >>> SweepRow(1, {"cloth": "nylon", "cord": "2 mm"}, RowStatus.OPEN).title
        'nylon, 2 mm'
        """
        return ", ".join(self.choices.values()) or "unchanged"


def find_lightest(rows: Iterable[SweepRow]) -> SweepRow | None:
    """Return the lightest design that passes, None if none does.

    Examples
    --------
    >>> rows = [SweepRow(n, {}, RowStatus.SOLVED, figures={"packed_kg": kg}) for n, kg in ((1, 0.3), (2, 0.2))]
    >>> find_lightest(rows).number
    2
    """
    held = [row for row in rows if row.holds and "packed_kg" in row.figures]
    return min(held, key=lambda row: row.figures["packed_kg"], default=None)


def list_unjudged(rows: Iterable[SweepRow]) -> list[str]:
    """Return what is required and was not looked at in some or all of several designs."""
    return list(dict.fromkeys(case for row in rows for case in row.unjudged))


def write_pass(rows: Iterable[SweepRow]) -> str:
    """Return the words for designs that meet what was looked at: ``pass``, or under which loads if that is not all.

    Examples
    --------
    >>> write_pass([SweepRow(1, {}, RowStatus.SOLVED)])
    'pass'
    >>> write_pass([SweepRow(1, {}, RowStatus.SOLVED, judged=("lying",), unjudged=("sudden",))])
    'pass under lying'
    """
    looked = list(rows)
    if not list_unjudged(looked):
        return "pass"
    judged = list(dict.fromkeys(case for row in looked for case in row.judged))
    return f"pass under {' and '.join(judged)}" if judged else "pass in part"


def write_passes(rows: Iterable[SweepRow]) -> str:
    """Return the same of one design.

    Examples
    --------
    >>> write_passes([SweepRow(1, {}, RowStatus.SOLVED, judged=("lying",), unjudged=("sudden",))])
    'passes under lying'
    """
    return write_pass(rows).replace("pass", "passes", 1)


def write_best(rows: Iterable[SweepRow]) -> str:
    """Return the words for one design that meets what was looked at, after the noun.

    Examples
    --------
    >>> write_best([SweepRow(1, {}, RowStatus.SOLVED, judged=("lying",), unjudged=("sudden",))])
    'that passes under lying'
    """
    return f"that {write_passes(rows)}"


def list_unchecked(rows: Iterable[SweepRow]) -> list[str]:
    """Return the parts that could not be checked in some or all of several designs."""
    return sorted({part for row in rows for part in row.unchecked})
