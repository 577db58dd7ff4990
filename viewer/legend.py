"""What explains a picture: the scale of colours and the key of marks."""

from typing import Any

from ..cases.reading import Units, show_quantity
from .cloth import COLOUR_MAP, SLACK_COLOUR
from .extension import EXTENSION_COLOUR
from .person import FLESH_COLOUR, FLESH_RIM
from .view import BAR_COLOUR, CORD_COLOUR, INCH

POUND_PER_INCH = 4.4482216152605 / INCH  # N/m, NIST SP 811


def draw_scale(figure: Any, stress_end: float, stress_most: float, units: Units) -> None:  # noqa: ANN401
    """Draw the scale of colours and say its limits, so that two pictures can be compared.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    stress_end, stress_most : float
        Top of the scale and largest line stress, N/m.
    units : {"metric", "imperial", "both"}
        Of the words.
    """
    from matplotlib.cm import ScalarMappable
    from matplotlib.colors import Normalize
    from matplotlib.ticker import MaxNLocator

    figure.text(0.845, 0.925, "larger line stress", fontsize=9, va="center")
    limits = "colours from 0\nto " + _show_stress(stress_end, units)
    figure.text(0.845, 0.898, limits, fontsize=7, va="center", color="0.3")
    bar = figure.colorbar(
        ScalarMappable(Normalize(0.0, stress_end), COLOUR_MAP),
        cax=figure.add_axes((0.85, 0.63, 0.018, 0.235)),
        extend="max",
    )
    unit = find_unit(units)
    ticks = [unit * tick for tick in MaxNLocator(5).tick_values(0.0, stress_end / unit) if unit * tick <= stress_end]
    bar.set_ticks(ticks, labels=[_show_stress(float(tick), units) for tick in ticks])
    bar.ax.tick_params(labelsize=7)
    figure.text(0.845, 0.60, f"largest {_show_stress(stress_most, units)}", fontsize=8, va="center")


def find_unit(units: Units) -> float:
    """Return in which unit of line stress the marks of the scale are round, N/m.

    Parameters
    ----------
    units : {"metric", "imperial", "both"}
        Of the words; with both it is N/m.

    Examples
    --------
    >>> round(find_unit("imperial"), 3)
    175.127
    """
    return POUND_PER_INCH if units == "imperial" else 1.0


def _show_stress(stress: float, units: Units) -> str:
    """Return a line stress; N/m throughout, so that the marks of one scale compare at a glance."""
    metric, imperial = f"{stress:.0f} N/m", show_quantity(stress, "line_load", "imperial", digits=2)
    return {"metric": metric, "imperial": imperial, "both": f"{metric} ({imperial})"}[units]


def draw_key(figure: Any, *, extensions: bool, person: bool) -> None:  # noqa: ANN401
    """Explain marks, cords and bars.

    Parameters
    ----------
    figure : matplotlib Figure
        The sheet.
    extensions : bool
        Whether there is cloth beyond a bar.
    person : bool
        Whether there is a person in contact.
    """
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    key: dict[str, Any] = {
        "taut (no mark)": Patch(facecolor="#31688e", edgecolor="none"),
        "wrinkled, stroke\nalong the wrinkles": Line2D(
            [], [], color="0.15", marker=(2, 0, 60), markersize=9, ls="none"
        ),
        "slack, on grey": (
            Patch(facecolor=SLACK_COLOUR, edgecolor="none"),
            Line2D([], [], color="0.1", marker="D", markersize=3.5, ls="none"),
        ),
        "cord, thicker\nfor more tension": Line2D([], [], color=CORD_COLOUR, linewidth=2.2),
        "spreader bar": Line2D([], [], color=BAR_COLOUR, linewidth=4.0),
    }
    if extensions:
        key["cloth beyond a bar,\ncarries nothing"] = Patch(facecolor=EXTENSION_COLOUR, edgecolor="0.45")
    if person:
        key["person, paler\nbehind cloth"] = Patch(facecolor=FLESH_COLOUR, edgecolor=FLESH_RIM)
    figure.legend(
        key.values(), key.keys(), loc="upper left", bbox_to_anchor=(0.835, 0.585), fontsize=7.5, frameon=False
    )
