"""Cloth beyond the soles of somebody who lies."""

from .hammock import Hammock
from .person import Person


def find_foot_room(hammock: Hammock, person: Person) -> float:
    """Return how much cloth lies beyond the soles, m: up to the foot bar, or where they lie beyond it up to the end.

    Negative where they reach beyond all cloth.

    Parameters
    ----------
    hammock : Hammock
        Its foot bar may be set in.
    person : Person
        Who lies in it.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock, example_person
    >>> round(find_foot_room(example_hammock(), example_person()), 3)  # m
    0.12
    """
    room = hammock.body.length - person.head_from_bar - person.stature
    return room if room >= 0.0 else room + hammock.foot_bar.set_in
