"""The hammock and the person that a valid form of a design file describes, and the materials it names."""

from collections.abc import Mapping
from math import pi
from typing import TypeVar

from ...hammock.body_size import find_percentile
from ...hammock.hammock import Arc, Body, Channel, Hammock
from ...hammock.person import Person, Posture
from ...hammock.suspension import EndSuspension, Suspension
from ...making import Slings, Tree, TreeStrap
from ...materials import Material
from .bar import BarTable, build_bar, build_section
from .body import ArcTable
from .end_fields import (
    ENDS,
    GIRTH,
    LEG,
    LEG_LENGTH,
    LINE,
    LINE_LENGTH,
    SLING,
    STRAP,
    STRAP_HEIGHT,
    EndField,
    read_strap,
)
from .extension import build_extension
from .person import PersonTable
from .schema import DesignForm

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
        build_bar(form.head_bar, build_extension(form.head_extension)),
        build_bar(form.foot_bar, build_extension(form.foot_extension)),
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
    plate = {"corner.plate": form.corner.plate} if form.corner and form.corner.plate else {}
    return {
        **_list_ends(form, STRAP, SLING),
        **plate,
        "body.fabric": form.body.fabric,
        **({"body.hem.thread": form.body.hem.thread} if form.body.hem else {}),
        "channel.cord": form.channel.cord,
        **_list_sections("head_bar", form.head_bar),
        **_list_sections("foot_bar", form.foot_bar),
        **({"channel.fold.thread": fold.thread} if fold else {}),
        **({"channel.fold.strip": fold.strip} if fold and fold.strip else {}),
        **({"channel.lock.thread": lock.thread} if lock else {}),
        **_list_ends(form, LEG, LINE),
    }


def _list_ends(form: DesignForm, *settings: EndField) -> dict[str, Material]:
    """Return the materials of both ends by the key that names them."""
    return dict(found for setting in settings for end in ENDS for found in setting.locate(form, end))


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
    """Return legs, lines and trees of each end; what is given once stands in both."""
    head, foot = (_build_end(form, end) for end in ENDS)
    return Suspension(head, foot, form.suspension.hang_angle, form.suspension.tree_distance)


def _build_end(form: DesignForm, end: str) -> EndSuspension:
    """Return legs, line and tree of one end."""
    return EndSuspension(
        leg_length=_require(LEG_LENGTH.read(form, end)),
        leg=_require(LEG.read(form, end)),
        line_length=_require(LINE_LENGTH.read(form, end)),
        line=_require(LINE.read(form, end)),
        strap_height=_require(STRAP_HEIGHT.read(form, end)),
        tree=_build_tree(form, end),
    )


def _build_tree(form: DesignForm, end: str) -> Tree | None:
    """Return the trunk at one end and the strap round it; None is not given."""
    found = next(GIRTH.locate(form, end), None)
    if found is None:
        return None
    key, size = found
    girth = size * pi if key.endswith("diameter") else size
    webbing = STRAP.read(form, end)
    if webbing is None:
        return Tree(girth)
    length, hitch = read_strap(form, "strap_length", end), read_strap(form, "hitch", end)
    return Tree(girth, TreeStrap(webbing, length, hitch, _build_slings(form, end)))


def _build_slings(form: DesignForm, end: str) -> Slings | None:
    """Return the slings of a strap, if it has some."""
    cord = SLING.read(form, end)
    if cord is None:
        return None
    reach, shortest, longest = (
        _require(read_strap(form, f"sling_{name}", end)) for name in ("reach", "shortest", "longest")
    )
    return Slings(cord, reach, shortest, longest, read_strap(form, "toggle_mass", end))


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
