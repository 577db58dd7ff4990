"""A made-up loaded hammock, so that files and pictures can be tested without solving anything."""

import numpy as np
import pytest

from tautlay.cases.shape import Part, Shape

HALF_LENGTH, HEAD_BAR, FOOT_BAR, APEX_REACH, TREE_REACH = 1.0, 0.90, 0.70, 0.55, 2.4


def make_cloth(rows, columns):
    """Return points and triangles of a trough, 0.45 m above the ground at its lowest."""
    u, v = np.meshgrid(np.linspace(-1, 1, rows + 1), np.linspace(-1, 1, columns + 1), indexing="ij")
    half_bar = (HEAD_BAR + (FOOT_BAR - HEAD_BAR) * (u + 1) / 2) / 2
    y = v * half_bar * (1 - 0.12 * (1 - u**2))
    z = 0.45 + 0.42 * u**2 + 0.22 * v**2 * (1 - 0.8 * u**4) + 0.03 * np.sin(9 * u) * (1 - v**2) * np.abs(u) ** 3
    points = np.stack([u * HALF_LENGTH, y, z], -1).reshape(-1, 3)
    corner = np.arange(len(points)).reshape(rows + 1, columns + 1)
    a, b, c, d = (corner[:-1, :-1].ravel(), corner[1:, :-1].ravel(), corner[1:, 1:].ravel(), corner[:-1, 1:].ravel())
    return points, np.concatenate([np.stack([a, b, c], 1), np.stack([a, c, d], 1)]), corner


def make_saddle(rows=60, columns=36):
    """Return a :class:`Shape` with invented forces of a plausible size."""
    points, triangles, corner = make_cloth(rows, columns)
    count = len(points)
    top = points[corner[0, 0], 2]
    ends = np.array(
        [
            [-HALF_LENGTH - APEX_REACH, 0, top + 0.28],
            [HALF_LENGTH + APEX_REACH, 0, top + 0.28],
            [-TREE_REACH, 0, top + 0.72],
            [TREE_REACH, 0, top + 0.72],
        ]
    )
    head_apex, foot_apex, head_tree, foot_tree = range(count, count + 4)
    left, right = corner[:, -1], corner[:, 0]
    pieces = [
        (Part.LEFT_SIDE_CORD, np.stack([left[:-1], left[1:]], 1), np.linspace(330, 268, rows)),
        (Part.RIGHT_SIDE_CORD, np.stack([right[:-1], right[1:]], 1), np.linspace(331, 269, rows)),
        (Part.HEAD_LEFT_LEG, [[left[0], head_apex]], [402.0]),
        (Part.HEAD_RIGHT_LEG, [[right[0], head_apex]], [401.0]),
        (Part.FOOT_LEFT_LEG, [[left[-1], foot_apex]], [351.0]),
        (Part.FOOT_RIGHT_LEG, [[right[-1], foot_apex]], [352.0]),
        (Part.HEAD_LINE, [[head_apex, head_tree]], [705.0]),
        (Part.FOOT_LINE, [[foot_apex, foot_tree]], [640.0]),
        (Part.HEAD_BAR, [[left[0], right[0]]], [-441.0]),
        (Part.FOOT_BAR, [[left[-1], right[-1]]], [-287.0]),
    ]
    middle = points[triangles].mean(1)
    across = np.abs(middle[:, 1]) / 0.4
    stress = np.clip(900 * np.abs(middle[:, 0]) ** 2 * (1.1 - across) + 250 * across, 0, None)
    state = np.where(np.abs(middle[:, 0]) > 0.72, 1, 2)
    state[(np.abs(middle[:, 0]) > 0.8) & (across > 0.55)] = 0
    stress[state == 0] = 0.0
    direction = np.tile([0.8, 0.6, 0.0], (len(triangles), 1))
    return Shape(
        np.vstack([points, ends]),
        triangles,
        stress,
        np.where(state == 2, 0.3 * stress, 0.0),
        direction,
        state,
        np.concatenate([np.asarray(piece) for _, piece, _ in pieces]),
        np.concatenate([np.full(len(force), int(part)) for part, _, force in pieces]),
        np.concatenate([np.asarray(force, float) for _, _, force in pieces]),
    )


@pytest.fixture(scope="session")
def saddle():
    return make_saddle()
