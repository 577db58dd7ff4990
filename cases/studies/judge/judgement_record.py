"""A judgement as it is written to a file."""

from collections.abc import Mapping
from dataclasses import dataclass

from ...judging.verdict.requirement import Requirement
from ...judging.verdict.verdict import write_outcome
from ...record import Kilograms, Metres, Record
from .judgement import Judgement


@dataclass(frozen=True, repr=False)
class JudgedDesign(Record):
    """Which design was judged: its name and its file."""

    name: str
    file: str


@dataclass(frozen=True, repr=False)
class JudgedPerson(Record):
    """For whom: a name, empty for the only one, stature, m, and mass, kg."""

    name: str
    stature: Metres
    mass: Kilograms


@dataclass(frozen=True, repr=False)
class JudgementRecord(Record):
    """A judgement in plain numbers and words.

    Parameters
    ----------
    design : JudgedDesign
        What was judged.
    verdict : str
        In one to four sentences.
    passed : bool
        Whether everything required was looked at and is met.
    mesh_size : float
        Edge of a triangle in the middle of the cloth, m.
    people : tuple of JudgedPerson
        For whom.
    requirements, judged, unjudged, unchecked
        As in :class:`~tautlay.cases.judging.verdict.verdict.Verdict`.
    no_equilibrium : mapping of str to str
        Why there is none, by case.
    """

    design: JudgedDesign
    verdict: str
    passed: bool
    mesh_size: Metres
    people: tuple[JudgedPerson, ...]
    requirements: tuple[Requirement, ...]
    judged: tuple[str, ...]
    unjudged: tuple[str, ...]
    unchecked: tuple[str, ...]
    no_equilibrium: Mapping[str, str]


def record_judgement(found: Judgement) -> JudgementRecord:
    """Return a judgement in plain numbers and words.

    Parameters
    ----------
    found : Judgement
        From :func:`~tautlay.cases.studies.judge.judgement.judge_design`.
    """
    design, verdict = found.design, found.verdict
    return JudgementRecord(
        JudgedDesign(design.name, design.file_name),
        write_outcome(verdict),
        verdict.passed,
        design.mesh_size,
        tuple(JudgedPerson(who.name, who.person.stature, who.person.mass) for who in design.terms.people),
        verdict.requirements,
        verdict.judged,
        verdict.unjudged,
        verdict.unchecked,
        {each.case.title: each.reason for each in found.cases if each.result is None},
    )
