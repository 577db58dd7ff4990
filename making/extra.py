"""Things that weigh and carry nothing that is computed: rings, bags, ridge lines."""

from dataclasses import dataclass

from .group import Group


@dataclass(frozen=True)
class Extra:
    """Something on the scales.

    Parameters
    ----------
    name : str
        What it is.
    mass : float
        Of one, kg.
    group : Group
        Where it counts.
    count : int
        How many.
    carried : bool
        Whether it is carried anyway.

    Examples
    --------
    >>> round(Extra("apex ring", 0.009, Group.SUSPENSION, 2).whole * 1e3)
    18
    """

    name: str
    mass: float
    group: Group
    count: int = 1
    carried: bool = False

    @property
    def whole(self) -> float:
        """Mass of all of them, kg."""
        return self.count * self.mass
