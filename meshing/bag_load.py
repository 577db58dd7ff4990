"""Bags of water on the cloth: dead weight, even over a patch that keeps its place on the cloth."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..hammock.arrays import FloatArray
from .hammock_model import HammockModel
from .person_load import GRAVITY, carry_weight

_STEP = 0.02  # between sample points, m, at most


@dataclass(frozen=True)
class Bag:
    """Bags that lie one on the other at one place.

    Parameters
    ----------
    along : float
        From the head bar to their middle, along the flat cloth, m; across they lie on its middle line.
    length, breadth : float
        What they cover, along and across the body, m.
    mass : float
        kg.
    """

    along: float
    length: float
    breadth: float
    mass: float


def put_bags(model: HammockModel, bags: Sequence[Bag]) -> HammockModel:
    """Return a hammock with bags on its cloth.

    Each weighs straight down, evenly over its patch, and stays at its place on the cloth: it does not slide, and is too
    soft to carry anything itself. Total and first moments are exact on any mesh.

    Parameters
    ----------
    model : HammockModel
        Whole, without bags.
    bags : sequence of Bag
        Where they lie.

    Raises
    ------
    ValueError
        For a bag that reaches beyond the cloth.

    Examples
    --------
    >>> from tautlay.hammock import example_hammock
    >>> from tautlay.meshing import build_model
    >>> empty = build_model(example_hammock(), None, 0.1)
    >>> loaded = put_bags(empty, [Bag(1.0, 0.25, 0.4, 20.0)])
    >>> float((loaded.structure.load - empty.structure.load).sum().round(4))
    -196.133
    """
    forces = np.zeros_like(model.start)
    for bag in bags:
        points = _sample(bag)
        weight = np.full(len(points), bag.mass * GRAVITY / len(points))
        forces[: len(model.mesh.points)] += carry_weight(model.mesh, points, weight)
    return replace(model, structure=model.structure.add_forces(forces))


def _sample(bag: Bag) -> FloatArray:
    """Return flat points (p, 2), even over what a bag covers."""
    sides = []
    for middle, size in ((bag.along, bag.length), (0.0, bag.breadth)):
        count = int(np.ceil(size / _STEP))
        sides.append(middle + size * ((np.arange(count) + 0.5) / count - 0.5))
    x, y = np.meshgrid(*sides, indexing="ij")
    return np.column_stack([x.ravel(), y.ravel()])
