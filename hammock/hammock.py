"""A bridge hammock as a maker describes it, in SI units: lengths m, masses kg, angles rad.

Frozen records with what follows from them at once. ``cases`` fills them from a design file, ``outline``
turns them into a flat pattern and ``build_model`` into a structure that can be solved.
"""

from dataclasses import dataclass, field
from enum import StrEnum
from math import sin
from typing import NamedTuple

from ..making import BarBuild, BarPart, build_column
from ..materials import Cord, Fabric, RodSection, Tube
from ..materials.short_repr import write_repr, write_value
from .extension import Extension
from .suspension import EndSuspension, Suspension

_STRAIGHT = 1e-12  # of a sine: rounding


class ArcShape(StrEnum):
    """Curve to which a long side of the body is cut."""

    PARABOLA = "parabola"
    CIRCLE = "circle"
    CATENARY = "catenary"


class Attachment(StrEnum):
    """How the side cord is attached in its channel between the corners."""

    SEWN = "sewn"  # every point of the edge keeps its point of the cord
    FREE = "free"  # the cord slides in the channel; the corners are anchored
    LOCKED = "locked"  # sewn over a lock length at each corner, sliding between


@dataclass(frozen=True)
class Arc:
    """Cut of one long side.

    Parameters
    ----------
    depth : float
        Largest distance, measured across the body, from the straight line corner to corner
        inward to the edge, m; zero is a straight edge.
    shape : ArcShape
        Curve through both corners with that depth at mid-length.
    """

    depth: float
    shape: ArcShape = ArcShape.PARABOLA


@dataclass(frozen=True)
class Body:
    """The load-bearing cloth between the two spreader bars, lying flat.

    Parameters
    ----------
    length : float
        From head bar to foot bar along the flat cloth, m.
    head_width, foot_width : float
        Fabric width under the head and under the foot bar, finished edge to finished edge, m.
    left_arc, right_arc : Arc
        Cut of the two long sides (left is the person's left when lying on the back).
    fabric : Fabric
        Cloth of one layer.
    layers : int
        Number of layers sharing the load.
    grain : float
        Angle from the body's length to the warp, rad, towards the occupant's left.
    """

    length: float
    head_width: float
    foot_width: float
    left_arc: Arc
    right_arc: Arc
    fabric: Fabric
    layers: int = 1
    grain: float = 0.0

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.length, 'length')} long",
            f"{write_value(self.head_width, 'length')} and {write_value(self.foot_width, 'length')} wide",
            f"arcs {write_value(self.left_arc.depth, 'length')} and {write_value(self.right_arc.depth, 'length')}",
            self.fabric.name,
        )

    @property
    def is_even(self) -> bool:
        """Whether the left half mirrors the right: like arcs, and the grain along or across."""
        return self.left_arc == self.right_arc and abs(sin(2 * self.grain)) < _STRAIGHT


@dataclass(frozen=True)
class Channel:
    """Sewn fold along a long side and the cord in it.

    Parameters
    ----------
    cord : Cord
        Side cord.
    attachment : Attachment
        How the cloth is attached to the cord.
    lock_length : float
        Length sewn at each corner, m, along the edge; used by ``Attachment.LOCKED`` only.
    cord_length : float or None
        Unstretched cord from corner to corner, m; None is the length of the cut edge.
    """

    cord: Cord
    attachment: Attachment = Attachment.SEWN
    lock_length: float = 0.0
    cord_length: float | None = None

    def __repr__(self) -> str:
        return write_repr(self, self.cord.name, str(self.attachment))


@dataclass(frozen=True)
class Bar:
    """Spreader bar across one end.

    Parameters
    ----------
    length : float
        From cord to cord, m.
    section : Tube, RodSection or tuple of BarPart
        One section over the whole length, or the parts from left to right, which together are as long.
    set_in : float
        Length of the cloth extension beyond the bar, m, in the middle of the plane of the legs; zero is a bar at the
        very end. The sides of the extension slide on the legs, its far corners are held on them.
    bow, eccentricity : float or None
        See :class:`~tautlay.making.BarBuild`, m.
    extension : Extension
        How the cloth beyond a bar that is set in is made.
    """

    length: float
    section: Tube | RodSection | tuple[BarPart, ...]
    set_in: float = 0.0
    bow: float | None = None
    eccentricity: float | None = None
    extension: Extension = field(default_factory=Extension)

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"{write_value(self.length, 'length')} long",
            *(part.section.name for part in self.build.parts),
            f"set in {write_value(self.set_in, 'length')}" if self.set_in else "",
        )

    @property
    def is_estimated(self) -> bool:
        """Whether there is cloth beyond it that is cut to an estimated line instead of a solved one."""
        return self.set_in > 0.0 and self.extension.line is None

    @property
    def build(self) -> BarBuild:
        """The bar as it is assembled."""
        parts = self.section if isinstance(self.section, tuple) else (BarPart(self.section, self.length),)
        return BarBuild(parts, self.bow, self.eccentricity)

    @property
    def ea(self) -> float:
        """Axial stiffness, N; of several parts that of a uniform bar which is shortened as much."""
        if not isinstance(self.section, tuple):
            return self.section.ea
        return build_column(self.build, bow=0.0, eccentricity=0.0).axial_stiffness


@dataclass(frozen=True)
class Hammock:
    """Everything that is sewn, spread and hung."""

    body: Body
    channel: Channel
    head_bar: Bar
    foot_bar: Bar
    suspension: Suspension

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"body {write_value(self.body.length, 'length')} of {self.body.fabric.name}",
            f"bars {' and '.join(write_value(end.bar.length, 'length') for end in self.ends)}",
            f"side cords {self.channel.cord.name}",
        )

    @property
    def ends(self) -> "tuple[HammockEnd, HammockEnd]":
        """Head and foot end."""
        return (
            HammockEnd("head", self.head_bar, self.body.head_width, self.suspension.head),
            HammockEnd("foot", self.foot_bar, self.body.foot_width, self.suspension.foot),
        )

    @property
    def is_estimated(self) -> bool:
        """Whether there is cloth beyond a bar that is cut to an estimated line instead of a solved one."""
        return self.head_bar.is_estimated or self.foot_bar.is_estimated


class HammockEnd(NamedTuple):
    """What belongs to one end: its name, bar, fabric width under the bar, m, and suspension."""

    name: str
    bar: Bar
    width: float
    suspension: EndSuspension

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.name,
            f"bar {write_value(self.bar.length, 'length')}",
            f"cloth {write_value(self.width, 'length')} wide",
            f"legs {write_value(self.suspension.leg_length, 'length')}",
        )

    @property
    def leg_length(self) -> float:
        """Unstretched cord from corner to apex, m."""
        return self.suspension.leg_length
