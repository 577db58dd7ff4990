"""Cable nets that more than one verification test works on; arrays as the solver's elements take them."""

from typing import NamedTuple

import numpy as np

FOOT, POUND = 0.3048, 4.4482216152605  # m, N


class Net(NamedTuple):
    """Bars between nodes with dead loads; ``elongated`` is set where bars are pretensioned."""

    positions: np.ndarray  # (n, 3) m
    segments: np.ndarray  # (m, 2)
    ea: float  # N
    rest_length: np.ndarray  # (m,) m
    fixed: np.ndarray  # (n,) bool
    forces: np.ndarray  # (n, 3) N


def weave_hypar(cells, height, pretension, loads):
    """Return the net over [-2, 2]^2 on z = height (x^2 - y^2)/4, boundary held, L0 = l (1 - pretension).

    ``loads`` maps grid numbers (i, j), counted from the corner (-2, -2), to N downwards; ``"all"`` means
    every internal node. EA is 100 kN.
    """
    count = cells + 1
    grid = np.linspace(-2, 2, count)
    x, y = (axis.ravel() for axis in np.meshgrid(grid, grid, indexing="ij"))
    positions = np.stack([x, y, height * (x**2 - y**2) / 4], axis=1)
    number = np.arange(count * count).reshape(count, count)
    fixed = np.ones((count, count), dtype=bool)
    fixed[1:-1, 1:-1] = False
    along = np.stack([number[:-1, 1:-1].ravel(), number[1:, 1:-1].ravel()], axis=1)
    across = np.stack([number[1:-1, :-1].ravel(), number[1:-1, 1:].ravel()], axis=1)
    segments = np.concatenate([along, across])
    forces = np.zeros((count * count, 3))
    for key, load in loads.items():
        forces[number[1:-1, 1:-1].ravel() if key == "all" else number[key], 2] = -load
    length = np.linalg.norm(positions[segments[:, 1]] - positions[segments[:, 0]], axis=1)
    return Net(positions, segments, 1e5, length * (1 - pretension), fixed.ravel(), forces)


def build_saddle_net(load, weight):
    """Return the four-cable net of Jayaraman & Knudson (1981), after Saafan (1970); inputs from memory.

    Internal nodes (+-50, +-50, 0) ft, supports 30 ft above at (+-150, +-50) and (+-50, +-150) ft,
    A = 0.227 in2, E = 12 000 ksi, pretension 5.459 kip level and 5.325 kip inclined; ``load`` lbf down on
    each internal node and ``weight`` lbf/ft of the bars, halved to their ends.
    """
    signs = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
    inner = np.column_stack([50 * signs, np.zeros(4)])
    outer = np.concatenate(
        [
            np.column_stack([signs * [150, 50], np.full(4, 30)]),
            np.column_stack([signs * [50, 150], np.full(4, 30)]),
        ]
    )
    positions = np.concatenate([inner, outer]) * FOOT
    ring = [(0, 1), (1, 2), (2, 3), (3, 0)]
    segments = np.array(ring + [(k, 4 + k) for k in range(4)] + [(k, 8 + k) for k in range(4)])
    ea = 12e6 * POUND / 0.0254**2 * 0.227 * 0.0254**2
    length = np.linalg.norm(positions[segments[:, 1]] - positions[segments[:, 0]], axis=1)
    rest = length / (1 + np.where(np.arange(12) < 4, 5459.0, 5325.0) * POUND / ea)
    forces = np.zeros((12, 3))
    forces[:4, 2] = -load * POUND
    np.add.at(forces[:, 2], segments, -(weight * POUND / FOOT * rest / 2)[:, None])
    return Net(positions, segments, ea, rest, np.arange(12) >= 4, forces)
