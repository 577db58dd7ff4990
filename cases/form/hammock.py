"""The hammock and the person that a valid form of a design file describes, and the materials it names."""

from collections.abc import Mapping
from typing import TypeVar

from ...hammock.body_size import find_percentile
from ...hammock.hammock import Arc, Body, Channel, Hammock, Suspension
from ...hammock.person import Person, Posture
from ...materials import Material
from .bar import BarTable, build_bar, build_section
from .body import ArcTable
from .person import PersonTable
from .schema import DesignForm
from .trees import build_trees

_T = TypeVar("_T")


def build_hammock(form: DesignForm) -> Hammock:
    """Return the hammock a valid form describes.

    Parameters
    ----------
    form : DesignForm
        Without conflicts.

    Returns
    -------
    Hammock
        In SI.
    """
    channel = form.channel
    return Hammock(
        _build_body(form),
        Channel(channel.cord, channel.attachment, channel.lock_length or 0.0, channel.cord_length),
        build_bar(form.head_bar),
        build_bar(form.foot_bar),
        _build_suspension(form),
    )


def list_sources(form: DesignForm) -> Mapping[str, Material]:
    """Return the materials used by the key that names them.

    Parameters
    ----------
    form : DesignForm
        A valid form.

    Returns
    -------
    mapping of str to Material
        Under dotted keys, such as ``body.fabric``.
    """
    fold, lock = form.channel.fold, form.channel.lock
    strap = {"trees.strap": form.trees.strap} if form.trees and form.trees.strap else {}
    plate = {"corner.plate": form.corner.plate} if form.corner and form.corner.plate else {}
    return {
        **strap,
        **plate,
        "body.fabric": form.body.fabric,
        **({"body.hem.thread": form.body.hem.thread} if form.body.hem else {}),
        "channel.cord": form.channel.cord,
        **_list_sections("head_bar", form.head_bar),
        **_list_sections("foot_bar", form.foot_bar),
        **({"channel.fold.thread": fold.thread} if fold else {}),
        **({"channel.fold.strip": fold.strip} if fold and fold.strip else {}),
        **({"channel.lock.thread": lock.thread} if lock else {}),
        "suspension.leg": form.suspension.leg,
        "suspension.line": form.suspension.line,
    }


def _list_sections(name: str, table: BarTable) -> dict[str, Material]:
    """Return the sections of a bar by the key that names them; parts are counted from 1."""
    if table.section is not None:
        return {f"{name}.section": table.section}
    return {f"{name}.part.{place}": build_section(part) for place, part in enumerate(table.part, 1)}


def _build_body(form: DesignForm) -> Body:
    """Return the cloth; one arc serves both sides."""
    body = form.body
    return Body(
        body.length,
        body.head_width,
        body.foot_width,
        _build_arc(body.left_arc or body.arc),
        _build_arc(body.right_arc or body.arc),
        body.fabric,
        body.layers,
        body.grain,
    )


def _build_arc(table: ArcTable | None) -> Arc:
    """Return the cut of a side."""
    return Arc(_require(table).depth, _require(table).shape)


def _build_suspension(form: DesignForm) -> Suspension:
    """Return legs and lines; one length or height serves both ends."""
    table = form.suspension
    return Suspension(
        head_leg_length=_require(table.head_leg_length or table.leg_length),
        foot_leg_length=_require(table.foot_leg_length or table.leg_length),
        leg=table.leg,
        line_length=table.line_length,
        line=table.line,
        head_strap_height=_require(table.head_strap_height or table.strap_height),
        foot_strap_height=_require(table.foot_strap_height or table.strap_height),
        hang_angle=table.hang_angle,
        tree_distance=table.tree_distance,
        trees=build_trees(form.trees),
    )


def _require(value: _T | None) -> _T:
    """Return a value that ``find_disagreements`` has ensured to be there."""
    assert value is not None
    return value


def build_person(table: PersonTable) -> Person:
    """Return the person, by percentile or by stature and mass."""
    if table.who is not None:
        sex, percentile = table.who
        stature, mass = find_percentile(sex, percentile)
    else:
        sex, stature, mass = _require(table.sex), _require(table.stature), _require(table.mass)
    posture = Posture(table.lie, table.arms, table.knee_pad, table.offset, table.pillow)
    return Person(stature, mass, sex, table.head_from_bar, posture, table.friction)
