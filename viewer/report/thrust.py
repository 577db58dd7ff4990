"""The thrust of a bar beside its capacity in each failure mode."""

from collections.abc import Sequence

import numpy as np
from markupsafe import Markup

from ...cases.judging.checks import CheckRecord
from ...cases.judging.checks.check import write_factor
from ..svg_path import trace_path
from .plot import BOTTOM, TOP, Axis, Frame, draw_path, draw_plot, draw_text
from .wording import mark_quantity

_ROW = 30.0  # height of a row
_BEYOND = 1.6  # times the capacity required: the axis ends there, and longer strips are cut


def draw_thrust(checks: Sequence[CheckRecord], part: str, thrust: float) -> tuple[Markup, Markup]:
    """Return drawing and words of the capacities of one bar.

    Parameters
    ----------
    checks : sequence of CheckRecord
        Of the bar.
    part : str
        ``head bar`` or ``foot bar``.
    thrust : float
        Demand, N.
    """
    rows = [check for check in checks if check.capacity.dimension == "force"]
    required = max((thrust * check.asked for check in rows), default=thrust)
    end = max(_BEYOND * required, 1.0)
    count = max(len(rows), 1)
    frame = Frame(
        Axis("force", "force", (0.0, end)), Axis("", "ratio", (-float(count), 0.0)), TOP + BOTTOM + _ROW * count
    )
    parts = [_draw_strip(frame, check, place, end) for place, check in enumerate(rows)]
    parts.append(draw_path(frame, np.array([[thrust, -count], [thrust, 0.0]]), "demand"))
    parts.append(draw_path(frame, np.array([[required, -count], [required, 0.0]]), "required"))
    for place, check in enumerate(rows):
        words = f"{check.mechanism}, factor {write_factor(check.factor)}"
        parts.append(draw_text(frame, (end / 60, -place - 0.62), words, "halo"))
    words = Markup(
        "Full line: thrust {}. Dashed: capacity required, {}. A strip with an arrow extends beyond the axis."
    ).format(mark_quantity(thrust, "force"), mark_quantity(required, "force"))
    return draw_plot(frame, f"{part.capitalize()} thrust beside its capacities", parts), words


def _draw_strip(frame: Frame, check: CheckRecord, place: int, end: float) -> Markup:
    """Draw a strip as long as the capacity in one failure mode."""
    capacity = check.capacity.value
    corners = np.array([[0.0, -place - 0.12], [min(capacity, end), -place - 0.88]])
    (left, top), (right, low) = frame.place(corners)
    tip = (low - top) / 3 if capacity > end else 0.0
    corners = np.array([[left, top], [right - tip, top], [right, (top + low) / 2], [right - tip, low], [left, low]])
    return Markup('<path class="strip" d="{}"/>').format(trace_path(corners, closed=True))
