"""What a design has to stand: the load cases, the people, and the limits of its maker."""

from dataclasses import dataclass
from typing import NamedTuple

from ....hammock.load_case import DESIGN_LOADS, LoadCase
from ....hammock.person import Person
from ....materials.short_repr import write_repr
from .limit import USUAL_LIMITS, Limit


class NamedPerson(NamedTuple):
    """A person, and the name in a report; empty for the only one."""

    name: str
    person: Person

    def __repr__(self) -> str:
        return write_repr(self, self.name, repr(self.person))


class JudgedCase(NamedTuple):
    """One person under one load: one equilibrium to be judged."""

    who: NamedPerson
    load: LoadCase

    def __repr__(self) -> str:
        return write_repr(self, self.title)

    @property
    def title(self) -> str:
        """Load and, where there are several, the person: ``sudden, tall guest``."""
        return ", ".join(filter(None, (str(self.load), self.who.name)))


@dataclass(frozen=True)
class JudgeTerms:
    """What a design has to stand.

    Parameters
    ----------
    people : tuple of NamedPerson
        Everybody who is to sleep in it; the first is the person of a solve.
    loads : tuple of LoadCase
        Under which each of them must be held.
    limits : tuple of Limit
        What lying well, and hanging and weighing, means to the maker; those that are usual where nothing else is set.

    Examples
    --------
    >>> from tautlay.hammock import example_person
    >>> JudgeTerms((NamedPerson("", example_person()),)).loads[0].value
    'lying'
    """

    people: tuple[NamedPerson, ...]
    loads: tuple[LoadCase, ...] = DESIGN_LOADS
    limits: tuple[Limit, ...] = USUAL_LIMITS

    def list_cases(self, loads: tuple[LoadCase, ...] | None = None) -> tuple[JudgedCase, ...]:
        """Return each person under each load, in the order in which they are solved.

        A load that only lies on the cloth comes first: it is quick, and its shape is a start for a person in contact.

        Parameters
        ----------
        loads : tuple of LoadCase or None
            Instead of those of the terms.
        """
        asked = sorted(dict.fromkeys(self.loads if loads is None else loads), key=lambda load: load.in_contact)
        return tuple(JudgedCase(who, load) for who in self.people for load in asked)

    def list_unjudged(self, judged: tuple[JudgedCase, ...]) -> tuple[str, ...]:
        """Return what is not among some cases: loads, where no person was judged under them; else load and person."""
        return self.name_cases(tuple(case for case in self.list_cases() if case not in judged))

    def list_unasked(self) -> tuple[str, ...]:
        """Return in what ways hammocks are used that a design need not stand as its terms are.

        Whoever gets in sits across first, and few lie on their back all night; either may pull harder on a channel.

        Examples
        --------
        >>> from tautlay.hammock import example_person
        >>> JudgeTerms((NamedPerson("", example_person()),)).list_unasked()
        ('lying on the side',)
        """
        sits, turns = LoadCase.SITTING in self.loads, any(who.person.posture.on_side for who in self.people)
        return (*(() if sits else (LoadCase.SITTING.words,)), *(() if turns else ("lying on the side",)))

    def name_cases(self, cases: tuple[JudgedCase, ...]) -> tuple[str, ...]:
        """Return cases in words, a load alone where all people are in them."""
        found: dict[str, None] = {}
        for case in cases:
            alike = [other for other in cases if other.load is case.load]
            found[str(case.load) if len(alike) == len(self.people) else case.title] = None
        return tuple(found)
