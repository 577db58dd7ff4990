"""First positions of all nodes, close enough to the loaded shape for the solver to start from."""

import numpy as np

from ..hammock.arrays import FloatArray
from ..hammock.cross_section import find_opening
from ..hammock.hammock import Hammock
from ..hammock.side_view import Hang
from .grid import Mesh


def drape_cloth(hammock: Hammock, mesh: Mesh, hang: Hang) -> FloatArray:
    """Return where the nodes of the cloth first stand (n, 3), m; x = 0 half-way between the trees.

    Lengthwise the cloth follows the arc of the side view without stretch, so that the side cords, longer
    where the edge is cut deeper, are a little slack. Across it hangs straight down as a circular arc of
    the cloth's own width, with the ratio of chord to arc of the bars at the ends and a straight mix of
    both between them.
    """
    body = hammock.body
    x = mesh.stations
    at_bars = np.array([hammock.head_bar.length / body.head_width, hammock.foot_bar.length / body.foot_width])
    opening = find_opening(np.interp(x, [0.0, body.length], at_bars))
    radius = mesh.outline.width(x) / (2 * opening)
    turn = opening[:, None] * mesh.levels
    along, height = hang.trace_body(x)
    positions = np.empty((len(x), len(mesh.levels), 3))
    positions[:, :, 0] = along[:, None]
    positions[:, :, 1] = mesh.outline.middle(x)[:, None] + radius[:, None] * np.sin(turn)
    positions[:, :, 2] = height[:, None] - radius[:, None] * (np.cos(turn) - np.cos(opening)[:, None])
    return positions.reshape(-1, 3)


def place_suspension(hammock: Hammock, hang: Hang) -> FloatArray:
    """Return where head apex, foot apex, head tree and foot tree stand (4, 3), m."""
    lines = (hammock.suspension.head.line_length, hammock.suspension.foot.line_length)
    rows = [hang.trace_rope(head=head, distance=line) for head, line in zip((True, False), lines, strict=True)]
    rows += [hang.trace_rope(head=head, distance=0.0) for head in (True, False)]
    return np.array([[x, 0.0, z] for x, z in rows])
