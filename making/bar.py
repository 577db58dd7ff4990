"""A spreader bar as it is assembled: sections from left to right, one pushed into the other."""

from dataclasses import dataclass, replace
from enum import StrEnum
from typing import NamedTuple

from ..materials import RodSection, Tube
from ..materials.short_repr import write_repr, write_value


class ThrustPath(StrEnum):
    """What the thrust goes through where a part joins the one before it."""

    PLUG = "plug"  # the end of the inner part rests on a plug, a pin or a step inside the outer one
    RIM = "rim"  # a shoulder or collar of the inner part rests on the rim of the outer one
    LOCK = "lock"  # nothing but friction: a twist or lever lock, a tight fit, a glued fit


@dataclass(frozen=True)
class BarPart:
    """One section of a bar.

    Parameters
    ----------
    section : Tube or RodSection
        What it is made of; of a tapered part at its left end.
    length : float
        From end to end, what lies inside another part included, m.
    overlap : float
        Length inside or over the part before it, m.
    name : str
        The maker's name for it, such as ``pole``; empty is ``tube`` or ``rod``.
    taper_to : float or None
        Outer diameter at the right end, m; the wall stays. None is a part that does not taper.
    play : float or None
        How much narrower the inner part is than the bore where it joins the part before, m; 0 is a snug fit. None
        is the difference of the diameters.
    joint_stiffness : float or None
        Of the joint with the part before against turning, N m/rad; None is a rigid one.
    rests_on : ThrustPath or None
        What the thrust goes through there; None is not given.
    holding_force : float or None
        Thrust that pole lock, plug or collar holds, N, from a test or a certificate; None is not given.
    carried : bool
        Whether it is dual-use, as a walking pole is.
    weighed : float or None
        Weighed mass, kg, with grip, lock and tip; None is computed.

    Examples
    --------
    >>> pole = Tube("demo", "aluminium", 0.018, 0.001, 71.7e9, 2800.0, 455e6)
    >>> BarPart(pole, 0.8, taper_to=0.014).cut(0.5).outer_diameter
    0.016
    """

    section: Tube | RodSection
    length: float
    overlap: float = 0.0
    name: str = ""
    taper_to: float | None = None
    play: float | None = None
    joint_stiffness: float | None = None
    rests_on: ThrustPath | None = None
    holding_force: float | None = None
    carried: bool = False
    weighed: float | None = None

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.name,
            self.section.name,
            f"{write_value(self.length, 'length')} long",
            "carried anyway" if self.carried else "",
        )

    @property
    def noun(self) -> str:
        """Its name."""
        return self.name or self.section.category

    @property
    def mass(self) -> float:
        """Mass, kg; exact for a wall or a diameter that changes evenly."""
        if self.weighed is not None:
            return self.weighed
        if self.taper_to is None:
            return self.section.linear_mass * self.length
        ends, middle = self.cut(0.0).linear_mass + self.cut(1.0).linear_mass, self.cut(0.5).linear_mass
        return (ends + 4 * middle) / 6 * self.length

    def cut(self, share: float) -> Tube | RodSection:
        """Return the section at a share of the length from the left end."""
        if self.taper_to is None:
            return self.section
        if isinstance(self.section, RodSection):
            return replace(self.section, diameter=_between(self.section.diameter, self.taper_to, share))
        return replace(self.section, outer_diameter=_between(self.section.outer_diameter, self.taper_to, share))


def _between(start: float, end: float, share: float) -> float:
    """Return a value between two others."""
    return start + (end - start) * share


def find_outer(section: Tube | RodSection) -> float:
    """Return the outer diameter of a section, m."""
    return section.diameter if isinstance(section, RodSection) else section.outer_diameter


class BarJoint(NamedTuple):
    """Where a part joins the one before it.

    Parameters
    ----------
    inner, outer : int
        Parts, counted from 0; where they only meet end to end, the thinner one counts as the inner.
    start, end : float
        The overlap, from the left end of the bar, m.
    play : float
        How much narrower the inner part is than the bore, m; 0 without an overlap.
    clearance : float
        The same by the diameters alone, at the tightest place, m; below 0 it does not fit.
    """

    inner: int
    outer: int
    start: float
    end: float
    play: float
    clearance: float

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"parts {self.inner} in {self.outer}",
            f"from {write_value(self.start, 'length')} to {write_value(self.end, 'length')}",
            f"play {write_value(self.play, 'length')}",
        )

    @property
    def kink(self) -> float:
        """Angle by which one part can lean in the other, rad."""
        return self.play / (self.end - self.start) if self.end > self.start else 0.0


@dataclass(frozen=True)
class BarBuild:
    """A spreader bar as it is assembled.

    Parameters
    ----------
    parts : tuple of BarPart
        From left to right.
    bow : float or None
        How far the middle is out of line before it is loaded, m; None takes a share of the length.
    eccentricity : float or None
        How far beside the axis the cords push at both tips, m; None takes a share of the diameter.

    Examples
    --------
    >>> pole = Tube("demo pole", "aluminium", 0.018, 0.001, 71.7e9, 2800.0, 455e6)
    >>> rod = RodSection("demo rod", "yellow birch", 0.0155, 13.86e9, 694.0, 39.4e6)
    >>> bar = BarBuild((BarPart(pole, 0.84), BarPart(rod, 0.12, overlap=0.06)))
    >>> round(bar.length, 3), round(bar.mass * 1e3), round(bar.joints[0].play * 1e3, 2)
    (0.9, 141, 0.5)
    """

    parts: tuple[BarPart, ...]
    bow: float | None = None
    eccentricity: float | None = None

    def __repr__(self) -> str:
        return write_repr(self, *(f"{part.section.name} {write_value(part.length, 'length')}" for part in self.parts))

    @property
    def starts(self) -> tuple[float, ...]:
        """Left end of each part, from the left end of the bar, m."""
        found = [0.0]
        for part, following in zip(self.parts, self.parts[1:], strict=False):
            found.append(found[-1] + part.length - following.overlap)
        return tuple(found)

    @property
    def length(self) -> float:
        """Overall length, m."""
        return self.starts[-1] + self.parts[-1].length

    @property
    def mass(self) -> float:
        """Mass of all parts, kg."""
        return sum(part.mass for part in self.parts)

    @property
    def carried_mass(self) -> float:
        """Mass of the dual-use parts, kg."""
        return sum((part.mass for part in self.parts if part.carried), 0.0)

    @property
    def joints(self) -> tuple[BarJoint, ...]:
        """Joint of every part but the first with the part before it."""
        starts = self.starts
        return tuple(self._join(place, starts[place]) for place in range(1, len(self.parts)))

    def _join(self, place: int, start: float) -> BarJoint:
        """Return the joint of a part with the one before it."""
        left, right = self.parts[place - 1], self.parts[place]
        end = start + right.overlap
        pairs = [
            (left.cut(1.0 - right.overlap / left.length), right.cut(0.0)),
            (left.cut(1.0), right.cut(right.overlap / right.length)),
        ]
        left_inside = sum(find_outer(a) - find_outer(b) for a, b in pairs) < 0
        clearance = min(_find_bore(b if left_inside else a) - find_outer(a if left_inside else b) for a, b in pairs)
        inner, outer = (place - 1, place) if left_inside else (place, place - 1)
        if right.overlap == 0.0:
            return BarJoint(inner, outer, start, start, 0.0, clearance)
        return BarJoint(inner, outer, start, end, max(clearance, 0.0) if right.play is None else right.play, clearance)


def _find_bore(section: Tube | RodSection) -> float:
    """Return the bore, m; a rod has none."""
    return section.inner_diameter if isinstance(section, Tube) else 0.0
