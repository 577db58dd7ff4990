"""Sewing thread."""

from dataclasses import dataclass
from typing import ClassVar

from .home_test import break_loop
from .material import ListColumn, Material, quantity


@dataclass(frozen=True, repr=False)
class Thread(Material):
    """Sewing thread.

    Parameters
    ----------
    linear_mass : float
        kg/m.
    breaking_load : float
        Straight pull, N; in a loop of a stitch it is less.

    Examples
    --------
    >>> thread = Thread("demo", "bonded polyester", 70e-6, 44.5)
    >>> round(thread.breaking_load / thread.linear_mass * 1e-6, 2)  # N/tex
    0.64
    """

    category: ClassVar[str] = "thread"
    columns: ClassVar[tuple[ListColumn, ...]] = (
        ListColumn("linear_mass", "mass", "linear_mass"),
        ListColumn("breaking_load", "break", "force"),
    )
    called_by: ClassVar[tuple[tuple[str, str], ...]] = (("linear_mass", "linear_mass"), ("breaking_load", "force"))

    linear_mass: float = quantity("linear_mass", "thread linear mass")
    breaking_load: float = quantity("force", "thread breaking load", test=break_loop)
