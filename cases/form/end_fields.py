"""Settings that may be given once for both ends of a hammock, or for head and foot one by one.

Downstream of the form nothing knows of this: each end has a record of its own. Here stands under which keys a setting
may be written, and what a sweep takes out when it sets one of them.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from .ends import EndsTable
from .schema import DesignForm
from .trees import EndTreeTable

ENDS = ("head", "foot")


@dataclass(frozen=True)
class EndField:
    """One setting of an end.

    Parameters
    ----------
    shared : mapping of str to str
        Key that holds for both ends -> key of one end in its place, ``{end}`` standing for head or foot.
    own : tuple of str
        Other keys of one end.
    example : str
        How it is given once; empty where it may be left out.
    """

    shared: Mapping[str, str]
    own: tuple[str, ...] = ()
    example: str = field(default="", compare=False)

    def list_own(self, end: str) -> tuple[str, ...]:
        """Return the keys that give it for one end alone."""
        return tuple(key.format(end=end) for key in (*self.shared.values(), *self.own))

    def list_homes(self, end: str) -> tuple[str, ...]:
        """Return every key that gives it for one end."""
        return (*self.shared, *self.list_own(end))

    def read(self, form: DesignForm, end: str) -> Any:  # noqa: ANN401 - a number, a word, a material or a table
        """Return what a valid form gives for one end; None where it gives nothing."""
        return next((value for _, value in self.locate(form, end)), None)

    def locate(self, form: DesignForm, end: str) -> Iterator[tuple[str, Any]]:
        """Yield the keys under which a form gives it for one end, with the values; a valid form has one at the most."""
        for key in self.list_homes(end):
            table, name = key.split(".")
            value = getattr(getattr(form, table), name, None)
            if value is not None:
                yield key, value


def _share(table: str, name: str, example: str = "", *own: str) -> EndField:
    """Return a setting whose key of one end has the end before it: ``line`` and ``head_line``."""
    return EndField({f"{table}.{name}": f"{table}.{{end}}_{name}"}, own, example)


LEG = _share("suspension", "leg", 'leg = "12-strand UHMWPE 2 mm"')
LEG_LENGTH = _share("suspension", "leg_length", 'leg_length = "70 cm"')
LINE = _share("suspension", "line", 'line = "12-strand UHMWPE 3 mm"')
LINE_LENGTH = _share("suspension", "line_length", 'line_length = "1.6 m"')
STRAP_HEIGHT = _share("suspension", "strap_height", 'strap_height = "1.6 m"', "{end}_tree.height")
GIRTH = EndField(
    {"trees.girth": "{end}_tree.girth", "trees.diameter": "{end}_tree.diameter"},
    ("trees.{end}_girth",),
    'girth = "1.2 m"',
)
_OF_TREES = {
    name: EndField({f"trees.{name}": f"{{end}}_tree.{name}"})
    for name in EndTreeTable.model_fields
    if name not in ("girth", "diameter", "height")
}
STRAP, SLING = _OF_TREES["strap"], _OF_TREES["sling"]
RIGGING = {name: EndField({f"ends.{name}": f"{{end}}_ends.{name}"}) for name in EndsTable.model_fields}
FIELDS_OF_END = {  # field of a ``EndSuspension`` -> what gives it in a file
    "leg": LEG,
    "leg_length": LEG_LENGTH,
    "line": LINE,
    "line_length": LINE_LENGTH,
    "strap_height": STRAP_HEIGHT,
    "tree.girth": GIRTH,
    "tree.strap.length": _OF_TREES["strap_length"],
    "tree.strap.slings.reach": _OF_TREES["sling_reach"],
    "tree.strap.slings.shortest": _OF_TREES["sling_shortest"],
    "tree.strap.slings.longest": _OF_TREES["sling_longest"],
}
SUSPENSION_FIELDS = (LEG, LEG_LENGTH, LINE, LINE_LENGTH, STRAP_HEIGHT)
END_FIELDS = (*SUSPENSION_FIELDS, GIRTH, *_OF_TREES.values(), *RIGGING.values())


def read_strap(form: DesignForm, name: str, end: str) -> Any:  # noqa: ANN401
    """Return a setting of the strap of one end, such as ``strap_length``; None where a form gives none."""
    return _OF_TREES[name].read(form, end)


def look_up(raw: Mapping[str, Any], key: str) -> Any:  # noqa: ANN401
    """Return what stands at a key of two words in a file as read from TOML; None if nothing does."""
    table, name = key.split(".")
    inside = raw.get(table)
    return inside.get(name) if isinstance(inside, dict) else None


def list_given(raw: Mapping[str, Any], keys: tuple[str, ...]) -> list[str]:
    """Return which of some keys a file gives."""
    return [key for key in keys if look_up(raw, key) is not None]


def find_field_of(key: str) -> tuple[EndField, str | None] | None:
    """Return the setting that a key gives, and for which end; None for both; None alone for any other key.

    Examples
    --------
    >>> find_field_of("suspension.head_line")[1], find_field_of("trees.girth")[1], find_field_of("body.length")
    ('head', None, None)
    """
    for setting in END_FIELDS:
        if key in setting.shared:
            return setting, None
        for end in ENDS:
            if key in setting.list_own(end):
                return setting, end
    return None


def make_room(raw: dict[str, Any], key: str) -> None:
    """Take out of a file what a key excludes, before it is set; what both ends share stays with the other end.

    Parameters
    ----------
    raw : dict
        Tables as read from TOML; they are changed.
    key : str
        Dotted key that will be set.

    Examples
    --------
    >>> raw = {"suspension": {"line_length": "1 m"}}
    >>> make_room(raw, "suspension.head_line_length")
    >>> raw
    {'suspension': {'foot_line_length': '1 m'}}
    """
    found = find_field_of(key)
    if found is None:
        return
    setting, end = found
    for home in [home for each in ([end] if end else ENDS) for home in setting.list_homes(each)]:
        if home == key or look_up(raw, home) is None:
            continue
        table, name = home.split(".")
        value = raw[table].pop(name)
        if end is not None and home in setting.shared:
            other = ENDS[1 - ENDS.index(end)]
            moved, last = setting.shared[home].format(end=other).split(".")
            raw.setdefault(moved, {})[last] = value
