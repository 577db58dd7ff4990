"""The verdict on a design: of every requirement the worst case, the worst requirement first."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from ...record import Record
from ..checks.check import name_part, write_utilisation
from ..checks.findings import Findings
from ..checks.verdict import write_verdict
from .requirement import Grade, Requirement, Topic
from .terms import JudgeTerms

_SHOWN = 3  # requirements of one kind that a sentence names
_HEADS = {
    Grade.FAILS: "At the load",
    Grade.MISSES: "Too little reserve",
    Grade.LIES_BADLY: "Does not lie well",
    Grade.EXCEEDS: "Beyond a limit",
}


@dataclass(frozen=True, repr=False)
class Verdict(Record):
    """The verdict on a design.

    Parameters
    ----------
    requirements : tuple of Requirement
        Of each the worst case: what fails at the load, what misses its factor, what does not lie well, what goes beyond
        a limit, and what passes, each by utilisation.
    judged : tuple of str
        Cases that were looked at, such as ``lying`` or ``sudden, tall guest``.
    unjudged : tuple of str
        Cases that are required and were not looked at.
    unchecked : tuple of str
        Parts about which the design does not state enough.
    """

    requirements: tuple[Requirement, ...]
    judged: tuple[str, ...]
    unjudged: tuple[str, ...]
    unchecked: tuple[str, ...]

    @property
    def failed(self) -> tuple[Requirement, ...]:
        """What is not met, the worst first."""
        return tuple(each for each in self.requirements if not each.passed)

    @property
    def passed(self) -> bool:
        """Whether everything required was looked at and is met."""
        return not self.failed and not self.unjudged and bool(self.requirements)

    @property
    def kind(self) -> str:
        """Colour of a page: ``good``, ``bad``, or ``open`` where something was not looked at."""
        return "bad" if self.failed else "good" if self.passed else "open"

    @property
    def remedies(self) -> tuple[str, ...]:
        """What it would take to pass, the worst first; of each part, left and right as one, its worst failure alone."""
        first: dict[str, str] = {}
        for each in self.failed:
            part = name_part(each.name).partition(", ")[0] if each.topic is Topic.STRENGTH else each.name
            first.setdefault(part, each.remedy)
        return tuple(dict.fromkeys(filter(None, first.values())))

    @property
    def governing(self) -> Requirement | None:
        """What is worst: the first that fails, else the one of the highest utilisation."""
        return next(iter(self.requirements), None)


def merge_cases(
    cases: Iterable[tuple[Requirement, ...]],
    *,
    judged: tuple[str, ...],
    unjudged: tuple[str, ...] = (),
    unchecked: Iterable[str] = (),
) -> Verdict:
    """Return the verdict of several cases together: of every requirement the worst, left and right as one.

    Parameters
    ----------
    cases : iterable of tuple of Requirement
        What each equilibrium answers.
    judged, unjudged, unchecked
        As for :class:`Verdict`.

    Examples
    --------
    >>> merge_cases([], judged=(), unjudged=("lying", "sudden")).kind
    'open'
    """
    worst: dict[str, Requirement] = {}
    for each in sorted((found for case in cases for found in case), key=lambda found: found.rank):
        worst.setdefault(name_part(each.name), each)
    return Verdict(tuple(worst.values()), judged, unjudged, tuple(sorted(set(unchecked))))


def describe_failure(found: Requirement, *, case: bool = True) -> str:
    """Return what is wrong in a few words, with the load and the person where several were judged.

    Parameters
    ----------
    found : Requirement
        One that fails.
    case : bool
        Whether load and person are told.
    """
    return f"{found.words} ({found.case})" if case and found.case else found.words


def write_outcome(verdict: Verdict, findings: Findings | None = None) -> str:
    """Return in one to four sentences whether a design passes, and if not, why.

    Parameters
    ----------
    verdict : Verdict
        On one or several cases.
    findings : Findings or None
        Strength checks of the only case, which are then told in full; None of several.

    Examples
    --------
    >>> write_outcome(Verdict((), (), ("lying",), ()))
    'NOT CHECKED: the design describes no part that can be checked.'
    """
    total, failed = len(verdict.requirements), verdict.failed
    if not total:
        return "NOT CHECKED: the design describes no part that can be checked."
    if findings is not None:
        return _add_to_strength(verdict, findings)
    if failed:
        return " ".join([f"FAIL: {len(failed)} of {total} requirements.", *_list_failures(failed)])
    return f"PASS: {'all ' if total > 1 else ''}{total} requirements. {_write_highest(verdict)}".strip()


def write_unjudged(verdict: Verdict) -> str:
    """Return what is required and was not looked at, and the command that does; empty where nothing is left.

    Examples
    --------
    >>> write_unjudged(Verdict((), ("lying",), ("sudden",), ()))
    'NOT JUDGED: sudden. `tautlay judge` looks at all that is required.'
    """
    if not verdict.unjudged:
        return ""
    return f"NOT JUDGED: {', '.join(verdict.unjudged)}. `tautlay judge` looks at all that is required."


def _add_to_strength(verdict: Verdict, findings: Findings) -> str:
    """Return the sentences on strength, with everything else that is wrong: before them, where strength is enough."""
    strength = write_verdict(findings)
    others = [each for each in verdict.failed if each.topic is not Topic.STRENGTH]
    if not others:
        return strength
    words = "; ".join(each.words for each in others)
    if findings.failed:
        return f"{strength} Also: {words}."
    return f"FAIL: {words}. {strength.replace('PASS', 'Strength passes', 1)}"


def _list_failures(failed: tuple[Requirement, ...]) -> Iterator[str]:
    """Yield what is wrong, a sentence for each grade."""
    for grade, head in _HEADS.items():
        named = [each for each in failed if each.grade is grade]
        if named:
            more = f"; and {len(named) - _SHOWN} more" if len(named) > _SHOWN else ""
            yield f"{head}: {'; '.join(map(describe_failure, named[:_SHOWN]))}{more}."


def _write_highest(verdict: Verdict) -> str:
    """Return what is closest to its limit."""
    found = verdict.governing
    if found is None or not found.utilisation:
        return ""
    return f"Closest to its limit, {write_utilisation(1.0 / found.utilisation)} used: {found.name} ({found.case})."


def write_unasked(terms: JudgeTerms) -> str:
    """Return what a design need not stand, and which keys ask for it; empty where it stands all that is known.

    Examples
    --------
    >>> from tautlay.cases.judging.verdict.terms import NamedPerson
    >>> from tautlay.hammock import LoadCase, example_person
    >>> write_unasked(JudgeTerms((NamedPerson("", example_person()),), tuple(LoadCase)))
    'NOT ASKED FOR: lying on the side (judge.loads, person.lie). It may fail there.'
    """
    if not (unasked := terms.list_unasked()):
        return ""
    return f"NOT ASKED FOR: {', '.join(unasked)} (judge.loads, person.lie). It may fail there."
